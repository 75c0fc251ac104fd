import { isOpen, type JobState } from '../job/state.ts';
import { MINUTE } from '../trade/calendar.ts';
import type { Speed } from '../trade/cure.ts';
import { Refusal } from '../words/refusal.ts';
import { clock, joined, people, person, say } from '../words/text.ts';
import { type BenchEvent, UNDOABLE } from './events.ts';
import { type BenchState, type CupState, type NumberedEvent, openCups, openJobs, pouredFor, stepForCup } from './fold.ts';

export interface Said {
  readonly by: string;
  /** When it happened. */
  readonly at: number;
  readonly now: number;
}

type Decision = BenchEvent[] | Refusal;
const stampOf = ({ by, at, now }: Said) => ({ version: 1 as const, at, enteredAt: now, by });

export interface CupAsk {
  readonly material: { readonly id: string; readonly name: string };
  readonly grams: number | null;
  readonly potLifeMinutes: number;
  readonly speed: Speed | null;
  readonly job: JobState | null;
  /** Which cup of its step it is, counted from 1: a second press of the same button is then noticed. */
  readonly nth: number | null;
  /** The step that it is meant for; null for whatever comes next. */
  readonly step: string | null;
}

export function startCup(
  state: BenchState,
  log: readonly NumberedEvent[],
  { job, nth, step: wanted, ...cup }: CupAsk,
  said: Said,
): Decision {
  const step = job ? stepForCup(job, cup.material.id) : null;
  if (job && wanted !== null && wanted !== step) {
    const meant = job.steps.find((each) => each.plan.id === wanted);
    const was = meant?.done
      ? say` was logged by ${person(meant.done.by)}, done at ${clock(meant.done.at)}`
      : say` is not what comes next`;
    return new Refusal('already-done', say`This cup was for ${meant?.plan.title ?? wanted}, which${was}.`, {
      example: `/mix job:${job.id}`,
    });
  }
  const poured = pouredFor(state, job, step);
  const same = nth === null ? undefined : poured[nth - 1];
  if (same)
    return new Refusal(
      'already-poured',
      say`${same.id} is that cup: logged by ${person(same.by)}, mixed at ${clock(same.startedAt)}.`,
      { example: '/cup start' },
    );
  return [
    {
      ...stampOf(said),
      type: 'CupStarted',
      // Counted over the whole log: the number of a cup that was undone is not given again.
      cup: `cup-${log.filter((event) => event.type === 'CupStarted').length + 1}`,
      ...cup,
      job: job?.id ?? null,
      step,
    },
  ];
}

export function endCup(
  state: BenchState,
  typed: string | null,
  how: 'spent' | 'discarded',
  only: (cup: CupState) => boolean,
  said: Said,
): Decision {
  const cup =
    typed === null
      ? theOne(state, only)
      : (state.cups.get(typed.trim().toLowerCase()) ??
        state.cups.get(`cup-${typed.replace(/\D/g, '')}`) ??
        unknownCup(state, typed));
  if (cup instanceof Refusal) return cup;
  if (cup.ended !== null) return new Refusal('cup-ended', say`${cup.id} was ${cup.ended} already.`, { example: '/board' });
  if (said.at < cup.startedAt)
    return new Refusal('out-of-order', say`${cup.id} was mixed at ${clock(cup.startedAt)}; it cannot have been ${how} before.`, {
      example: '/cup spent',
    });
  return [{ ...stampOf(said), type: 'CupEnded', cup: cup.id, how, job: cup.job }];
}

const cupList = (cups: readonly CupState[]) =>
  joined(
    cups.map((cup) => say`${cup.id} (${cup.material.name}, ${clock(cup.startedAt)})`),
    ', ',
    ' and ',
  );

function unknownCup(state: BenchState, typed: string): Refusal {
  const open = openCups(state);
  const which = open.length > 0 ? say`Open are ${cupList(open)}.` : say`No cup is open.`;
  return new Refusal('unknown-cup', say`Expected an open cup, got “${typed}”. ${which}`, {
    example: `/cup spent cup:${open[0]?.id ?? 'cup-1'}`,
  });
}

function theOne(state: BenchState, only: (cup: CupState) => boolean): CupState | Refusal {
  const open = openCups(state).filter(only);
  if (open.length === 1) return open[0] as CupState;
  if (open.length === 0)
    return new Refusal('no-open-cup', say`No cup is open here.`, { example: '/cup start material:brush-urethane amount:150 g' });
  return new Refusal('which-cup', say`Which cup? Open are ${cupList(open)}.`, {
    example: `/cup spent cup:${open[0]?.id}`,
    ways: open.slice(0, 3).map((cup) => ({ label: `Spent: ${cup.id}`, command: 'cup spent', options: { cup: cup.id } })),
  });
}

