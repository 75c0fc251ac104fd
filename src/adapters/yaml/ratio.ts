/** A ratio printed three ways, which must fit: by weight, by volume, and the density (g/mL) of each part. */
export interface Printed {
  readonly names: readonly string[];
  readonly weight: readonly number[];
  readonly volume: readonly number[];
  readonly density: readonly number[];
  /** Pa·s, where known. */
  readonly viscosity: readonly (number | undefined)[];
  /** Powders are heavier than what is poured from a bottle. */
  readonly gypsum?: boolean;
}

/** Which of the three is probably wrong, where it stands in the material, and why. */
export interface Misfit {
  readonly path: readonly (string | number)[];
  readonly message: string;
  /** What would fit there, where that is one value. */
  readonly example?: string;
}

/** Densities of resins, rubbers, fillers and gypsum lie in here, in g/mL. */
const PLAUSIBLE = [0.7, 3] as const;
const plausible = (density: number) => density >= PLAUSIBLE[0] && density <= PLAUSIBLE[1];

/** How far the three are apart, in percent: 0 where weight is volume times density for every part. */
export function apartPercent({ weight, volume, density }: Pick<Printed, 'weight' | 'volume' | 'density'>): number {
  const quotients = weight.map((share, index) => share / (Number(volume[index]) * Number(density[index])));
  return (Math.max(...quotients) / Math.min(...quotients) - 1) * 100;
}

/**
 * How far apart, in percent, the three may be: what the material forgives, but never more than 3 %, which is what printed
 * rounding explains (1.2 for 1.235), and never under 1 %, which no data sheet's two digits can keep.
 */
export const allowedPercent = (tolerancePercent: number): number => Math.max(1, Math.min(3, tolerancePercent));

const short = (value: number) => String(Number(value.toPrecision(3)));
const list = (names: readonly string[], values: readonly number[]) =>
  names.map((name, index) => `${name} ${short(Number(values[index]))}`).join(', ');
const scaledTo = (values: readonly number[], like: readonly number[]) => {
  const factor = Math.max(...like) / Math.max(...values);
  return values.map((value) => value * factor);
};

type Thing = 'weight' | 'volume' | 'density';
const CALLED = { weight: 'weight ratio', volume: 'volume ratio', density: 'densities' } as const;
const pathOf = (thing: Thing): readonly string[] => (thing === 'density' ? ['parts'] : ['ratio', thing]);

/** Null where the three agree within `allowed` percent. */
export function misfitOf(printed: Printed, allowed: number): Misfit | null {
  const apart = apartPercent(printed);
  if (apart <= allowed) return null;
  const { names, weight, volume, density } = printed;
  const opening = `weight ratio (${list(names, weight)}), volume ratio (${list(names, volume)}) and densities (${list(names, density)} g/mL) are ${short(apart)} % apart, ${short(allowed)} % is allowed`;
  const [likeliest, ...rest] = [
    ...slips(printed, allowed, 'density'),
    ...swaps(printed, allowed),
    ...slips(printed, allowed, 'weight'),
    ...slips(printed, allowed, 'volume'),
  ];
  if (likeliest) {
    const others = rest.slice(0, 2);
    const also = others.length > 0 ? ` (less likely: ${others.map(({ message }) => message).join('; ')})` : '';
    return { path: likeliest.path, message: `${opening}: ${likeliest.message}${also}` };
  }
  const odd = density.findIndex((value) => !plausible(value));
  if (odd >= 0)
    return {
      path: ['parts', odd, 'density'],
      message: `${opening}: the density of ${names[odd]} is implausible, since such materials lie from ${PLAUSIBLE[0]} to ${PLAUSIBLE[1]} g/mL`,
    };
  const guess = likeliestOf(printed);
  return { ...guess, message: `${opening}: ${wanted(printed)}. Likeliest ${guess.message}` };
}

/** The swaps that would make the three fit, likeliest first: the thicker part is mostly the filled, heavier one. */
function swaps(printed: Printed, allowed: number): Misfit[] {
  const fitting = (['weight', 'volume', 'density'] as const).filter(
    (thing) => apartPercent({ ...printed, [thing]: printed[thing].toReversed() }) <= allowed,
  );
  const [first, second] = printed.viscosity;
  const [light, heavy] = printed.density;
  const contrary = first !== undefined && second !== undefined && (first - second) * (Number(light) - Number(heavy)) < 0;
  const ranked =
    contrary && fitting.includes('density') ? (['density', ...fitting.filter((thing) => thing !== 'density')] as const) : fitting;
  return ranked.map((thing) => ({
    path: pathOf(thing),
    message: `the ${CALLED[thing]} ${thing === 'density' ? 'look' : 'looks'} swapped, ${list(printed.names, printed[thing].toReversed())} would fit${
      thing === 'density' && contrary ? ', and the thicker part is mostly the heavier one' : ''
    }`,
  }));
}

/**
 * Decimal points one place off that would make the three fit. A density must become plausible by it; of two shares, the
 * one that becomes the hundred or the one of the ratio comes first.
 */
