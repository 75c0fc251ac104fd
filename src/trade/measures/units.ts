/** Grams. The pound is exact by the international agreement of 1959; the ounce is a sixteenth of it. */
export const GRAMS_PER_POUND = 453.59237;
export const GRAMS_PER_OUNCE = GRAMS_PER_POUND / 16;
/** Millimetres, exact. */
export const MILLIMETRES_PER_INCH = 25.4;
/** Millilitres. The US gallon is 231 cubic inches; the imperial one is 4.54609 L; both exact. */
export const MILLILITRES_PER_US_GALLON = 3785.411784;
export const MILLILITRES_PER_IMPERIAL_GALLON = 4546.09;

/** The names of one kind of unit, each with its size in the base unit, and a pattern that finds any of them. */
export interface Units {
  readonly factors: ReadonlyMap<string, number>;
  /** Source of a pattern, for tidied text; use it with the flags `iu`. */
  readonly pattern: string;
}

const compact = (name: string) => name.toLowerCase().replace(/[\s.]/g, '');

/** The size of the unit `name` in the base unit of its table, whatever its case, dots and spaces; or undefined. */
export const factorOf = (units: Units, name: string): number | undefined => units.factors.get(compact(name));

/** `[size, names…]` rows to a table. `end`: what must not follow a name. */
function table(rows: readonly (readonly [number, string])[], end = String.raw`[\p{L}\d]`): Units {
  const named = rows.flatMap(([size, names]) => names.split(', ').map((name) => [name, size] as const));
  const sources = named
    .map(([name]) => name)
    .sort((a, b) => b.length - a.length)
    .map((name) =>
      name
        .split(' ')
        .map((word) => (/\w$/.test(word) ? `${word}\\.?` : word))
        .join(' ?'),
    );
  return {
    factors: new Map(named.map(([name, size]) => [compact(name), size])),
    pattern: `(?:${sources.join('|')})(?!${end})`,
  };
}

const [usGallon, impGallon] = [MILLILITRES_PER_US_GALLON, MILLILITRES_PER_IMPERIAL_GALLON];
const [inch, foot] = [MILLIMETRES_PER_INCH, MILLIMETRES_PER_INCH * 12];
/** Every way of writing which gallon is meant, before each of the names. */
const imperial = (names: string) =>
  ['imp', 'imperial', 'uk'].flatMap((p) => names.split(', ').map((n) => `${p} ${n}`)).join(', ');
const american = (names: string) =>
  `${names}, ${names
    .split(', ')
    .map((name) => `us ${name}`)
    .join(', ')}`;
const GALLON = 'gal, gals, gallon, gallons';
const QUART = 'qt, quart, quarts';
const PINT = 'pt, pint, pints';
const FLUID_OUNCE = 'fl oz, fluid ounce, fluid ounces';

/** Mass in grams. `gr` is left out on purpose: it is a grain to some and a gram to others. */
export const MASS = table([
  [0.001, 'mg, milligram, milligrams'],
  [1, 'g, gm, gms, gram, grams, gramme, grammes'],
  [1000, 'kg, kgs, kilo, kilos, kilogram, kilograms'],
  [GRAMS_PER_OUNCE, 'oz, ounce, ounces'],
  [GRAMS_PER_POUND, 'lb, lbs, pound, pounds'],
]);

/** Volume in millilitres. Gallons, quarts, pints and fluid ounces are American unless "imp" or "uk" stands before them. */
export const VOLUME = table([
  [1, 'ml, mls, millilitre, millilitres, milliliter, milliliters, cc, ccm, cm3'],
  [10, 'cl, centilitre, centilitres'],
  [100, 'dl, decilitre, decilitres'],
  [1000, 'l, litre, litres, liter, liters, dm3'],
  [1e6, 'm3'],
  [inch ** 3 / 1000, 'in3, cu in, cubic inch, cubic inches'],
  [usGallon, american(GALLON)],
  [usGallon / 4, american(QUART)],
  [usGallon / 8, american(PINT)],
  [usGallon / 128, american(FLUID_OUNCE)],
  [impGallon, imperial(GALLON)],
  [impGallon / 4, imperial(QUART)],
  [impGallon / 8, imperial(PINT)],
  [impGallon / 160, imperial(FLUID_OUNCE)],
]);

