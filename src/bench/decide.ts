import type { JobState } from '../job/state.ts';
import { type Hours, MINUTE } from '../trade/time/calendar.ts';
import { Refusal } from '../words/refusal.ts';
import { clock, joined, person, say } from '../words/text.ts';
import type { BenchEvent } from './events.ts';
import { type BenchState, type CupState, type NumberedEvent, openCups, pouredFor, stepForCup } from './fold.ts';

export interface Said {
  readonly by: string;
  /** When it happened. */
  readonly at: number;
  readonly now: number;
}

export type Decision = BenchEvent[] | Refusal;
export const stampOf = ({ by, at, now }: Said) => ({ version: 1 as const, at, enteredAt: now, by });

export interface CupAsk extends Pick<CupState, 'material' | 'grams' | 'potLifeMinutes' | 'speed' | 'usable'> {
  readonly job: JobState | null;
  /** Which cup of its step, or of its button, it is, counted from 1: a second press of the same button is then noticed. */
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
  const justNow = job === null && nth !== null ? pressedJustNow(state, log, { nth, ...cup }, said) : undefined;
  if (justNow)
    return new Refusal('already-poured', say`${justNow.id} was started just now: mixed at ${clock(justNow.startedAt)}.`, {
      example: `/cup start material:${cup.material.id}`,
    });
  return [
    {
      ...stampOf(said),
      type: 'CupStarted',
      // Counted over the whole log: the number of a cup that was undone is not given again.
      cup: `cup-${log.filter((event) => event.type === 'CupStarted').length + 1}`,
      ...cup,
      job: job?.id ?? null,
      step,
      ...(job === null && nth !== null ? { nth } : {}),
    },
  ];
}

/** The open cup that the same button started for the same person less than a minute before. */
function pressedJustNow(
  { cups }: BenchState,
  log: readonly NumberedEvent[],
  { material, grams, nth }: Pick<CupState, 'material' | 'grams'> & { readonly nth: number },
  { by, at }: Said,
): CupState | undefined {
  const same = log.findLast(
    (event) =>
      event.type === 'CupStarted' &&
      event.job === null &&
      event.by === by &&
      event.nth === nth &&
      event.material.id === material.id &&
      event.grams === grams &&
      Math.abs(at - event.at) < MINUTE &&
      cups.get(event.cup)?.ended === null,
  );
  return same?.type === 'CupStarted' ? cups.get(same.cup) : undefined;
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

export const readTemperature = (celsius: number, humidityPercent: number | null, said: Said): Decision => [
  { ...stampOf(said), type: 'TemperatureRead', celsius, humidityPercent },
];

export const expectTemperature = (
  expected: { dayCelsius: number | null; nightCelsius: number | null; day: Hours; zone: string },
  said: Said,
): Decision => [{ ...stampOf(said), type: 'TemperatureExpected', ...expected }];

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
