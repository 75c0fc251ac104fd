import { conditionsOf } from '../bench/conditions.ts';
import type { BenchState } from '../bench/fold.ts';
import { causeOf } from '../bench/planning/cause.ts';
import { type Change, keptAt, nearestChanges, withHands } from '../bench/planning/changes.ts';
import type { Demand } from '../bench/planning/demand.ts';
import { type Found, placeFor } from '../bench/planning/place.ts';
import { type JobPlan, slackMinutes } from '../bench/planning/plan.ts';
import { type BenchPlan, planBench, withoutJob } from '../bench/planning/plan-bench.ts';
import { isUnfit, planJob, type Towards, takenBy, type Unfit } from '../bench/planning/plan-job.ts';
import { type World, withTaken } from '../bench/planning/world.ts';
import type { Studio } from '../bench/studio.ts';
import { extraTyped, momentTyped } from '../cards/as-typed.ts';
import { noPlanCard, planCard } from '../cards/plan-card.ts';
import { coldLine } from '../cards/plan-cold.ts';
import { changeLabel } from '../cards/plan-trouble.ts';
import { type Card, MOST_BUTTONS } from '../chat/card.ts';
import type { PlannedStep } from '../job/events.ts';
import type { Shopping } from '../job/shopping.ts';
import { minutesText, temperatureText } from '../trade/measures/format.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import type { Way } from '../words/refusal.ts';
import { clock, code, plain, say, type Text } from '../words/text.ts';
import { staffedAround } from './board.ts';
import type { Desk } from './desk.ts';
import { elsewhereLine } from './elsewhere.ts';
import { givenOf, type Typed } from './examples.ts';
import { orNone, planPicture } from './pictures.ts';
import { type PlanAsk, timeless } from './plan-options.ts';

/** So much before its time a job is to be ready, unless told. */
export const USUAL_RESERVE_MINUTES = 30;

/** What is to be planned, for whom, and what it counts on. */
export interface Asked {
  readonly desk: Desk;
  readonly state: BenchState;
  readonly ask: PlanAsk;
  /** The options of `/plan`, as they were typed: what a button carries on. */
  readonly typed: Typed;
  readonly reserveMinutes: number | null;
  /** All that is to be done. */
  readonly steps: readonly PlannedStep[];
  /** What is to be planned on a bench as it was asked for; null: there it would have to be touched, or decided on, first. */
  readonly demandOn: (bench: BenchPlan, ask: PlanAsk) => Demand | null;
  /** What can be pressed to make it so. */
  readonly ways: (plan: JobPlan) => readonly Way[];
  /** What else is to be minded. */
  readonly notes: readonly Text[];
  readonly shopping: Shopping | null;
}

/** The studio with the hands that a plan counts on. */
export const studioFor = (desk: Desk, { extras }: PlanAsk): Studio => ({
  ...desk.studio,
  extras: [...desk.studio.extras, ...extras],
});

/** The bench as it would be: in another room, or with more hands, which are for `steps` and not for the others. */
export function benchFor({ desk, state, ask, steps }: Pick<Asked, 'desk' | 'state' | 'ask' | 'steps'>): BenchPlan {
  const told = conditionsOf(state, desk.studio);
  const conditions = ask.roomCelsius === null ? told : keptAt(told, ask.roomCelsius, desk.now);
  const bench = planBench(state, desk.studio, desk.now, {
    conditions,
    ahead: steps,
    from: Math.max(ask.start ?? desk.now, ask.readyBy ?? desk.now),
  });
  const withExtras = (world: World) =>
    ask.extras.reduce((more, { from, until }) => withHands(more, from / MINUTE, until / MINUTE), world);
  return { ...bench, alone: withExtras(bench.alone), world: withExtras(bench.world) };
}

/** When to do what; or the proof that it cannot be, with what would do. Stores nothing. */
export async function plannedCard(asked: Asked, bench: BenchPlan): Promise<Card> {
  const { ask, reserveMinutes } = asked;
  const demand = asked.demandOn(bench, ask);
  if (demand === null) throw new Error('what is to be planned is not on the bench');
  const towards = towardsOf(ask, demand);
  const wished = reserveMinutes ?? (towards === 'late' ? USUAL_RESERVE_MINUTES : 0);
  const found = placeFor(bench, demand, towards, wished);
  if (found) return fitCard(asked, found, bench, demand);
  const world = withoutJob(bench, demand.job);
  const unfit = planJob(world, demand, towards);
  if (!isUnfit(unfit)) throw new Error('what was planned is no misfit');
  return unfitCard(asked, bench, unfit, towards);
}

const towardsOf = ({ readyBy, start }: PlanAsk, { atHand }: Demand): Towards =>
  readyBy !== null && start === null && atHand === null ? 'late' : 'early';

/** Whether it is planned once a change is pressed, and no other job is in trouble then. */
function holds(asked: Asked, before: BenchPlan, change: Change): boolean {
  const ask = askedWith(asked.ask, change);
  const bench = benchFor({ ...asked, ask });
  const demand = asked.demandOn(bench, ask);
  if (demand === null) return false;
  const had = new Set([demand.job, ...before.troubles.map(({ job }) => job)]);
  return bench.troubles.every(({ job }) => had.has(job)) && placeFor(bench, demand, towardsOf(ask, demand), 0) !== null;
}

function askedWith(ask: PlanAsk, change: Change): PlanAsk {
  switch (change.kind) {
    case 'start':
      return { ...ask, start: change.at };
    case 'hands':
      return { ...ask, extras: [...ask.extras, { from: change.from, until: change.until, hands: 1 }] };
    case 'room':
      return { ...ask, roomCelsius: change.celsius };
    case 'ready-by':
      return { ...ask, readyBy: change.at };
  }
}

