import { isOpen, type JobState } from '../job/state.ts';
import { MINUTE } from '../trade/calendar.ts';
import type { Speed } from '../trade/cure.ts';
import { Refusal } from '../words/refusal.ts';
import { clock, joined, say } from '../words/text.ts';
import { type BenchEvent, UNDOABLE } from './events.ts';
import { type BenchState, type CupState, type NumberedEvent, openCups, openJobs, stepForCup, undoneIn } from './fold.ts';

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
}

export function startCup(log: readonly NumberedEvent[], { job, ...cup }: CupAsk, said: Said): Decision {
  return [
    {
      ...stampOf(said),
      type: 'CupStarted',
      // Counted over the whole log: the number of a cup that was undone is not given again.
      cup: `cup-${log.filter((event) => event.type === 'CupStarted').length + 1}`,
      ...cup,
      job: job?.id ?? null,
      step: job ? stepForCup(job, cup.material.id) : null,
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

/** Offers the jobs to others; they stay the giver's until somebody takes them. */
export function giveOver(jobs: readonly JobState[], to: readonly string[], note: string | null, said: Said): Decision {
  const mine = jobs.filter(isOpen);
  if (mine.length === 0)
    return new Refusal('nothing-to-hand-over', say`There is no open job here to hand over.`, {
      example: '/job start name:Lion head',
    });
  const others = to.filter((who) => who !== said.by);
  if (others.length === 0)
    return new Refusal(
      'nobody-to-take',
      to.length > 0
        ? say`A handover needs somebody else to take it; you named yourself.`
        : say`Nobody else is on duty: name whom you hand over to.`,
      {
        example: '/handover give to:kim',
      },
    );
  return [{ ...stampOf(said), type: 'HandoverOffered', to: others, jobs: mine.map((job) => job.id), note }];
}

/** Takes what was offered, or the jobs that are named. */
export function takeOver(state: BenchState, job: JobState | null, said: Said): Decision {
  const offered = state.offer?.jobs.flatMap((id) => state.jobs.get(id) ?? []).filter(isOpen) ?? [];
  const wanted = job ? [job] : offered.length > 0 ? offered : openJobs(state);
  const taken = wanted.filter((each) => isOpen(each) && each.holder !== said.by);
  if (wanted.length === 0)
    return new Refusal('nothing-to-take', say`There is no open job here to take over.`, { example: '/job list' });
  if (taken.length === 0)
    return new Refusal(
      'already-yours',
      say`${joined(
        wanted.map((each) => say`${each.name}`),
        ', ',
        ' and ',
      )}: you have that already.`,
      { example: '/handover brief' },
    );
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

/** Takes back the last thing that was told, of one job or of the whole bench. */
export function undo(
  log: readonly NumberedEvent[],
  job: JobState | null,
  said: Said,
): { events: BenchEvent[]; undone: NumberedEvent } | Refusal {
  const gone = undoneIn(log);
  const last = log.findLast(
    (event) => UNDOABLE.has(event.type) && !gone.has(event.seq) && (job === null || concerns(event, job.id)),
  );
  if (!last)
    return new Refusal('nothing-to-undo', say`There is nothing left to undo${job ? say` on ${job.name}` : ''} here.`, {
      example: '/job list',
    });
  return { events: [{ ...stampOf(said), type: 'Undone', target: last.seq }], undone: last };
}

const concerns = (event: NumberedEvent, job: string): boolean =>
  ('job' in event && event.job === job) || ('jobs' in event && event.jobs.includes(job));
