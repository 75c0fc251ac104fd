import { closingLead, type DuePing, OPENINGS, type PingKind, pingsOf as pingsOfJob } from '../job/pings.ts';
import { type JobState, nextIndex } from '../job/state.ts';
import { nextWindow, timesOf } from '../job/window.ts';
import { comingShifts, HOUR, MINUTE, nextWallClock, type Shift, shiftsBetween, within } from '../trade/time/calendar.ts';
import type { Conditions } from '../trade/time/conditions.ts';
import { waitOver } from '../trade/time/cure.ts';
import { conditionsOf, temperaturesOf } from './conditions.ts';
import { type BenchState, type CupState, type Offer, openCups, openJobs } from './fold.ts';
import { lastCalls } from './planning/last-call.ts';
import type { BenchPlan } from './planning/plan-bench.ts';
import { plannedLater } from './planning/planned-later.ts';
import { lastTold, standingPlan } from './planning/standing.ts';
import { onDuty, type Studio } from './studio.ts';

/** A ping of the bench: also who is told because nobody answered, and which one it repeats. */
export interface Ping extends DuePing {
  /** The ping that this one repeats, louder or after a snooze; its own id where it repeats none. */
  readonly base: string;
  readonly why: 'due' | 'unanswered' | 'snoozed';
  readonly cup: string | null;
}

/** A pot life goes before a window, a window before a handover, a digest can wait. The smaller, the more urgent. */
const URGENCY: Record<PingKind, number> = {
  'pot-low': 0,
  'pot-over': 0,
  'recoat-closing': 1,
  'recoat-missed': 1,
  'recoat-open': 1,
  'cure-done': 1,
  'step-due': 1,
  'plan-closing': 1,
  handover: 2,
  'stock-low': 3,
  digest: 3,
};
export const urgencyOf = ({ kind }: Ping): number => URGENCY[kind];

const POT_LOW = { shareOfPotLife: 0.25, leastMinutes: 1, mostMinutes: 5 };
const SHIFT_END_PROMPT_MINUTES = 15;

/**
 * Every ping that the bench's clocks call for and that has not gone out yet, earliest first. Nothing of this is stored:
 * worked out again from the same events it is the same, and one that no longer holds is simply not there any more.
 */
export function pingsOf(state: BenchState, studio: Studio, now: number): Ping[] {
  const conditions = conditionsOf(state, studio);
  const plan = standingPlan(state, studio);
  const asked = [
    ...openJobs(state).flatMap((job) =>
      pingsOfJob(job, conditions)
        .flatMap((ping) => asPlanned(ping, job, plan))
        .map((ping) => ({ ...ping, to: listeners(state, job), cup: null })),
    ),
    ...planClosing(state, studio),
    ...openCups(state).flatMap((cup) => pingsOfCup(state, cup)),
  ].map((ping) => ({ ...ping, base: ping.id, why: 'due' as const }));
  return [
    ...asked,
    ...asked.flatMap((ping) => {
      const again = snoozed(state, ping);
      return [...again, ...[ping, ...again].flatMap((each) => louder(state, studio, each))];
    }),
    ...ofTheBench(state, studio, now),
  ]
    .filter((ping) => !state.sent.has(ping.id))
    .sort((a, b) => a.dueAt - b.dueAt || a.id.localeCompare(b.id));
}

/**
 * A job that follows a plan rings when its next step is planned, where that is later than it could begin. Any other rings when
 * it could; and again when it is planned, where begun sooner the rest would not fit.
 */
function asPlanned(ping: DuePing, job: JobState, bench: BenchPlan): DuePing[] {
  const [next] = bench.plans.get(job.id)?.steps ?? [];
  if (bench.world.staffed === null || !OPENINGS.has(ping.kind) || next?.step !== ping.step) return [ping];
  if (job.planned !== null) return [{ ...ping, dueAt: Math.max(ping.dueAt, next.startsAt) }];
  const later = plannedLater(bench, job);
  if (!later?.breaks || later.at <= ping.dueAt) return [ping];
  // That somebody is to wait is said once, and to nobody else.
  return [
    { ...ping, until: ping.dueAt },
    { ...ping, id: `${ping.id}/planned`, dueAt: later.at },
  ];
}

