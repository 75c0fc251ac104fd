import { GRAMS_PER_OUNCE } from './units.ts';

/** How many decimals a display with this step shows: 1 for 0.1 and for 0.5, none for 1 and for 5. */
function decimalsOf(step: number): number {
  const [digits = '', exponent] = step.toExponential().split('e');
  return Math.max(0, digits.replace(/^\d\.?/, '').length - Number(exponent));
}

/** At most `decimals` of them, without zeros at the end. */
const short = (value: number, decimals: number) =>
  String(Number((value + Math.sign(value) * 1e-9).toFixed(Math.min(decimals, 12))) || 0);

const amount = (value: number, step: number, small: string, large: string) => {
  const decimals = decimalsOf(step);
  return Math.abs(value) < 10_000 ? `${short(value, decimals)} ${small}` : `${short(value / 1000, decimals + 3)} ${large}`;
};

/** Grams as text, with no more digits than a scale with that step shows: "135 g", "9999 g", "12.5 kg". */
export const grams = (value: number, stepGrams: number): string => amount(value, stepGrams, 'g', 'kg');

/** Millilitres as text, with no more digits than the step has: "150 mL", "12.5 L". */
export const millilitres = (value: number, step: number): string => amount(value, step, 'mL', 'L');

/** Grams, since the scale shows them; customary readers see ounces in brackets too: "500 g (1 lb 1.6 oz)". */
export function massText(value: number, units: 'metric' | 'customary', stepGrams: number): string {
  const metric = grams(value, stepGrams);
  if (units === 'metric') return metric;
  const ounces = value / GRAMS_PER_OUNCE;
  if (ounces < 15.995) return `${metric} (${short(ounces, 2)} oz)`;
  const tenths = Math.round(ounces * 10);
  const rest = tenths % 160 === 0 ? '' : ` ${short((tenths % 160) / 10, 1)} oz`;
  return `${metric} (${Math.floor(tenths / 160)} lb${rest})`;
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