/** Length in millimetres. A mil is a thousandth of an inch. */
export const LENGTH = table([
  [0.001, 'um, micron, microns, micrometre, micrometres, micrometer, micrometers'],
  [inch / 1000, 'mil, mils, thou'],
  [1, 'mm, millimetre, millimetres, millimeter, millimeters'],
  [10, 'cm, centimetre, centimetres, centimeter, centimeters'],
  [1000, 'm, metre, metres, meter, meters'],
  [inch, 'in, inch, inches, "'],
  [foot, "ft, foot, feet, '"],
  [foot * 3, 'yd, yard, yards'],
]);

/** Area in square metres. */
export const AREA = table([
  [1e-6, 'mm2, sq mm'],
  [1e-4, 'cm2, sq cm, square centimetres, square centimeters'],
  [1e-2, 'dm2, sq dm'],
  [1, 'm2, sq m, sqm, square metre, square metres, square meter, square meters'],
  [inch ** 2 / 1e6, 'in2, sq in, square inch, square inches'],
  [foot ** 2 / 1e6, 'ft2, sq ft, square foot, square feet'],
  [(foot * 3) ** 2 / 1e6, 'yd2, sq yd, square yard, square yards'],
]);

/** Time in minutes. A digit may follow at once, as in 1h30. */
export const DURATION = table(
  [
    [1 / 60, 's, sec, secs, second, seconds'],
    [1, 'm, min, mins, minute, minutes'],
    [60, 'h, hr, hrs, hour, hours'],
    [1440, 'd, day, days'],
    [10080, 'w, wk, week, weeks'],
  ],
  String.raw`\p{L}`,
);

/** Energy per amount of substance in joules per mole. The calorie is the thermochemical one, 4.184 J exactly. */
export const RATE_PER_MOLE = table([
  [1, 'j/mol'],
  [1000, 'kj/mol'],
  [4.184, 'cal/mol'],
  [4184, 'kcal/mol'],
]);

/** Density in grams per millilitre. */
export const DENSITY = table([
  [1, 'g/ml, g/cc, g/cm3, kg/l, kg/dm3'],
  [0.001, 'kg/m3, g/l'],
  [GRAMS_PER_POUND / usGallon, 'lb/gal, lb/us gal, lbs/gal'],
  [GRAMS_PER_POUND / (foot ** 3 / 1000), 'lb/ft3'],
]);

export const celsiusFromFahrenheit = (fahrenheit: number): number => ((fahrenheit - 32) * 5) / 9;

/** Stress in pascal. A dyne per square centimetre is a tenth of a pascal; a pound per square inch is 4.4482216152605 N on it. */
export const PRESSURE = table([
  [0.001, 'mpa'],
  [1, 'pa, pascal, pascals'],
  [0.1, 'dyn/cm2, dyne/cm2'],
  [1000, 'kpa'],
  [4.4482216152605 / (MILLIMETRES_PER_INCH / 1000) ** 2, 'psi'],
]);

/** Mass per area in grams per square metre. */
export const AREAL_WEIGHT = table([
  [1, 'g/m2, gsm, g/sqm, g/sq m'],
  [1000, 'kg/m2'],
  [GRAMS_PER_OUNCE / (foot ** 2 / 1e6), 'oz/ft2, oz/sq ft, oz/sqft'],
  [GRAMS_PER_OUNCE / ((foot * 3) ** 2 / 1e6), 'oz/yd2, oz/sq yd, oz/sqyd'],
]);

/** Mass per time in grams per minute: how fast somebody lays, or pours. */
export const MASS_RATE = table([
  [1, 'g/min, g per min, g a minute, g/minute'],
  [1 / 60, 'g/h, g per h, g/hour'],
  [1000 / 60, 'kg/h, kg per h, kg/hour, kg an hour'],
  [1000, 'kg/min'],
  [GRAMS_PER_OUNCE, 'oz/min, oz per min'],
  [GRAMS_PER_POUND / 60, 'lb/h, lbs/h, lb per h'],
]);
