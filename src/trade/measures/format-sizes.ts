import { digits, rounded } from './digits.ts';
import { AREAL_WEIGHT, DENSITY, factorOf, MASS_RATE, MILLILITRES_PER_US_GALLON, MILLIMETRES_PER_INCH } from './units.ts';

/**
 * Sizes as people read them at arm's length: three digits at most matter to a brush. A customary reader sees that unit first,
 * with the metric one in brackets, as the data sheet and the files have it.
 */
export type UnitSystem = 'metric' | 'customary';

const both = (units: UnitSystem, customary: () => string, metric: string): string =>
  units === 'metric' ? metric : `${customary()} (${metric})`;

const SQUARE_METRES_PER_SQUARE_FOOT = (MILLIMETRES_PER_INCH * 12) ** 2 / 1e6;

/** "0.85 mm", "12 mm", "1.25 m"; customary "0.12 in (3 mm)", "4.1 ft (1.25 m)". */
export function lengthText(millimetres: number, units: UnitSystem): string {
  const metric = rounded(millimetres) < 1000 ? `${digits(millimetres)} mm` : `${digits(millimetres / 1000)} m`;
  const inches = millimetres / MILLIMETRES_PER_INCH;
  return both(
    units,
    () => (rounded(inches) < 36 ? `${digits(inches, inches < 1 ? 2 : 3)} in` : `${digits(inches / 12)} ft`),
    metric,
  );
}

/** "0.412 m²", "85 cm²" below a hundredth of a square metre; customary "4.43 sq ft (0.412 m²)". */
export function areaText(squareMetres: number, units: UnitSystem): string {
  const metric = rounded(squareMetres * 1e4) < 100 ? `${digits(squareMetres * 1e4)} cm²` : `${digits(squareMetres)} m²`;
  const feet = squareMetres / SQUARE_METRES_PER_SQUARE_FOOT;
  return both(units, () => (rounded(feet) < 0.2 ? `${digits(feet * 144)} sq in` : `${digits(feet)} sq ft`), metric);
}

/** "350 mL", "4.12 L"; customary "11.8 fl oz (350 mL)", "1.09 gal (4.12 L)", both American. */
export function volumeText(millilitres: number, units: UnitSystem): string {
  const metric = rounded(millilitres) < 1000 ? `${digits(millilitres)} mL` : `${digits(millilitres / 1000)} L`;
  const gallons = millilitres / MILLILITRES_PER_US_GALLON;
  return both(units, () => (rounded(gallons * 128) < 64 ? `${digits(gallons * 128)} fl oz` : `${digits(gallons)} gal`), metric);
}

/** Lengths with one unit, and without the other system's: "0.72, 1.01, 1.47 mm", "0.028, 0.04, 0.058 in". */
export function lengthsText(millimetres: readonly number[], units: UnitSystem): string {
  const inches = (value: number) => digits(value / MILLIMETRES_PER_INCH, value < MILLIMETRES_PER_INCH ? 2 : 3);
  return `${millimetres.map((value) => (units === 'metric' ? digits(value) : inches(value))).join(', ')} ${units === 'metric' ? 'mm' : 'in'}`;
}

/** Three lengths with one unit: "300 x 200 x 145 mm"; customary "11.8 x 7.87 x 5.71 in (300 x 200 x 145 mm)". */
export function boxText(millimetres: readonly number[], units: UnitSystem): string {
  const row = (values: readonly number[], unit: string) => `${values.map((value) => digits(value)).join(' x ')} ${unit}`;
  return both(
    units,
    () =>
      row(
        millimetres.map((value) => value / MILLIMETRES_PER_INCH),
        'in',
      ),
    row(millimetres, 'mm'),
  );
}

const unit = (value: number | undefined) => value ?? Number.NaN;
const GRAMS_PER_SQUARE_METRE = {
  mat: unit(factorOf(AREAL_WEIGHT, 'oz/sq ft')),
  cloth: unit(factorOf(AREAL_WEIGHT, 'oz/sq yd')),
};
const GRAMS_PER_MILLILITRE = unit(factorOf(DENSITY, 'lb/gal'));
const GRAMS_PER_MINUTE = unit(factorOf(MASS_RATE, 'oz/min'));

/** "450 g/m²"; customary "1.47 oz/sq ft (450 g/m²)", and of cloth, as the trade sells it, "5.9 oz/sq yd (200 g/m²)". */
export function arealWeightText(gramsPerSquareMetre: number, units: UnitSystem, make: 'mat' | 'cloth' = 'mat'): string {
  const ounces = digits(gramsPerSquareMetre / GRAMS_PER_SQUARE_METRE[make]);
  return both(units, () => `${ounces} oz/${make === 'mat' ? 'sq ft' : 'sq yd'}`, `${digits(gramsPerSquareMetre)} g/m²`);
}

/** "1.05 g/mL"; customary "8.76 lb/gal (1.05 g/mL)", of the American gallon. */
export const densityText = (gramsPerMillilitre: number, units: UnitSystem): string =>
  both(units, () => `${digits(gramsPerMillilitre / GRAMS_PER_MILLILITRE)} lb/gal`, `${digits(gramsPerMillilitre, 4)} g/mL`);

/** "25 g/min"; customary "0.88 oz/min (25 g/min)". */
export const massRateText = (gramsPerMinute: number, units: UnitSystem): string =>
  both(units, () => `${digits(gramsPerMinute / GRAMS_PER_MINUTE, 2)} oz/min`, `${digits(gramsPerMinute)} g/min`);

/** What something costs, to the hundredth: "12.40 EUR". */
export const costText = (amount: number, currency: string): string => `${amount.toFixed(2)} ${currency}`;
