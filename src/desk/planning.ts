import { conditionsOf } from '../bench/conditions.ts';
import type { BenchState } from '../bench/fold.ts';
import { causeOf } from '../bench/planning/cause.ts';
import { type Change, keptAt, nearestChanges } from '../bench/planning/changes.ts';
import type { Demand } from '../bench/planning/demand.ts';
import type { JobPlan } from '../bench/planning/plan.ts';
import { planBench, planTogether } from '../bench/planning/plan-bench.ts';
import { isUnfit, planJob, type Towards, type Unfit } from '../bench/planning/plan-job.ts';
import type { World } from '../bench/planning/world.ts';
import type { Studio } from '../bench/studio.ts';
import { noPlanCard, planCard } from '../cards/plan-card.ts';
import { changeLabel, extraTyped, momentTyped } from '../cards/plan-trouble.ts';
import { shoppingLines } from '../cards/shopping-card.ts';
import { type Card, MOST_BUTTONS } from '../chat/card.ts';
import { minutesText, temperatureText } from '../trade/measures/format.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import { isRefusal, type Refusal, type Way } from '../words/refusal.ts';
import { clock, code, plain, say, type Text } from '../words/text.ts';
import { staffedAround } from './board.ts';
import type { Desk } from './desk.ts';
import { givenOf, type Kept, line, type Typed } from './examples.ts';
import { type Making, type MakingInput, makingOf, makingTyped } from './making.ts';
import { planPicture } from './pictures.ts';
import { type PlanAsk, type PlanInput, planAsked, planTyped } from './plan-options.ts';
import { shoppingOf } from './shopping.ts';

export interface NewPlanInput extends MakingInput, PlanInput {
  readonly name?: string | undefined;
  /** Minutes. */
  readonly reserve?: Kept<number> | undefined;
}

/** So much before its time a job is to be ready, unless told. */
const USUAL_RESERVE_MINUTES = 30;

/** Plans a job that has not begun, around the work of those that have. Stores nothing. */
export async function planNew(desk: Desk, input: NewPlanInput): Promise<Card | Refusal> {
  const options: Typed = { name: input.name, ...planTyped(input), reserve: input.reserve?.typed };
  const making = await makingOf(desk, input, { command: 'plan', options });
  if (isRefusal(making)) return making;
  const typed: Typed = { ...options, ...makingTyped(input) };
  const asked = planAsked(desk, input, (more) => line('plan', { ...typed, ...more }));
  if (isRefusal(asked)) return asked;
  const studio: Studio = { ...desk.studio, extras: [...desk.studio.extras, ...asked.extras] };
  const state = await desk.bench.state();
  const told = conditionsOf(state, studio);
  const conditions = asked.roomCelsius === null ? told : keptAt(told, asked.roomCelsius, desk.now);
  const others = planBench(state, studio, desk.now, { conditions, ahead: making.steps });
  const { start, readyBy } = asked;
  const demand: Demand = {
    job: null,
    name: input.name?.trim() || making.recipe.name,
    steps: making.steps,
    begin: { from: start ?? desk.now, until: start },
    readyBy,
    atHand: null,
  };
  const towards = readyBy !== null && start === null ? 'late' : 'early';
  const wished = towards === 'late' ? (input.reserve?.value ?? USUAL_RESERVE_MINUTES) : 0;
  const found = search(others.world, demand, towards, wished) ?? squeezedIn(others, demand, towards);
  const about = { desk, studio, typed, asked, making };
  if (found) return fitCard(about, found, { towards, others: others.plans, state });
  const unfit = planJob(others.world, demand, towards);
  if (!isUnfit(unfit)) throw new Error('what was planned is no misfit');
  return unfitCard(about, others.world, unfit, towards);
}

interface Found {
  readonly plan: JobPlan;
  readonly reserveMinutes: number;
  /** The jobs whose steps must move for it, as they are then. */
  readonly moved: readonly JobPlan[];
}

/** Where so much cannot be had, less is tried. */
const LESS_RESERVE_MINUTES = [20, 10, 5, 0];

/** With the reserve that was wished for; else with what can be had of it. */
function search(world: World, demand: Demand, towards: Towards, wished: number): Found | null {
  for (const reserveMinutes of [wished, ...LESS_RESERVE_MINUTES.filter((minutes) => minutes < wished)]) {
    const plan = planJob(world, demand, towards, reserveMinutes);
    if (!isUnfit(plan)) return { plan, reserveMinutes, moved: [] };
  }
  return null;
}

