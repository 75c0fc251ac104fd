/** The names of one kind of unit, each with its size in the base unit, and a pattern that finds any of them. */
export interface Units {
  readonly factors: ReadonlyMap<string, number>;
  readonly names: readonly string[];
  /** Source of a pattern, for tidied text; use it with the flags `iu`. */
  readonly pattern: string;
}

const compact = (name: string) => name.toLowerCase().replace(/[\s.]/g, '');

/** The size of the unit `name` in the base unit of its table, whatever its case, dots and spaces; or undefined. */
export const factorOf = (units: Units, name: string): number | undefined => units.factors.get(compact(name));

/** What must not follow a name: a letter, or a digit that begins no other measure, as the 4 of 1lb4oz does. */
const END = String.raw`\p{L}|\d(?!\d*(?:[.,]\d+)? ?[\p{L}"'])`;

/** The size of a unit in the base unit of its table, and all its names: "g, gram, grams". */
export type Row = readonly [number, string];

const namesOf = (rows: readonly Row[]) => rows.flatMap(([size, names]) => names.split(', ').map((name) => [name, size] as const));

/** Source of a pattern for any of the names, the longest first, with dots and without spaces as people will. */
const anyOf = (names: Iterable<string>): string =>
  [...new Set(names)]
    .sort((a, b) => b.length - a.length)
    .map((name) =>
      name
        .split(' ')
        .map((word) => (/\w$/.test(word) ? `${word}\\.?` : word))
        .join(' ?'),
    )
    .join('|');

/** `[size, names…]` rows to a table. `end`: what must not follow a name. */
export function table(rows: readonly Row[], end = END): Units {
  const named = namesOf(rows);
  return {
    factors: new Map(named.map(([name, size]) => [compact(name), size])),
    names: named.map(([name]) => name),
    pattern: `(?:${anyOf(named.map(([name]) => name))})(?!${end})`,
  };
}

/** The same of one measure by another, `[over, under]` in each row: "g/min", "oz per min", "kg an hour", "g / m2". */
export function tableOf(
  rows: readonly (readonly [over: readonly Row[], under: readonly Row[]])[],
  single: readonly Row[] = [],
): Units {
  const pairs = rows.flatMap(([over, under]) =>
    namesOf(over).flatMap(([one, size]) => namesOf(under).map(([other, by]) => [one, other, size / by] as const)),
  );
  const alone = namesOf(single);
  const [over, under] = [anyOf(pairs.map(([one]) => one)), anyOf(pairs.map(([, other]) => other))];
  const keys = pairs.flatMap(([one, other, size]) =>
    ['/', 'per', 'a', 'an'].map((by) => [`${compact(one)}${by}${compact(other)}`, size] as const),
  );
  return {
    factors: new Map([...keys, ...alone.map(([name, size]) => [compact(name), size] as const)]),
    names: [...pairs.map(([one, other]) => `${one}/${other}`), ...alone.map(([name]) => name)],
    pattern: `(?:(?:${over}) ?(?:/|per|an?) ?(?:${under})${alone.length > 0 ? `|${anyOf(alone.map(([name]) => name))}` : ''})(?!${END})`,
  };
}
