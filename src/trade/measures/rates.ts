import { isRefusal, Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import type { Price } from '../material.ts';
import { clean, type Kind, notZero, parseMeasure } from './measure.ts';
import { NUMBER, parseNumber, tidy } from './number.ts';
import { AREAL_WEIGHT, factorOf, MASS, MASS_RATE, PRESSURE } from './units.ts';

const PRESSURES: Kind = { what: 'a stress', code: 'pressure', units: 'Pa', example: '40 Pa' };
const AREAL_WEIGHTS: Kind = { what: 'a weight by area', code: 'areal-weight', units: 'g/m² or oz/sq ft', example: '450 g/m2' };
const MASS_RATES: Kind = { what: 'how fast it is laid', code: 'mass-rate', units: 'g/min or kg/h', example: '25 g/min' };

/** Pascal: "40 Pa", "150 dyn/cm2". Refusals: `unit-missing`, `pressure-unreadable`, `pressure-zero`, and those of `parseNumber`. */
export const parsePressure = (text: string): number | Refusal =>
  notZero(parseMeasure(text, PRESSURE, PRESSURES), text, PRESSURES);

/** Grams per square metre: "450 g/m2", "1.5 oz/sq ft". Refusals: `unit-missing`, `areal-weight-unreadable`, `areal-weight-zero`, and those of `parseNumber`. */
export const parseArealWeight = (text: string): number | Refusal =>
  notZero(parseMeasure(text, AREAL_WEIGHT, AREAL_WEIGHTS), text, AREAL_WEIGHTS);

/** Grams per minute: "25 g/min", "1.5 kg/h", "1 oz/min". Refusals: `unit-missing`, `mass-rate-unreadable`, `mass-rate-zero`, and those of `parseNumber`. */
export const parseMassRate = (text: string): number | Refusal =>
  notZero(parseMeasure(text, MASS_RATE, MASS_RATES), text, MASS_RATES);

const PRICE = new RegExp(`^(?:([A-Z]{3}) ?)?(${NUMBER}) ?([A-Z]{3})? ?(?:/|per |a ) ?(${MASS.pattern}|t)$`, 'iu');
/** The signs that mean one currency only: a dollar sign means twenty. */
const SIGNS: Readonly<Record<string, string>> = { '€': 'EUR', '£': 'GBP' };

/** "24.50 EUR/kg", "USD 9 per lb". Refusals: `price-unreadable`, and those of `parseNumber`. */
export function parsePrice(text: string): Price | Refusal {
  const [, before, number = '', after, unit = ''] = PRICE.exec(tidy(text).replace(/[€£]/g, (sign) => `${SIGNS[sign]}`)) ?? [];
  const currency = (before ?? after)?.toUpperCase();
  if (currency === undefined || (before !== undefined && after !== undefined))
    return new Refusal('price-unreadable', say`I expected a price by weight with its currency, and got “${text}”.`, {
      example: '24.50 EUR/kg',
    });
  const amount = parseNumber(number);
  return isRefusal(amount) ? amount : { perKilogram: clean((amount * 1000) / (factorOf(MASS, unit) ?? 1e6)), currency };
}
