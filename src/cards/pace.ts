import type { Studio } from '../bench/studio.ts';
import { type JobState, nextIndex } from '../job/state.ts';
import { percentText } from '../trade/measures/format.ts';
import type { Pace } from '../trade/time/pace.ts';
import { plain, say, type Text } from '../words/text.ts';

/** Less than this is within what a finger can tell. */
const LEAST_PERCENT = 2;

const coats = (checks: number) => plain(checks === 1 ? '1 coat that was touched' : `${checks} coats that were touched`);

/** "12 % slower than its sheet (4 coats that were touched)". */
export function paceText({ factor, checks }: Pace): Text {
  const percent = Math.abs(factor - 1) * 100;
  if (percent < LEAST_PERCENT) return say`just as its sheet says (${coats(checks)})`;
  return say`${plain(percentText(Math.round(percent)))} ${plain(factor > 1 ? 'slower' : 'faster')} than its sheet (${coats(checks)})`;
}

/** Where the wait at hand is reckoned otherwise than its sheet says, it says so, and why. */
export function paceLine(job: JobState, { paces }: Studio): Text[] {
  const before = job.steps[nextIndex(job) - 1]?.plan;
  const pace = before?.material && before.wait && before.wait.kind !== 'fixed' ? paces.get(before.material.id) : undefined;
  if (!pace || Math.abs(pace.factor - 1) * 100 < LEAST_PERCENT) return [];
  return [say`Reckoned for here: ${before?.material?.name ?? ''} cures ${paceText(pace)}.`];
}
