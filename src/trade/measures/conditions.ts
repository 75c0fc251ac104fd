import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import { type Kind, notZero, parseMeasure, readMeasure, unreadable } from './measure.ts';
import { NUMBER, parseNumber, tidy } from './number.ts';
import { celsiusFromFahrenheit, DENSITY, DURATION, RATE_PER_MOLE } from './units.ts';

const DURATIONS: Kind = { what: 'a time', code: 'duration', units: 'min, h or d', example: '1 h 30 min' };
const TEMPERATURES: Kind = { what: 'a temperature', code: 'temperature', units: 'C or F', example: '21 C' };
const SCALES = ['celsius', 'centigrade', 'fahrenheit', 'degrees'];
const PERCENTS: Kind = { what: 'a share', code: 'percent', units: '%', example: '5 %' };
const RATES: Kind = { what: 'an activation energy', code: 'rate', units: 'kJ/mol', example: '51.2 kJ/mol' };
const DENSITIES: Kind = { what: 'a density', code: 'density', units: 'g/mL', example: '1.08 g/mL' };

/** Minutes, zero included: "18 min", "1h30", "2.5 h", "90m", "3 d", "45 s". Refusals: `unit-missing`, `duration-unreadable`, and those of `parseNumber`. */
export function parseDuration(text: string): number | Refusal {
  // "1h30": minutes that follow hours may go without their unit.
  const typed = tidy(text).replace(/(\d ?h(?:r|rs|our|ours)?\.?) ?([0-5]?\d)$/i, '$1 $2 min');
  const read = readMeasure(typed, DURATION);
  if (isRefusal(read)) return read;
  return read?.rest === '' ? read.value : unreadable(text, DURATIONS, DURATION.names);
}

/**
 * Degrees Celsius: "21 C", "-5 °C", "72 °F"; a bare number only where `fallback` says what it is in.
 * Refusals: `unit-missing`, `temperature-unreadable`, and those of `parseNumber`.
 */
export function parseTemperature(text: string, fallback?: 'C' | 'F'): number | Refusal {
  const match = new RegExp(`^(-?) ?(${NUMBER}) ?(?:°|deg(?:rees?)?|grad)? ?(c|celsius|centigrade|f|fahrenheit)?\\.?$`, 'iu').exec(
    tidy(text).replace(/^\+ ?/, ''),
  );
  if (!match) return unreadable(text, TEMPERATURES, SCALES);
  const [, sign = '', digits = ''] = match;
  const unit = (match[3] ?? fallback)?.[0]?.toUpperCase();
  if (unit === undefined) {
    return new Refusal('unit-missing', say`Is “${text}” in C or in F?`, { example: `${digits} C` });
  }
  const number = parseNumber(digits.replace(/^-/, ''));
  if (isRefusal(number)) return number;
  const signed = sign === '-' || digits.startsWith('-') ? -number : number;
  const celsius = unit === 'F' ? celsiusFromFahrenheit(signed) : signed;
  if (celsius > -273.15 && celsius < 2000) return celsius;
  return new Refusal(
    'temperature-unreadable',
    say`I expected ${plain(TEMPERATURES.what)} of a studio, and got “${text}”.`,
    TEMPERATURES,
  );
}

/** Percent, as a number of hundredths: "5 %", "5%" and "5" are 5. Refusals: `percent-unreadable`, and those of `parseNumber`. */
export function parsePercent(text: string): number | Refusal {
  const match = new RegExp(`^(${NUMBER}) ?(?:%|percent|per cent)?$`, 'i').exec(tidy(text));
  return match ? parseNumber(match[1] ?? '') : unreadable(text, PERCENTS);
}

/** Joules per mole: "51.2 kJ/mol", "12 kcal/mol". Refusals: `unit-missing`, `rate-unreadable`, `rate-zero`, and those of `parseNumber`. */
export const parseRatePerMole = (text: string): number | Refusal =>
  notZero(parseMeasure(text, RATE_PER_MOLE, RATES), text, RATES);

/** Grams per millilitre: a bare number, or "1.08 g/mL", "1080 kg/m³", "9 lb/gal". Refusals: `density-unreadable`, `density-zero`, and those of `parseNumber`. */
export function parseDensity(text: string | number): number | Refusal {
  const typed = String(text);
  const bare = new RegExp(`^${NUMBER}$`).test(tidy(typed));
  return notZero(bare ? parseNumber(typed) : parseMeasure(typed, DENSITY, DENSITIES), typed, DENSITIES);
}