/** The next step must begin by then, or what comes after it, or another job, fits no more: sooner than its own window closes. */
function planClosing(state: BenchState, studio: Studio): (DuePing & { cup: null })[] {
  return lastCalls(state, studio).flatMap(({ job: id, step, by, later }) => {
    const job = state.jobs.get(id);
    const window = job && nextWindow(job, conditionsOf(state, studio));
    if (!job || !window || job.steps[nextIndex(job)]?.plan.id !== step) return [];
    const opensAt = Math.max(window.opensAt, lastTold(state, studio));
    if (by - opensAt < LEAST_NOTICE || (window.closesAt !== null && window.closesAt - by < LEAST_NOTICE)) return [];
    // A last call that has moved far is another one.
    const about = [window.seq, Math.round(by / SAME_CALL), ...(later.kind === 'clash' ? [later.trouble.job] : [])].join('/');
    return [
      {
        id: `${job.id}/${step}/plan-closing/${about}`,
        kind: 'plan-closing' as const,
        job: job.id,
        step,
        dueAt: by - closingLead(opensAt, by),
        to: listeners(state, job),
        until: by,
        cup: null,
      },
    ];
  });
}

/** What moves by less than about this is not called again. */
const SAME_CALL = 2 * HOUR;

/** In less time nobody acts upon it, or what rings anyway says as much. */
const LEAST_NOTICE = 5 * MINUTE;

/** While a handover waits, both sides hear what concerns the job. */
function listeners(state: BenchState, job: JobState): string[] {
  const offer = state.offers.find((each) => each.jobs.includes(job.id));
  return [...new Set([job.holder, ...(offer?.to ?? [])])];
}

/** When a cup's pot life is over, in milliseconds since the epoch, at the bench's temperatures. */
export const potOverAt = (state: BenchState, cup: CupState): number =>
  waitOver(temperaturesOf(state), cup.speed, cup.startedAt, cup.potLifeMinutes);

function pingsOfCup(state: BenchState, cup: CupState): (DuePing & { cup: string })[] {
  const over = potOverAt(state, cup);
  const lead = Math.min(
    POT_LOW.mostMinutes * MINUTE,
    Math.max(POT_LOW.leastMinutes * MINUTE, (over - cup.startedAt) * POT_LOW.shareOfPotLife),
  );
  const job = cup.job === null ? undefined : state.jobs.get(cup.job);
  const to = [...new Set([...(job ? listeners(state, job) : []), cup.by])];
  const step = job?.steps.find((each) => each.done === null)?.plan.id ?? null;
  const ping = (kind: 'pot-low' | 'pot-over', dueAt: number, until: number | null) => ({
    until,
    id: `${cup.id}/${kind}`,
    kind,
    job: cup.job,
    step,
    dueAt,
    to,
    cup: cup.id,
  });
  return [ping('pot-low', over - lead, over), ping('pot-over', over, null)];
}

const isOver = (ping: DuePing, at: number): boolean => ping.until !== null && at >= ping.until;

/**
 * Unanswered for the studio's grace time, a ping goes to everybody on duty. What somebody told of the job since it went out
 * is an answer, also within the same second.
 */
function louder(state: BenchState, studio: Studio, ping: Ping): Ping[] {
  const sent = state.sent.get(ping.id);
  if (!sent || state.snoozes.some((snooze) => snooze.ping === ping.base && snooze.seq > sent.seq)) return [];
  const touchedSeq = ping.job === null ? 0 : (state.jobs.get(ping.job)?.touchedSeq ?? 0);
  const dueAt = sent.at + studio.graceMinutes * MINUTE;
  const others = onDuty(studio, dueAt).filter((who) => !ping.to.includes(who));
  if (touchedSeq > sent.seq || others.length === 0 || isOver(ping, dueAt)) return [];
  return [{ ...ping, id: `${ping.id}/all`, dueAt, to: [...ping.to, ...others], why: 'unanswered' }];
}

/** Put off, a ping rings again for those whom it is for and for whoever put it off; the last snooze counts. */
function snoozed(state: BenchState, ping: Ping): Ping[] {
  const snooze = state.snoozes.findLast((each) => each.ping === ping.base);
  if (!snooze || isOver(ping, snooze.until)) return [];
  const to = [...new Set([...ping.to, snooze.by])];
  return [{ ...ping, id: `${ping.id}/again-${snooze.seq}`, dueAt: snooze.until, to, why: 'snoozed' }];
}

