import { type Row, table, tableOf } from './unit-table.ts';

export { factorOf, type Units } from './unit-table.ts';

/** Grams. The pound is exact by the international agreement of 1959; the ounce is a sixteenth of it. */
export const GRAMS_PER_POUND = 453.59237;
export const GRAMS_PER_OUNCE = GRAMS_PER_POUND / 16;
/** Millimetres, exact. */
export const MILLIMETRES_PER_INCH = 25.4;
/** Millilitres. The US gallon is 231 cubic inches; the imperial one is 4.54609 L; both exact. */
export const MILLILITRES_PER_US_GALLON = 3785.411784;
export const MILLILITRES_PER_IMPERIAL_GALLON = 4546.09;

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
/** Every way of writing the square of a length. */
const squared = (signs: string, words: string) =>
  [
    ...signs.split(', ').flatMap((sign) => [`${sign}2`, `sq ${sign}`, `square ${sign}`]),
    ...words.split(', ').flatMap((word) => [`square ${word}`, `sq ${word}`]),
  ].join(', ');
const GRAM = 'g, gm, gms, gram, grams, gramme, grammes';
const KILOGRAM = 'kg, kgs, kilo, kilos, kilogram, kilograms, kilogramme, kilogrammes';
const OUNCE = 'oz, ounce, ounces';
const POUND = 'lb, lbs, pound, pounds';
const SQUARE_METRE = `${squared('m', 'metre, metres, meter, meters')}, qm`;
const SQUARE_FOOT = `${squared('ft', 'foot, feet')}, sf`;
const SQUARE_YARD = squared('yd', 'yard, yards');
const MINUTE = 'min, mins, minute, minutes';
const HOUR = 'h, hr, hrs, hour, hours';
const GALLON = 'gal, gals, gallon, gallons';
const QUART = 'qt, qts, quart, quarts';
const PINT = 'pt, pts, pint, pints';
const FLUID_OUNCE = 'fl oz, fl ounce, fl ounces, fluid oz, fluid ounce, fluid ounces';

/** Mass in grams. `gr` is left out on purpose: it is a grain to some and a gram to others. */
export const MASS = table([
  [0.001, 'mg, milligram, milligrams'],
  [1, GRAM],
  [1000, KILOGRAM],
  [GRAMS_PER_OUNCE, OUNCE],
  [GRAMS_PER_POUND, POUND],
]);

/** Volume in millilitres. Gallons, quarts, pints and fluid ounces are American unless "imp" or "uk" stands before them. */
export const VOLUME = table([
  [
    1,
    'ml, mls, millilitre, millilitres, milliliter, milliliters, cc, ccm, cm3, cubic centimetre, cubic centimetres, cubic centimeter, cubic centimeters',
  ],
  [10, 'cl, centilitre, centilitres, centiliter, centiliters'],
  [100, 'dl, decilitre, decilitres, deciliter, deciliters'],
  [1000, 'l, litre, litres, liter, liters, ltr, ltrs, dm3'],
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
  [1, 'mm, mms, millimetre, millimetres, millimeter, millimeters'],
  [10, 'cm, cms, centimetre, centimetres, centimeter, centimeters'],
  [1000, 'm, metre, metres, meter, meters'],
  [inch, 'in, inch, inches, "'],
  [foot, "ft, foot, feet, '"],
  [foot * 3, 'yd, yard, yards'],
]);

/** Area in square metres. */
export const AREA = table([
  [1e-6, squared('mm', 'millimetre, millimetres, millimeter, millimeters')],
  [1e-4, `${squared('cm', 'centimetre, centimetres, centimeter, centimeters')}, qcm`],
  [1e-2, squared('dm', 'decimetre, decimetres, decimeter, decimeters')],
  [1, SQUARE_METRE],
  [inch ** 2 / 1e6, squared('in', 'inch, inches')],
  [foot ** 2 / 1e6, SQUARE_FOOT],
  [(foot * 3) ** 2 / 1e6, SQUARE_YARD],
]);

/** Time in minutes. A digit may follow at once, as in 1h30. */
export const DURATION = table(
  [
    [1 / 60, 's, sec, secs, second, seconds'],
    [1, `m, ${MINUTE}`],
    [60, HOUR],
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

const METRIC_MASS: readonly Row[] = [
  [1, GRAM],
  [1000, KILOGRAM],
];
const POUNDS: readonly Row[] = [[GRAMS_PER_POUND, POUND]];
const OUNCES: readonly Row[] = [[GRAMS_PER_OUNCE, OUNCE]];

/** Density in grams per millilitre. */
export const DENSITY = tableOf([
  [
    METRIC_MASS,
    [
      [1, 'ml, cc, cm3'],
      [1000, 'l, litre, liter, dm3'],
      [1e6, 'm3'],
    ],
  ],
  [
    POUNDS,
    [
      [usGallon, american('gal, gallon')],
      [impGallon, imperial('gal, gallon')],
      [foot ** 3 / 1000, 'ft3, cu ft, cubic foot'],
    ],
  ],
  [OUNCES, [[inch ** 3 / 1000, 'in3, cu in, cubic inch']]],
]);

export const celsiusFromFahrenheit = (fahrenheit: number): number => ((fahrenheit - 32) * 5) / 9;

/**
 * Stress in pascal. A dyne per square centimetre is a tenth of a pascal; a pound per square inch is 4.4482216152605 N on it.
 * MPa and mPa are left out on purpose: case is not told apart here, and they are a milliard apart.
 */
export const PRESSURE = table([
  [1, 'pa, pascal, pascals, n/m2'],
  [0.1, 'dyn/cm2, dyne/cm2'],
  [100, 'hpa, mbar'],
  [1000, 'kpa'],
  [1e5, 'bar'],
  [4.4482216152605 / (MILLIMETRES_PER_INCH / 1000) ** 2, 'psi'],
]);

/** Mass per area in grams per square metre. */
export const AREAL_WEIGHT = tableOf(
  [
    [METRIC_MASS, [[1, SQUARE_METRE]]],
    [
      OUNCES,
      [
        [foot ** 2 / 1e6, SQUARE_FOOT],
        [(foot * 3) ** 2 / 1e6, SQUARE_YARD],
      ],
    ],
  ],
  [[1, 'gsm']],
);

/** Mass per time in grams per minute: how fast somebody lays, or pours. */
export const MASS_RATE = tableOf([
  [
    [...METRIC_MASS, ...POUNDS, ...OUNCES],
    [
      [1, MINUTE],
      [60, HOUR],
    ],
  ],
]);
