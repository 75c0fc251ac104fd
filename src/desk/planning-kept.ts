import { conditionsOf } from '../bench/conditions.ts';
import type { BenchEvent } from '../bench/events.ts';
import type { BenchState } from '../bench/fold.ts';
import { hoursOptions } from '../cards/as-typed.ts';
import { jobCard } from '../cards/job-card.ts';
import type { Card } from '../chat/card.ts';
import * as decide from '../job/decide.ts';
import type { JobState } from '../job/state.ts';
import { temperatureText } from '../trade/measures/format.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { clock, plain, say, type Text } from '../words/text.ts';
import { countedOn, isCountedOn, toldAlong, withUntold } from './counted-on.ts';
import type { Desk } from './desk.ts';
import { line, type Typed } from './examples.ts';
import { type PlanAsk, type PlanInput, planAsked, planTyped, type Read, STILL_STARTS } from './plan-options.ts';
import { job as jobNamed } from './resolve.ts';
import { curing, outsideRange } from './room-fits.ts';

interface KeptPlan extends PlanInput {
  readonly job?: string | undefined;
}

/** What is kept of a plan; `none`: there is to be no promise any more. */
interface Keeping {
  readonly ask: Read;
  readonly none: boolean;
}

const NO_PROMISE = ['none', 'no', 'off', '-'];

/** Another start, or another promise, for a job that is entered, and what its plan counts on. */
export async function planJob(desk: Desk, input: KeptPlan): Promise<Card | Refusal> {
  const typed: Typed = { job: input.job, ...planTyped(input) };
  if ([input.start, input['ready-by'], input.extra, input.room].every((each) => each === undefined))
    return new Refusal('nothing-to-set', say`Say when it is to begin, or when it is to be ready.`, {
      example: line('job plan', { ...typed, 'ready-by': 'fri 16:00' }),
    });
  const state = await desk.bench.state();
  const named = jobNamed(state, input.job, { desk, command: 'job plan', options: typed });
  // Where both are wrong, an example is right in both.
  if (isRefusal(named)) {
    const times = planAsked(desk, input, { command: 'job plan', options: { job: input.job } });
    return isRefusal(times) && !isNone(input) ? times : named;
  }
  const begun = input.start === undefined ? null : decide.begunAlready(named);
  if (begun) return begun;
  const none = isNone(input);
  const times = none ? { ...input, 'ready-by': undefined } : input;
  const ask = planAsked(desk, times, { command: 'job plan', options: typed }, STILL_STARTS);
  if (isRefusal(ask)) return ask;
  const outside = outsideRange(ask.roomCelsius, curing(named), desk.studio, (room) => line('job plan', { ...typed, room }));
  if (outside) return outside;
  // All that may go wrong goes wrong before anything is stored.
  const first = eventsFor(named, state, desk, { ask, none });
  if (isRefusal(first)) return first;
  const counted = first.length > 0 ? ask : withUntold(desk.studio, ask);
  const along = await toldAlong(desk, counted);
  if (isRefusal(along)) return along;
  const decided = await desk.bench.decide((now): BenchEvent[] | Refusal => {
    const job = now.jobs.get(named.id) ?? named;
    const events = eventsFor(job, now, desk, { ask, none });
    return isRefusal(events) ? events : [...along, ...withHandsAsked(events, job, desk, counted)];
  });
  if (isRefusal(decided)) return decided;
  const job = decided.state.jobs.get(named.id);
  if (!job) throw new Error('a job that was planned is not on the bench');
  const view = { job, state: decided.state, studio: await desk.house.studio(), now: desk.now };
  return jobCard(view, titleOf(job, first.length > 0, desk, { ask, none }), {
    lines: countedOn(desk, ask),
    to: job.holder === desk.who ? [] : [job.holder],
  });
}

const isNone = (input: KeptPlan): boolean => NO_PROMISE.includes(input['ready-by']?.trim().toLowerCase() ?? '');

/** What the job is to be told; nothing where it is only the hands, or the room, that change. */
function eventsFor(job: JobState, state: BenchState, desk: Desk, { ask, none }: Keeping) {
  const told = { by: desk.who, at: desk.now, now: desk.now, conditions: conditionsOf(state, desk.studio) };
  const readyBy = none ? null : (ask.readyBy ?? undefined);
  const isOwn = ask.start !== null || readyBy !== undefined;
  const decided = decide.plan(job, { beginsAt: beginsAt(job, ask), readyBy }, told);
  const isClosed = isRefusal(decided) && decided.code !== 'nothing-to-change';
  if (isClosed || (isOwn && !isRefusal(decided))) return decided;
  const isTold = isCountedOn(desk.studio, state, ask);
  if (!isTold) return [];
  return isRefusal(decided) && isOwn ? decided : alreadyThere(job, desk, ask);
}

/** An undo of the job's entry knows by it what it leaves behind. */
function withHandsAsked(events: readonly BenchEvent[], job: JobState, desk: Desk, { extras }: PlanAsk): BenchEvent[] {
  if (extras.length === 0) return [...events];
  const stamp = { version: 1 as const, at: desk.now, enteredAt: desk.now, by: desk.who };
  if (events.length === 0) return [{ ...stamp, type: 'HandsAsked', job: job.id, extras: [...extras] }];
  return events.map((event) => (event.type === 'JobPlanned' ? { ...event, extras: [...extras] } : event));
}

/** A button that is pressed late, and again, means the start that its first press made of it. */
function beginsAt({ planned }: JobState, { start, typedStart }: Read): number | undefined {
  const isThat =
    planned !== null && typedStart !== null && start !== null && planned.beginsAt >= typedStart && planned.beginsAt <= start;
  return isThat ? planned.beginsAt : (start ?? undefined);
}

/** A button that was pressed twice asks for no second person. */
function alreadyThere(job: JobState, { studio, now }: Desk, { extras }: PlanAsk): Refusal {
  const [extra] = extras;
  if (extra === undefined)
    return new Refusal('nothing-to-change', say`The bench is expected at that already, day and night.`, {
      example: `/plan job:${job.id}`,
    });
  return new Refusal(
    'nothing-to-change',
    say`One more person is planned from ${clock(extra.from)} until ${clock(extra.until)} already. For another one, say how many.`,
    {
      example: line('shift extra', { ...hoursOptions(extra, studio.zone, now), hands: '2' }),
    },
  );
}

/** `isOwn`: the start or the promise changed, which are the job's own. */
function titleOf({ name, planned }: JobState, isOwn: boolean, { studio }: Desk, { ask, none }: Keeping): Text {
  if (isOwn && none) return say`${name}: no promise any more`;
  if (isOwn)
    return planned?.readyBy == null ? say`${name} is planned anew` : say`${name} is to be ready by ${clock(planned.readyBy)}`;
  const hands = ask.extras.length === 0 ? [] : ['one more person'];
  const room = ask.roomCelsius === null ? [] : [`the room at ${temperatureText(ask.roomCelsius, studio.units)}`];
  return say`${name} is planned with ${plain([...hands, ...room].join(' and '))}`;
}