function slips(printed: Printed, allowed: number, thing: Thing): Misfit[] {
  const round = (value: number) => value === 100 || value === 1;
  const moved = printed[thing].flatMap((value, index) => [value / 10, value * 10].map((meant) => ({ value, index, meant })));
  return moved
    .sort((a, b) => Number(round(b.meant)) - Number(round(a.meant)))
    .flatMap(({ value, index, meant }): Misfit[] => {
      const fits = apartPercent({ ...printed, [thing]: printed[thing].with(index, meant) }) <= allowed;
      if (!fits || (thing === 'density' && (plausible(value) || !plausible(meant)))) return [];
      const what =
        thing === 'density' ? `density of ${printed.names[index]}` : `share of ${printed.names[index]} in the ${CALLED[thing]}`;
      return [
        {
          path: thing === 'density' ? ['parts', index, 'density'] : [...pathOf(thing), String(printed.names[index])],
          message: `the ${what} looks like a decimal slip, ${short(meant)} instead of ${short(value)} would fit`,
        },
      ];
    });
}

const neededWeight = ({ weight, volume, density }: Printed) =>
  scaledTo(
    volume.map((share, index) => share * Number(density[index])),
    weight,
  );
const neededVolume = ({ weight, volume, density }: Printed) =>
  scaledTo(
    weight.map((share, index) => share / Number(density[index])),
    volume,
  );
/** The density that each part alone would need, if the first part's (for the first: the second's) is right. */
const neededDensity = ({ weight, volume, density }: Printed) =>
  density.map((_, index) => {
    const other = index === 0 ? 1 : 0;
    const quotient = (at: number) => Number(weight[at]) / Number(volume[at]);
    return (Number(density[other]) * quotient(index)) / quotient(other);
  });

/** What each of the three would have to be to fit the other two. */
const wanted = (printed: Printed) =>
  `to fit the other two, the weight ratio would have to be ${list(printed.names, neededWeight(printed))}, or the volume ratio ${list(printed.names, neededVolume(printed))}, or one density ${neededDensity(
    printed,
  )
    .map((density, index) => `${short(density)} for ${printed.names[index]}`)
    .join(' or ')}`;

/** Liquids and pastes lie in here, in g/mL. */
const USUAL = [0.85, 1.7] as const;
/** How far another version's density is off at most. */
const DENSITY_OFF = 0.25;

/** The density that alone explains it: one that such a material has, and not far from the one that is given. */
function densitySlip(printed: Printed): Misfit | null {
  const [least, most] = printed.gypsum ? PLAUSIBLE : USUAL;
  const [found] = neededDensity(printed)
    .map((needed, index) => ({ needed, index, off: Math.abs(needed / Number(printed.density[index]) - 1) }))
    .filter(({ needed, off }) => needed >= least && needed <= most && off <= DENSITY_OFF)
    .sort((a, b) => a.off - b.off);
  if (!found) return null;
  return {
    path: ['parts', found.index, 'density'],
    message: `the density is wrong, that of ${printed.names[found.index]}: densities are often copied from another version, or from the cured piece`,
    example: short(found.needed),
  };
}

/** The small whole numbers that shares are to each other, such as 1:1, 2:1 or 3:4; null where there are none. */
function simple(shares: readonly number[]): number[] | null {
  const least = Math.min(...shares);
  for (const unit of [1, 2, 3, 4]) {
    const counts = shares.map((share) => (share / least) * unit);
    if (counts.every((count) => count < 10.5 && Math.abs(count / Math.round(count) - 1) < 0.02)) return counts.map(Math.round);
  }
  return null;
}

const mapping = (names: readonly string[], values: readonly number[]) =>
  `{ ${names.map((name, index) => `${name}: ${short(Number(values[index]))}`).join(', ')} }`;

/** The likeliest is what becomes simplest by being corrected, and asks for nothing that no material has. */
function likeliestOf(printed: Printed): Misfit {
  const { names, weight, volume } = printed;
  const off = (needed: readonly number[], given: readonly number[]) =>
    Math.max(...needed.map((value, index) => Math.abs(value / Number(given[index]) - 1)));
  const needed = neededVolume(printed);
  const volumeIs = (why: string): Misfit => ({
    path: ['ratio', 'volume'],
    message: `the volume ratio is wrong: ${why}`,
    example: mapping(names, simple(needed) ?? needed),
  });
  if (off(scaledTo(weight, volume), volume) < 0.001)
    return volumeIs('it repeats the weight ratio, which holds only for parts of one density');
  if (off(needed, volume) < 0.15) return volumeIs('it is the one that is mostly printed rounded');
  const density = densitySlip(printed);
  if (density) return density;
  if (simple(needed)) return volumeIs('weight ratio and densities make a simple one, and no density would explain this one');
  return {
    path: ['ratio', 'weight'],
    message: 'the weight ratio is wrong: no density that such materials have would explain it',
    example: mapping(names, neededWeight(printed)),
  };
}