/** Where it finds no place around the others, they may find theirs around it. */
function squeezedIn(others: ReturnType<typeof planBench>, demand: Demand, towards: Towards): Found | null {
  if (others.troubles.length > 0 || others.demands.length === 0) return null;
  const first = planJob(others.alone, demand, towards);
  if (isUnfit(first)) return null;
  const all = planTogether(others.alone, [...others.demands, demand]);
  const plan = all.plans.get('');
  if (!plan || all.troubles.length > 0) return null;
  const moved = [...all.plans.values()].filter(({ job, steps }) => {
    const before = job === null ? undefined : others.plans.get(job);
    return before?.steps.some(({ startsAt }, index) => startsAt !== steps[index]?.startsAt) ?? false;
  });
  return { plan, reserveMinutes: 0, moved };
}

interface About {
  readonly desk: Desk;
  readonly studio: Studio;
  readonly typed: Typed;
  readonly asked: PlanAsk;
  readonly making: Making;
}

async function fitCard(
  about: About,
  { plan, reserveMinutes, moved }: Found,
  { towards, others, state }: { towards: Towards; others: ReadonlyMap<string, JobPlan>; state: BenchState },
): Promise<Card> {
  const { desk, studio, typed, making } = about;
  const view = { state, studio, now: desk.now };
  const needs = { name: plan.name, steps: making.steps, areaSquareMetres: making.cover?.areaSquareMetres ?? null, poured: [] };
  const shopping = await shoppingOf(desk, [needs]);
  const spare =
    towards === 'late'
      ? [
          reserveMinutes === 0
            ? say`It is ready just in time: nothing is kept in reserve.`
            : say`As late as is safe: any one step may slip by ${plain(minutesText(reserveMinutes))}, or a quarter of its window.`,
        ]
      : [];
  const moving = moved.map(
    ({ name, steps }) => say`${name} makes way: ${steps[0]?.title ?? ''} at ${clock(steps[0]?.startsAt ?? 0)}.`,
  );
  const around =
    others.size === 0
      ? []
      : [say`Planned around ${plain(others.size === 1 ? 'the other job' : `${others.size} other jobs`)} on this bench.`];
  return planCard({
    plan,
    shopping,
    towards,
    reserveMinutes,
    notes: [...spare, ...moving, ...around, ...assumptions(about), ...making.leftOut, ...shoppingLines({ shopping, studio })],
    buttons: [startWay(plan, { typed, desk })],
    files: [await planPicture(plan, view, staffedAround(view), desk.painter)],
    studio,
  });
}

/** Begins the job as it was planned; where it has no name yet, it asks for one. */
function startWay(plan: JobPlan, { typed, desk }: Pick<About, 'typed' | 'desk'>): Way {
  const { reserve: _, ...options } = typed;
  const begins = momentTyped(plan.steps[0]?.startsAt ?? desk.now, desk.studio.zone);
  return {
    label: 'Start this plan',
    command: 'job start',
    options: givenOf({ ...options, start: begins }),
    ...(typed['name'] === undefined ? { asks: true } : {}),
  };
}

/** What a plan counts on. */
function assumptions({ desk, studio, asked }: Pick<About, 'desk' | 'studio' | 'asked'>): Text[] {
  const extra = asked.extras.map(
    ({ from, until }) => say`It counts on one more person from ${clock(from)} until ${clock(until)}.`,
  );
  const room =
    asked.roomCelsius === null
      ? []
      : [say`It counts on a room at ${plain(temperatureText(asked.roomCelsius, studio.units))}, day and night.`];
  const shifts =
    desk.studio.shifts.hours.length === 0
      ? [say`No shifts are set, so any hour counts as staffed: ${code('/shift set hours:08:00-17:00 days:mon-fri')}`]
      : [];
  return [...extra, ...room, ...shifts];
}

function unfitCard(about: About, world: World, unfit: Unfit, towards: Towards): Card {
  const { desk, studio, typed } = about;
  const changes = nearestChanges(world, unfit, towards).slice(0, MOST_BUTTONS);
  return noPlanCard({
    name: unfit.demand.name,
    step: unfit.step,
    cause: causeOf(world, unfit),
    changes,
    notes: assumptions(about),
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
function changed(change: Change, typed: Typed, { zone, units }: Studio): Typed {
  switch (change.kind) {
    case 'start':
      return { start: momentTyped(change.at, zone) };
    case 'hands':
      return { extra: [typed['extra'], extraTyped(change, zone)].filter((each) => each !== undefined).join('; ') };
    case 'room':
      return { room: temperatureText(change.celsius, units) };
    case 'ready-by':
      return { 'ready-by': momentTyped(Math.ceil(change.at / MINUTE) * MINUTE, zone) };
  }
}