async function fitCard(
  asked: Asked,
  { plan, towards, reserveMinutes, moved }: Found,
  bench: BenchPlan,
  demand: Demand,
): Promise<Card> {
  const { desk, state, ask, ways, notes, shopping } = asked;
  const studio = studioFor(desk, ask);
  const view = { state, studio, now: desk.now };
  const others = othersOf(bench, demand).length;
  const spare = [
    ...(towards === 'late' || asked.reserveMinutes !== null ? [spareLine(plan, towards)] : []),
    ...(towards === 'late' ? [say`Once it has begun, each step comes as early as it can.`] : []),
  ];
  const moving = moved.map(({ job, name, steps, readyAt }) => {
    const before = bench.plans.get(job ?? '')?.steps;
    const first = steps.find(({ startsAt }, index) => startsAt !== before?.[index]?.startsAt);
    return say`${name} makes way: ${first?.title ?? ''} at ${clock(first?.startsAt ?? 0)}, ready ${clock(readyAt)}.`;
  });
  const around =
    others === 0 || moved.length > 0
      ? []
      : [say`Planned around ${plain(others === 1 ? 'the other job' : `${others} other jobs`)} on this bench.`];
  return planCard({
    plan,
    towards,
    reserveMinutes,
    notes: [
      ...spare,
      ...moving,
      ...around,
      ...(await elsewhereLine(desk, withTaken(withoutJob(bench, demand.job), takenBy(plan)), [plan])),
      ...assumptions(asked),
      ...coldLine(plan, asked.steps, bench.alone.clocks.conditions, studio),
      ...notes,
    ],
    buttons: ways(plan),
    files: await orNone(planPicture(plan, view, staffedAround(view), desk.painter)),
    studio,
    ...(shopping === null ? {} : { shopping }),
  });
}

function spareLine(plan: JobPlan, towards: Towards): Text {
  const minutes = spareMinutes(plan);
  if (minutes === Number.POSITIVE_INFINITY) return say`Any step may slip: nothing closes.`;
  if (minutes === 0) return say`It is ready just in time: nothing is kept in reserve.`;
  const safe = towards === 'late' ? say`As late as is safe: any` : say`Any`;
  return say`${safe} one step may slip by ${plain(minutesText(minutes))}.`;
}

const othersOf = ({ plans }: BenchPlan, { job }: Demand) => [...plans.keys()].filter((id) => id !== job);

/** By how much any one step may slip; without end where nothing closes. */
const spareMinutes = ({ steps }: JobPlan): number => Math.min(...steps.flatMap((step) => slackMinutes(step) ?? []));

/** What a plan counts on. */
export function assumptions({ desk, ask }: Pick<Asked, 'desk' | 'ask'>): Text[] {
  const extra = ask.extras.map(({ from, until }) => say`It counts on one more person from ${clock(from)} until ${clock(until)}.`);
  const room =
    ask.roomCelsius === null
      ? []
      : [say`It counts on a room at ${plain(temperatureText(ask.roomCelsius, desk.studio.units))}, day and night.`];
  const shifts =
    desk.studio.shifts.hours.length === 0
      ? [say`No shifts are set, so any hour counts as staffed: ${code('/shift set hours:08:00-17:00 days:mon-fri')}`]
      : [];
  return [...extra, ...room, ...shifts];
}

function unfitCard(asked: Asked, bench: BenchPlan, unfit: Unfit, towards: Towards): Card {
  const { desk, ask } = asked;
  const studio = studioFor(desk, ask);
  // Whenever it is pressed, it means what was meant now.
  const typed = timeless(asked.typed, ask, studio);
  const world = withoutJob(bench, unfit.demand.job);
  const offered = nearestChanges(world, unfit, (change) => holds(asked, bench, change), towards);
  // Where no start does, what is wrong with all of them says more than what is wrong with this one.
  const isStartNamed = unfit.demand.begin.from === unfit.demand.begin.until;
  const free = planJob(world, { ...unfit.demand, begin: { from: desk.now, until: null } }, towards);
  const atAnyStart = isStartNamed && !offered.some(({ kind }) => kind === 'start') && isUnfit(free) ? free : null;
  const shown = atAnyStart ?? unfit;
  const changes = offered.slice(0, MOST_BUTTONS);
  return noPlanCard({
    name: unfit.demand.name,
    step: shown.step,
    cause: causeOf(world, shown),
    isStartNamed,
    changes,
    notes: [
      ...(othersOf(bench, unfit.demand).length === 0 ? [] : [say`Counted with the other jobs as they are planned.`]),
      ...assumptions(asked),
    ],
    buttons: changes.map((change) => ({
      label: changeLabel(change, studio, desk.now),
      command: 'plan',
      options: givenOf({ ...typed, ...changed(change, typed, studio) }),
    })),
    studio,
    now: desk.now,
  });
}

/** The options with which it is planned as changed. */
function changed(change: Change, typed: Typed, { zone }: Studio): Typed {
  switch (change.kind) {
    case 'start':
      return { start: momentTyped(change.at, zone) };
    case 'hands':
      return { extra: [typed['extra'], extraTyped(change, zone)].filter((each) => each !== undefined).join('; ') };
    case 'room':
      return { room: `${change.celsius} C` };
    case 'ready-by':
      return { 'ready-by': momentTyped(Math.ceil(change.at / MINUTE) * MINUTE, zone) };
  }
}