/** Offers the jobs to others; they stay with their holders until somebody takes them. */
export function giveOver(jobs: readonly JobState[], to: readonly string[], note: string | null, said: Said): Decision {
  const open = jobs.filter(isOpen);
  if (open.length === 0)
    return new Refusal('nothing-to-hand-over', say`There is no open job here to hand over.`, {
      example: '/job start name:Lion head',
    });
  const others = to.filter((who) => open.some((job) => job.holder !== who));
  if (others.length === 0)
    return new Refusal(
      'nobody-to-take',
      to.length > 0
        ? say`A handover needs somebody else to take it; ${people(to)} has it already.`
        : say`Nobody else is on duty: name whom you hand over to.`,
      { example: '/handover give to:kim' },
    );
  return [{ ...stampOf(said), type: 'HandoverOffered', to: others, jobs: open.map((job) => job.id), note }];
}

/** Takes the job that is named; or else what was offered to this person, or to others; or else the only open job. */
export function takeOver(state: BenchState, job: JobState | null, said: Said): Decision {
  const toMe = state.offers.filter((offer) => offer.to.includes(said.by));
  const offered = (toMe.length > 0 ? toMe : state.offers).flatMap((offer) =>
    offer.jobs.flatMap((id) => state.jobs.get(id) ?? []),
  );
  const wanted = job ? [job] : offered.length > 0 ? offered : openJobs(state);
  const taken = wanted.filter((each) => isOpen(each) && each.holder !== said.by);
  const names = (jobs: readonly JobState[], last: string) =>
    joined(
      jobs.map((each) => say`${each.name}`),
      ', ',
      last,
    );
  if (wanted.length === 0)
    return new Refusal('nothing-to-take', say`There is no open job here to take over.`, { example: '/job list' });
  if (taken.length === 0)
    return new Refusal('already-yours', say`${names(wanted, ' and ')}: you have that already.`, { example: '/handover brief' });
  if (job === null && offered.length === 0 && taken.length > 1)
    return new Refusal('which-job', say`Nothing was offered. Which do you take over: ${names(taken, ' or ')}?`, {
      example: `/handover take job:${taken[0]?.id}`,
      ways: taken
        .slice(0, 3)
        .map((each) => ({ label: `Take ${each.id}`.slice(0, 80), command: 'handover take', options: { job: each.id } })),
    });
  return [{ ...stampOf(said), type: 'HandoverTaken', jobs: taken.map((each) => each.id) }];
}

export const readTemperature = (celsius: number, humidityPercent: number | null, said: Said): Decision => [
  { ...stampOf(said), type: 'TemperatureRead', celsius, humidityPercent },
];

/** Puts a ping off; never beyond the end of what it is about. */
export function snooze(ping: { base: string; endsAt: number | null }, minutes: number, said: Said): Decision {
  const wished = said.now + minutes * MINUTE;
  const latest = ping.endsAt === null ? wished : ping.endsAt - 2 * MINUTE;
  if (latest <= said.now)
    return new Refusal(
      'no-time-to-snooze',
      say`There is no time left to put this off: it is over at ${clock(ping.endsAt ?? said.now)}.`,
      { example: '/done' },
    );
  return [{ ...stampOf(said), type: 'PingSnoozed', ping: ping.base, until: Math.min(wished, latest) }];
}

/** What to take back: one entry by its number, the last one of a job, or (null) this person's own last one. */
export type UndoAsk = { readonly entry: number } | { readonly job: JobState } | null;

/** Takes back something that was told. */
export function undo(
  log: readonly NumberedEvent[],
  ask: UndoAsk,
  said: Said,
): { events: BenchEvent[]; undone: NumberedEvent } | Refusal {
  const gone = new Map(log.flatMap((event) => (event.type === 'Undone' ? [[event.target, event] as const] : [])));
  const live = log.filter((event) => UNDOABLE.has(event.type) && !gone.has(event.seq));
  const by = ask && 'entry' in ask ? gone.get(ask.entry) : undefined;
  if (by)
    return new Refusal('already-undone', say`${person(by.by)} took that back already, at ${clock(by.at)}.`, {
      example: '/board',
    });
  const last =
    ask === null
      ? (live.findLast((event) => event.by === said.by) ?? live.at(-1))
      : live.findLast((event) => ('entry' in ask ? event.seq === ask.entry : concerns(event, ask.job.id)));
  if (!last)
    return new Refusal(
      'nothing-to-undo',
      say`There is nothing left to undo${ask && 'job' in ask ? say` on ${ask.job.name}` : ''} here.`,
      {
        example: '/job list',
      },
    );
  // What another step stands on cannot be pulled out from under it.
  const later = live.find((event) => event.seq > last.seq && standsOn(event, last));
  if (later)
    return new Refusal('not-the-last', say`Something was logged after it, by ${person(later.by)}. Take that back first.`, {
      example: 'job' in last && last.job !== null ? `/undo job:${last.job}` : '/undo',
    });
  return { events: [{ ...stampOf(said), type: 'Undone', target: last.seq }], undone: last };
}

const CHAIN: ReadonlySet<BenchEvent['type']> = new Set(['StepDone', 'MissedWindowDecided']);

function standsOn(event: NumberedEvent, ground: NumberedEvent): boolean {
  if (!('job' in ground) || ground.job === null || !concerns(event, ground.job)) return false;
  return ground.type === 'JobStarted' || (CHAIN.has(ground.type) && CHAIN.has(event.type));
}

const concerns = (event: NumberedEvent, job: string): boolean =>
  ('job' in event && event.job === job) || ('jobs' in event && event.jobs.includes(job));
