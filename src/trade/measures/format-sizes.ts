import { MILLILITRES_PER_US_GALLON, MILLIMETRES_PER_INCH } from './units.ts';

/**
 * Sizes as people read them at arm's length: three digits at most matter to a brush. A customary reader sees that unit first,
 * with the metric one in brackets, as the data sheet and the files have it.
 */
export type UnitSystem = 'metric' | 'customary';

/** Three significant digits, and all of a whole number: 0.412, 4.12, 41.2, 412, 4120. */
const digits = (value: number, significant = 3): string => {
  if (value === 0) return '0';
  const places = Math.max(0, significant - 1 - Math.floor(Math.log10(Math.abs(value)) + 1e-12));
  return String(Number(value.toFixed(Math.min(places, 6))));
};

const both = (units: UnitSystem, customary: () => string, metric: string): string =>
  units === 'metric' ? metric : `${customary()} (${metric})`;

const SQUARE_METRES_PER_SQUARE_FOOT = (MILLIMETRES_PER_INCH * 12) ** 2 / 1e6;

/** "0.85 mm", "12 mm", "1.25 m"; customary "0.12 in (3 mm)", "4.1 ft (1.25 m)". */
export function lengthText(millimetres: number, units: UnitSystem): string {
  const metric = millimetres < 1000 ? `${digits(millimetres)} mm` : `${digits(millimetres / 1000)} m`;
  const inches = millimetres / MILLIMETRES_PER_INCH;
  return both(units, () => (inches < 36 ? `${digits(inches, inches < 1 ? 2 : 3)} in` : `${digits(inches / 12)} ft`), metric);
}

/** "0.412 m²", "85 cm²" below a hundredth of a square metre; customary "4.43 sq ft (0.412 m²)". */
export function areaText(squareMetres: number, units: UnitSystem): string {
  const metric = squareMetres < 0.01 ? `${digits(squareMetres * 1e4)} cm²` : `${digits(squareMetres)} m²`;
  const feet = squareMetres / SQUARE_METRES_PER_SQUARE_FOOT;
  return both(units, () => (feet < 0.2 ? `${digits(feet * 144)} sq in` : `${digits(feet)} sq ft`), metric);
}

/** "350 mL", "4.12 L"; customary "11.8 fl oz (350 mL)", "1.09 gal (4.12 L)", both American. */
export function volumeText(millilitres: number, units: UnitSystem): string {
  const metric = millilitres < 1000 ? `${digits(millilitres)} mL` : `${digits(millilitres / 1000)} L`;
  const gallons = millilitres / MILLILITRES_PER_US_GALLON;
  return both(units, () => (gallons < 0.5 ? `${digits(gallons * 128)} fl oz` : `${digits(gallons)} gal`), metric);
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

/** "450 g/m²"; customary "1.47 oz/sq ft (450 g/m²)". */
export function arealWeightText(gramsPerSquareMetre: number, units: UnitSystem): string {
  const ounces = (gramsPerSquareMetre / 28.349523125) * SQUARE_METRES_PER_SQUARE_FOOT;
  return both(units, () => `${digits(ounces)} oz/sq ft`, `${digits(gramsPerSquareMetre)} g/m²`);
}

/** What something costs, to the hundredth: "12.40 EUR". */
export const costText = (amount: number, currency: string): string => `${amount.toFixed(2)} ${currency}`;
