import { GRAMS_PER_OUNCE } from './units.ts';

/** How many decimals a display with this step shows: 1 for 0.1 and for 0.5, none for 1 and for 5. */
function decimalsOf(step: number): number {
  const [digits = '', exponent] = step.toExponential().split('e');
  return Math.max(0, digits.replace(/^\d\.?/, '').length - Number(exponent));
}

/** The same, but no more than make sense: a step that is odd in this unit (0.1 oz in grams) would show a dozen. */
function sensibleDecimals(step: number): number {
  const decimals = decimalsOf(step);
  if (decimals <= 3) return decimals;
  return step >= 1 ? 0 : step >= 0.1 ? 1 : 2;
}

/** The finest that is shown of an amount in that step: an amount on a multiple of it is shown as it is. */
export const shownStep = (step: number): number => {
  const finest = 10 ** -sensibleDecimals(step);
  return isOunceStep(step) || decimalsOf(step) <= 3 ? step : finest;
};

/** Whether a scale with that step shows ounces: a step of a whole number of hundredths of an ounce. */
function isOunceStep(stepGrams: number): boolean {
  const hundredths = (stepGrams / GRAMS_PER_OUNCE) * 100;
  return Math.round(hundredths) > 0 && Math.abs(hundredths - Math.round(hundredths)) < 1e-9 * hundredths;
}

/** How many decimals of an ounce a scale with that step shows. */
function ounceDecimals(stepGrams: number): number {
  const hundredths = Math.round((stepGrams / GRAMS_PER_OUNCE) * 100);
  return hundredths % 100 === 0 ? 0 : hundredths % 10 === 0 ? 1 : 2;
}

/** At most `decimals` of them, without zeros at the end. */
const short = (value: number, decimals: number) =>
  String(Number((value + Math.sign(value) * 1e-9).toFixed(Math.min(decimals, 12))) || 0);

const amount = (value: number, step: number, small: string, large: string) => {
  const decimals = sensibleDecimals(step);
  return Math.abs(value) < 10_000 ? `${short(value, decimals)} ${small}` : `${short(value / 1000, decimals + 3)} ${large}`;
};

/** Grams as text, with no more digits than a scale with that step shows, and no more than make sense: "135 g", "9999 g", "12.5 kg". */
export const grams = (value: number, stepGrams: number): string => amount(value, stepGrams, 'g', 'kg');

/** Millilitres as text, with no more digits than the step has: "150 mL", "12.5 L". */
export const millilitres = (value: number, step: number): string => amount(value, step, 'mL', 'L');

/**
 * What the scale shows comes first, so that it can be compared: grams, with ounces in brackets for customary readers, "500 g
 * (1 lb 1.6 oz)"; on a scale that shows ounces it is the other way round, "10.5 oz (297.7 g)".
 */
export function massText(value: number, units: 'metric' | 'customary', stepGrams: number): string {
  const metric = grams(value, stepGrams);
  if (units === 'metric') return metric;
  if (isOunceStep(stepGrams))
    return `${pounds(value, ounceDecimals(stepGrams), ounceDecimals(stepGrams))} (${grams(value, 0.1)})`;
  return `${metric} (${pounds(value, 2, 1)})`;
}

/** Ounces below a pound, pounds and ounces from there on. */
function pounds(value: number, ounceDigits: number, restDigits: number): string {
  const ounces = value / GRAMS_PER_OUNCE;
  if (Number(ounces.toFixed(ounceDigits)) < 16) return `${short(ounces, ounceDigits)} oz`;
  const scale = 10 ** restDigits;
  const count = Math.round(ounces * scale);
  const rest = count % (16 * scale) === 0 ? '' : ` ${short((count % (16 * scale)) / scale, restDigits)} oz`;
  return `${Math.floor(count / (16 * scale))} lb${rest}`;
}

/** The reading alone, in what the scale shows: "298 g", or "10.5 oz" on a scale in ounces. */
export const scaleText = (value: number, stepGrams: number): string =>
  isOunceStep(stepGrams) ? `${short(value / GRAMS_PER_OUNCE, ounceDecimals(stepGrams))} oz` : grams(value, stepGrams);

/** Celsius as text, to a tenth; customary readers see Fahrenheit first: "17.8 °C", "64 °F (17.8 °C)". */
export function temperatureText(celsius: number, units: 'metric' | 'customary'): string {
  const metric = `${short(celsius, 1)} °C`;
  return units === 'metric' ? metric : `${short((celsius * 9) / 5 + 32, 0)} °F (${metric})`;
}

/** Minutes as text, in at most two units: "45 s", "45 min", "1 h 30 min", "2 d 4 h". */
export function minutesText(minutes: number): string {
  if (minutes > 0 && Math.round(minutes * 60) < 60) return `${Math.round(minutes * 60)} s`;
  const whole = Math.round(minutes);
  if (whole < 60) return `${whole} min`;
  if (whole < 1440) return two(whole, 60, 'h', 'min');
  return two(Math.round(minutes / 60), 24, 'd', 'h');
}

const two = (count: number, size: number, large: string, small: string) =>
  `${Math.floor(count / size)} ${large}${count % size === 0 ? '' : ` ${count % size} ${small}`}`;

/** Percent as text: "0.3 %", "12 %"; two decimals below a tenth. */
export const percentText = (value: number): string => `${short(value, Math.abs(value) < 0.095 ? 2 : 1)} %`;
