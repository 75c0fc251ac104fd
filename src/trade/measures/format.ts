import { digits } from './digits.ts';
import { GRAMS_PER_OUNCE, MILLILITRES_PER_US_GALLON } from './units.ts';

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

const finest = (step: number, ounces: boolean) => (ounces || decimalsOf(step) <= 3 ? step : 10 ** -sensibleDecimals(step));

/** The finest that is shown of a mass on a scale with that step: an amount on a multiple of it is shown as it is. */
export const shownStep = (stepGrams: number): number => finest(stepGrams, isOunceStep(stepGrams));

/** The same of a volume in measuring cups with that step. */
export const shownCupStep = (step: number): number => finest(step, isStepOf(step, MILLILITRES_PER_FLUID_OUNCE));

const MILLILITRES_PER_FLUID_OUNCE = MILLILITRES_PER_US_GALLON / 128;

/** Whether a display with that step shows ounces: a step of a whole number of hundredths, or of eighths, of one. */
function isStepOf(step: number, ounce: number): boolean {
  const whole = (parts: number) => Math.round(parts) > 0 && Math.abs(parts - Math.round(parts)) < 1e-9 * parts;
  return whole((step / ounce) * 100) || whole((step / ounce) * 8);
}

const isOunceStep = (stepGrams: number): boolean => isStepOf(stepGrams, GRAMS_PER_OUNCE);

/** How many decimals of an ounce a display with that step shows. */
function ounceDecimals(step: number, ounce = GRAMS_PER_OUNCE): number {
  const thousandths = Math.round((step / ounce) * 1000);
  return thousandths % 1000 === 0 ? 0 : thousandths % 100 === 0 ? 1 : thousandths % 10 === 0 ? 2 : 3;
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
 * (1 lb 1.6 oz)"; on a scale that shows ounces it is the other way round, "10.5 oz (298 g)".
 */
export function massText(value: number, units: 'metric' | 'customary', stepGrams: number): string {
  const metric = grams(value, stepGrams);
  if (units === 'metric') return metric;
  if (!isOunceStep(stepGrams)) return `${metric} (${poundsAbout(value)})`;
  const decimals = ounceDecimals(stepGrams);
  return `${pounds(value, decimals)} (${translated(value, stepGrams < 1 ? 4 : 3)})`;
}

/** A weight that nobody weighs out, to three digits, in the same order: "3700 g (8 lb 2.5 oz)", "8 lb 2.5 oz (3700 g)". */
export function aboutText(value: number, units: 'metric' | 'customary', stepGrams: number): string {
  const neat = Number(value.toPrecision(3));
  const metric = translated(neat, neat < 1 ? 1 : neat < 10 ? 2 : 3);
  if (units === 'metric') return metric;
  return isOunceStep(stepGrams) ? `${poundsAbout(neat)} (${metric})` : `${metric} (${poundsAbout(neat)})`;
}

/** Grams as a translation of what stands before: so many digits and all whole grams below 10 kg. */
const translated = (value: number, significant: number) =>
  Math.round(value) < 10_000 ? `${digits(value, significant)} g` : `${digits(value / 1000, significant + 1)} kg`;

/** Ounces below a pound, pounds and ounces from there on, with so many decimals. */
function pounds(value: number, decimals: number, below = short(value / GRAMS_PER_OUNCE, decimals)): string {
  if (Number(below) < 16) return `${below} oz`;
  const scale = 10 ** decimals;
  const count = Math.round((value / GRAMS_PER_OUNCE) * scale);
  const rest = count % (16 * scale) === 0 ? '' : ` ${short((count % (16 * scale)) / scale, decimals)} oz`;
  return `${Math.floor(count / (16 * scale))} lb${rest}`;
}

/** The same as a help to whoever reads ounces: three digits, of large weights the ounces or the pounds. */
function poundsAbout(value: number): string {
  const ounces = value / GRAMS_PER_OUNCE;
  if (ounces >= 1600) return `${Math.round(ounces / 16)} lb`;
  return pounds(value, ounces < 160 ? 1 : 0, digits(ounces, ounces < 1 ? 2 : 3));
}

/** The reading of a measuring cup alone, in what it shows: "222 mL", or "7.5 fl oz" on one marked in American fluid ounces. */
export const cupReadingText = (value: number, step: number): string =>
  isStepOf(step, MILLILITRES_PER_FLUID_OUNCE)
    ? `${short(value / MILLILITRES_PER_FLUID_OUNCE, ounceDecimals(step, MILLILITRES_PER_FLUID_OUNCE))} fl oz`
    : millilitres(value, step);

/** What may be finer than a scale with that step shows, to two digits: "0.57 g", "0.02 oz". */
export const fineText = (grams: number, stepGrams: number): string =>
  isOunceStep(stepGrams) ? `${digits(grams / GRAMS_PER_OUNCE, 2)} oz` : `${digits(grams, 2)} g`;

/**
 * What a measuring cup with that step shows comes first: "220 mL", customary "220 mL (7.44 fl oz)"; on a cup marked in American
 * fluid ounces, "7.5 fl oz (222 mL)".
 */
export function cupText(value: number, units: 'metric' | 'customary', step: number): string {
  const reading = cupReadingText(value, step);
  if (units === 'metric') return reading;
  const ounces = value / MILLILITRES_PER_FLUID_OUNCE;
  return isStepOf(step, MILLILITRES_PER_FLUID_OUNCE)
    ? `${reading} (${digits(value)} mL)`
    : `${reading} (${digits(ounces, ounces < 1 ? 2 : 3)} fl oz)`;
}

/** The reading alone, in what the scale shows: "298 g", or "10.5 oz" on a scale in ounces. */
export const scaleText = (value: number, stepGrams: number): string =>
  isOunceStep(stepGrams) ? `${short(value / GRAMS_PER_OUNCE, ounceDecimals(stepGrams))} oz` : grams(value, stepGrams);

/** Celsius as text, to a tenth; customary readers see Fahrenheit first: "17.8 °C", "64 °F (17.8 °C)". */
export function temperatureText(celsius: number, units: 'metric' | 'customary'): string {
  const metric = `${short(celsius, 1)} °C`;
  return units === 'metric' ? metric : `${short((celsius * 9) / 5 + 32, 0)} °F (${metric})`;
}

/** Two temperatures that something lies between: "15 to 32 °C", "59 to 90 °F (15 to 32 °C)". */
export function temperaturesText(from: number, until: number, units: 'metric' | 'customary'): string {
  const fahrenheit = (celsius: number) => short((celsius * 9) / 5 + 32, 0);
  const metric = `${short(from, 1)} to ${short(until, 1)} °C`;
  return units === 'metric' ? metric : `${fahrenheit(from)} to ${fahrenheit(until)} °F (${metric})`;
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

/**
 * How long something is good for, never rounded up: whole minutes, and below five of them to ten seconds: "1 min 40 s".
 */
export function goodForText(minutes: number): string {
  if (minutes >= 5) return minutesText(Math.floor(minutes + 1e-6));
  const seconds = Math.floor(minutes * 6 + 1e-6) * 10;
  const rest = seconds % 60 === 0 ? '' : ` ${seconds % 60} s`;
  return seconds < 60 ? `${seconds} s` : `${Math.floor(seconds / 60)} min${rest}`;
}

/** Percent as text: "0.3 %", "12 %"; two decimals below a tenth. */
export const percentText = (value: number): string => `${short(value, Math.abs(value) < 0.095 ? 2 : 1)} %`;
