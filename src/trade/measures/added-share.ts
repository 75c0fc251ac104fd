import { isRefusal, Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import { parsePercent } from './conditions.ts';

/** More than twice of anything is a slip of the finger. */
const MOST_PERCENT = 100;

/**
 * A share that is added to what is needed, in percent: for what stays in the cup, for off-cuts, for the sprue.
 * Refusals: `share-out-of-range` above 100 %, and those of `parsePercent`.
 */
export function parseAddedShare(text: string): number | Refusal {
  const percent = parsePercent(text);
  if (isRefusal(percent) || percent <= MOST_PERCENT) return percent;
  return new Refusal('share-out-of-range', say`I expected 0 to ${MOST_PERCENT} %, and got “${text}”.`, { example: '10 %' });
}
