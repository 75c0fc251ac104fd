import { conditionsOf } from '../bench/conditions.ts';
import { jobCard } from '../cards/job-card.ts';
import type { Card } from '../chat/card.ts';
import type { Told } from '../job/decide.ts';
import type { JobEvent } from '../job/events.ts';
import type { JobState } from '../job/state.ts';
import { isRefusal, type Refusal } from '../words/refusal.ts';
import type { Text } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { job as jobNamed, moment } from './resolve.ts';

/** One change to one job: which job, when, decided and stored as one, and its card afterwards; `told`: its holder must hear. */
export async function changeJob(
  desk: Desk,
  typedJob: string | undefined,
  typedAt: string | undefined,
  decide: (job: JobState, told: Told) => JobEvent[] | Refusal,
  title: (after: JobState, before: JobState) => Text,
  { lines = () => [], told = false }: { lines?: (after: JobState, before: JobState) => readonly Text[]; told?: boolean } = {},
): Promise<Card | Refusal> {
  const at = moment(desk, typedAt);
  if (isRefusal(at)) return at;
  let before: JobState | undefined;
  const decided = await desk.bench.decide((state) => {
    const job = jobNamed(state, typedJob);
    if (isRefusal(job)) return job;
    before = job;
    return decide(job, { by: desk.who, at, now: desk.now, conditions: conditionsOf(state, desk.studio) });
  });
  if (isRefusal(decided)) return decided;
  const after = before && decided.state.jobs.get(before.id);
  if (!before || !after) throw new Error('a job that was changed is not on the bench');
  const { holder } = after;
  // What a finger found may have taught a pace, which the desk does not know yet.
  const studio = await desk.house.studio();
  return jobCard({ job: after, state: decided.state, studio, now: desk.now }, title(after, before), {
    lines: lines(after, before),
    to: told && holder !== desk.who ? [holder] : [],
  });
}
