import { stoichiometryOf } from '../../trade/chemistry/equivalents.ts';
import { nearest } from '../../words/nearest.ts';
import { check, type Report } from './fields.ts';
import type { Entry } from './material-entry.ts';
import { allowedPercent, misfitOf } from './ratio.ts';

type Parts = Pick<Entry, 'parts'>;
/** Densities outside these are no moulding material's, in g/mL. */
const POSSIBLE = [0.2, 8] as const;

function mustBeParts({ parts }: Parts, names: readonly string[], path: readonly string[], report: Report): boolean {
  const known = parts.map(({ part }) => part);
  const stray = names.filter((name) => !known.includes(name));
  const missing = known.filter((name) => !names.includes(name));
  for (const name of stray) {
    const meant = nearest(name, missing, 1).join('');
    report(
      [...path, name],
      `there is no part "${name}"; ${meant ? `did you mean ${meant}?` : `the parts are ${known.join(', ')}`}`,
    );
  }
  if (missing.length > 0 && stray.length === 0) report(path, `expected every part, got none for ${missing.join(', ')}`);
  return stray.length + missing.length === 0;
}

const LETTERS = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];
const freeLetter = (taken: readonly string[]) =>
  LETTERS.find((letter) => !taken.some((part) => part.toUpperCase() === letter)) ?? '';

function partNames({ parts }: Parts, report: Report) {
  for (const [index, { part }] of parts.entries())
    if (parts.findIndex((other) => other.part.toLowerCase() === part.toLowerCase()) < index)
      report(['parts', index, 'part'], `the part "${part}" is there twice`, freeLetter(parts.map((other) => other.part)));
}

function ratioFits(
  { parts, ratio, family, tolerance = 2 }: Pick<Entry, 'parts' | 'ratio' | 'family' | 'tolerance'>,
  report: Report,
) {
  const { weight, volume } = ratio;
  if (!weight && !volume) return report(['ratio'], 'expected a ratio by weight, by volume or both, got neither');
  const named = [weight, volume].map(
    (shares, at) => !shares || mustBeParts({ parts }, [...shares.keys()], ['ratio', at === 0 ? 'weight' : 'volume'], report),
  );
  if (named.includes(false)) return;
  const bare = parts.findIndex(({ density }) => density === undefined);
  if (!weight && bare >= 0)
    return report(
      ['parts', bare, 'density'],
      'expected a density in g/mL, got nothing: with only a volume ratio, weighing needs one for each part',
    );
  const names = parts.map(({ part }) => part);
  const inOrder = (shares: ReadonlyMap<string, number>) => names.map((name) => Number(shares.get(name)));
  if (weight && volume && bare < 0) {
    const density = parts.map((part) => Number(part.density));
    const printed = {
      names,
      weight: inOrder(weight),
      volume: inOrder(volume),
      density,
      gypsum: family === 'gypsum',
      viscosity: parts.map(({ viscosity }) => viscosity),
    };
    const misfit = misfitOf(printed, allowedPercent(tolerance));
    if (misfit) return report(misfit.path, misfit.message, misfit.example);
  }
  for (const [index, { density = 1 }] of parts.entries())
    if (density < POSSIBLE[0] || density > POSSIBLE[1])
      report(['parts', index, 'density'], `expected a density from ${POSSIBLE[0]} to ${POSSIBLE[1]} g/mL, got ${density}`);
}

function pourOrder({ parts, pourOrder: order }: Pick<Entry, 'parts' | 'pourOrder'>, report: Report) {
  if (!order) return;
  const named = mustBeParts({ parts }, order, ['pourOrder'], report);
  if (named && new Set(order).size < order.length) report(['pourOrder'], 'expected each part once');
}

function additives({ parts, additives: entries = [] }: Pick<Entry, 'parts' | 'additives'>, report: Report) {
  const known = parts.map(({ part }) => part);
  for (const [index, { of, least, most, usual }] of entries.entries()) {
    if (!known.includes(of)) report(['additives', index, 'of'], `there is no part "${of}"; the parts are ${known.join(', ')}`);
    if (least > most)
      report(['additives', index, 'least'], `expected least to be no more than most, got ${least} % and ${most} %`);
    else if (usual !== undefined && (usual < least || usual > most))
      report(['additives', index, 'usual'], `expected usual to lie from least to most (${least} to ${most} %), got ${usual} %`);
  }
}

function recoat({ recoat: window }: Pick<Entry, 'recoat'>, report: Report) {
  if (window?.until !== undefined && window.until <= window.from)
    report(
      ['recoat', 'until'],
      `expected the window to close after it opens, got from ${window.from} min until ${window.until} min`,
      `${window.from * 2} min`,
    );
}

function temperatures({ usable, reference }: Pick<Entry, 'usable' | 'reference'>, report: Report) {
  if (!usable) return;
  if (usable.from >= usable.until)
    report(
      ['usable', 'until'],
      `expected until to be warmer than from, got ${usable.from} C and ${usable.until} C`,
      `${usable.from + 10} C`,
    );
  else if (reference.temperature < usable.from || reference.temperature > usable.until)
    report(
      ['reference', 'temperature'],
      `expected it to lie in the usable range, ${usable.from} to ${usable.until} C, got ${reference.temperature} C`,
      `${(usable.from + usable.until) / 2} C`,
    );
}

function coat({ coat: layer }: Pick<Entry, 'coat'>, report: Report) {
  if (layer?.most !== undefined && layer.thickness > layer.most)
    report(
      ['coat', 'most'],
      `expected at least the usual thickness, ${layer.thickness} mm, got ${layer.most} mm`,
      `${Number((layer.thickness * 2).toPrecision(6))} mm`,
    );
}

