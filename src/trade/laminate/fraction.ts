import { isRefusal, Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import { parsePercent } from '../measures/quantity.ts';

/** Percent by weight. With less it is resin with hair in it; with more, laid by hand, some of it stays dry. */
const [LEAST, MOST] = [10, 75];

/**
 * The share of fibre in a laminate, in percent of its weight: "30 %", "30", or "0,3" of one.
 * Refusals: `fraction-out-of-range`, and those of `parsePercent`.
 */
export function parseFraction(text: string): number | Refusal {
  const read = parsePercent(text);
  if (isRefusal(read)) return read;
  const percent = read < 1 && !/%|per/i.test(text) ? Number((read * 100).toPrecision(12)) : read;
  if (percent >= LEAST && percent <= MOST) return percent;
  return new Refusal(
    'fraction-out-of-range',
    say`I expected ${LEAST} to ${MOST} % of the weight to be fibre, and got “${text}”.`,
    { example: '30 %' },
  );
}