function ofTheBench(state: BenchState, studio: Studio, now: number): Ping[] {
  const about = { job: null, step: null, cup: null, until: null, why: 'due' as const };
  const pings: Ping[] = [];
  for (const offer of state.offers) {
    const dueAt = untakenAt(state, studio, offer);
    const id = `handover/${offer.seq}`;
    if (dueAt !== null)
      pings.push({ ...about, id, base: id, kind: 'handover', dueAt, to: [...new Set([...offer.from, ...offer.to])] });
  }
  const jobs = openJobs(state).filter((job) => job.status === 'active');
  if (jobs.length === 0) return pings;
  const shifts = comingShifts(studio.shifts, studio.zone, now);
  // Of the shifts that are over nothing is told any more: only the running one and the next are asked.
  for (const [index, shift] of shifts.slice(0, 2).entries()) {
    const known = (at: number) => at >= studio.shiftsSince && jobs.some((job) => job.enteredAt < at);
    if (known(shift.from)) {
      const id = `digest/${new Date(shift.from).toISOString()}`;
      const to = onDuty(studio, shift.from);
      pings.push({
        ...about,
        id,
        base: id,
        kind: 'digest',
        dueAt: afterQuiet(studio, shift.from),
        to: to.length > 0 ? to : [...new Set(jobs.map((job) => job.holder))],
      });
    }
    const prompt = shift.until - SHIFT_END_PROMPT_MINUTES * MINUTE;
    const next = shifts[index + 1];
    if (!next || !known(prompt) || now >= shift.until) continue;
    const over = leftBehind(state, studio, shift, next);
    if (over.length === 0) continue;
    const id = `shift-end/${new Date(shift.until).toISOString()}`;
    pings.push({
      ...about,
      id,
      base: id,
      kind: 'handover',
      dueAt: beforeQuiet(studio, prompt),
      to: [...new Set(over.map((job) => job.holder))],
    });
  }
  return pings;
}

/** Jobs whose next window falls into the next shift, while their holder goes home with this one and has offered them to nobody. */
export function leftBehind(state: BenchState, studio: Studio, shift: Shift, next: Shift): JobState[] {
  const here = onDuty(studio, shift.until - 1);
  const there = onDuty(studio, next.from);
  const leaves = (who: string) => (here.length === 0 || here.includes(who)) && !there.includes(who);
  return openJobs(state).filter(
    (job) =>
      job.status === 'active' &&
      leaves(job.holder) &&
      !state.offers.some((offer) => offer.jobs.includes(job.id)) &&
      opensUnder(conditionsOf(state, studio), job, shift.until, next.until),
  );
}

/** Whether the job's next window falls into the time after `from` and begins before `until`. */
function opensUnder(conditions: Conditions, job: JobState, from: number, until: number): boolean {
  const window = nextWindow(job, conditions);
  if (window === null) return false;
  const { opensAt, closesAt } = timesOf(window);
  // Where nobody can tell, somebody must look: in the next shift, too.
  return (opensAt === null || opensAt < until) && (closesAt === null || closesAt > from);
}

/** When a handover counts as forgotten: at the next window of its jobs; where one is open already, after the grace time. */
function untakenAt(state: BenchState, studio: Studio, offer: Offer): number | null {
  const opens = offer.jobs.flatMap((id) => {
    const job = state.jobs.get(id);
    const window = job && job.status === 'active' ? nextWindow(job, conditionsOf(state, studio)) : null;
    return window ? [window.opensAt > offer.at ? window.opensAt : offer.at + studio.graceMinutes * MINUTE] : [];
  });
  return opens.length > 0 ? Math.min(...opens) : null;
}

/** Quiet hours hold back digests; a pot life or a window never comes this way. */
function afterQuiet(studio: Studio, at: number): number {
  if (studio.quiet === null || !within(studio.quiet, studio.zone, at)) return at;
  return nextWallClock(studio.zone, at, studio.quiet.untilMinute);
}

/** A prompt to hand over would come too late after the quiet hours, so it comes before them. */
function beforeQuiet(studio: Studio, at: number): number {
  if (studio.quiet === null) return at;
  return shiftsBetween({ hours: [studio.quiet], days: [1, 2, 3, 4, 5, 6, 7] }, studio.zone, at, at)[0]?.from ?? at;
}