function equivalents({ parts }: Parts, report: Report) {
  for (const [index, { equivalent, group }] of parts.entries()) {
    if (equivalent !== undefined && group === undefined)
      report(['parts', index, 'group'], 'expected which groups react, got nothing: an equivalent weight needs it', 'amine');
    if (equivalent === undefined && group !== undefined)
      report(
        ['parts', index, 'equivalent'],
        'expected grams for each mole of reacting groups, got nothing: group needs it',
        '190',
      );
  }
}

function potLives(
  { potLifeByMass = [], potLife, reference }: Pick<Entry, 'potLifeByMass' | 'potLife' | 'reference'>,
  report: Report,
) {
  const points = [
    ...(reference.mass === undefined ? [] : [{ mass: reference.mass, potLife, index: -1 }]),
    ...potLifeByMass.map((point, index) => ({ ...point, index })),
  ].sort((a, b) => a.mass - b.mass || a.index - b.index);
  for (const [at, point] of points.entries()) {
    const before = points[at - 1];
    if (!before) continue;
    const index = Math.max(point.index, before.index);
    if (point.mass === before.mass)
      report(['potLifeByMass', index, 'mass'], `there are two pot lives for ${point.mass} g`, `${point.mass * 2} g`);
    else if (point.potLife > before.potLife)
      report(
        ['potLifeByMass', index, 'potLife'],
        `expected a larger mass to go off no later, got ${before.potLife} min for ${before.mass} g and ${point.potLife} min for ${point.mass} g`,
        `${before.potLife} min`,
      );
  }
}

function catalyst({ parts, catalyst: part, ratio }: Pick<Entry, 'parts' | 'catalyst' | 'ratio'>, report: Report) {
  if (!part) return;
  if (!mustBeParts({ parts: parts.filter((each) => each.part === part.part) }, [part.part], ['catalyst'], report)) return;
  if (part.least >= part.most)
    return report(
      ['catalyst', 'most'],
      `expected most to be more than least, got ${part.least} % and ${part.most} %`,
      `${part.least + 1} %`,
    );
  const { weight } = ratio;
  if (!weight) return report(['ratio', 'weight'], 'expected a ratio by weight: the share of a catalyst is one');
  const main = Math.max(...[...weight].flatMap(([name, share]) => (name === part.part ? [] : [share])));
  const percent = (100 * Number(weight.get(part.part))) / main;
  if (percent < part.least - 1e-9 || percent > part.most + 1e-9)
    report(
      ['catalyst'],
      `expected the ratio to lie within its limits, ${part.least} to ${part.most} %, got ${Number(percent.toPrecision(4))} %`,
    );
}

function heat({ peak, stands, reference }: Pick<Entry, 'peak' | 'stands' | 'reference'>, report: Report) {
  if (peak !== undefined && peak < reference.temperature)
    report(['peak'], `expected more than the reference temperature, ${reference.temperature} C, got ${peak} C`, '60 C');
  if (stands !== undefined && stands < reference.temperature)
    report(['stands'], `expected more than the reference temperature, ${reference.temperature} C, got ${stands} C`, '80 C');
}

function release({ release: families }: Pick<Entry, 'release'>, report: Report) {
  for (const [index, family] of (families?.notNeeded ?? []).entries())
    if (families?.needed?.includes(family))
      report(['release', 'notNeeded', index], `${family} is in both lists: a release is needed, or it is not`);
}

/** No index that somebody means lies further than this from 1, in percent. Common practice, no source. */
const MEANT_OFF = 10;

/** Equivalents that give quite another ratio than is printed: one of them is a slip. */
function chemistry({ parts, ratio, tolerance = 2 }: Pick<Entry, 'parts' | 'ratio' | 'tolerance'>, report: Report) {
  const { weight, volume } = ratio;
  const shares = parts.map(({ part, density }) => weight?.get(part) ?? Number(volume?.get(part)) * Number(density));
  const chemical = parts.map(({ part, equivalent, group }, index) => ({
    name: part,
    weightShare: Number(shares[index]),
    equivalent: equivalent !== undefined && group !== undefined ? { grams: equivalent, group } : null,
  }));
  const found = stoichiometryOf(chemical);
  if (found === null || Math.abs(found.printedIndex - 1) * 100 <= Math.max(MEANT_OFF, tolerance)) return;
  const short = (values: readonly number[]) => values.map((value) => Number(value.toPrecision(3))).join(':');
  const names = parts.map(({ part }) => part).join(':');
  report(
    ['ratio'],
    `the equivalents say ${short(found.shares)} by weight (${names}), the ratio says ${short(shares)}: one of them is wrong`,
    `{ weight: { ${parts.map(({ part }, index) => `${part}: ${Number(Number(found.shares[index]).toPrecision(3))}`).join(', ')} } }`,
  );
}

/** What must fit between the fields of one material. */
export const materialChecks = [
  check<Entry>(['parts'], partNames),
  check<Entry>(['parts', 'ratio', 'tolerance'], ratioFits),
  check<Entry>(['parts', 'pourOrder'], pourOrder),
  check<Entry>(['parts', 'additives'], additives),
  check<Entry>(['recoat'], recoat),
  check<Entry>(['usable', 'reference'], temperatures),
  check<Entry>(['coat'], coat),
  check<Entry>(['parts'], equivalents),
  check<Entry>(['parts', 'ratio', 'tolerance'], chemistry),
  check<Entry>(['potLifeByMass', 'potLife', 'reference'], potLives),
  check<Entry>(['parts', 'catalyst', 'ratio'], catalyst),
  check<Entry>(['peak', 'stands', 'reference'], heat),
  check<Entry>(['release'], release),
] as const;
