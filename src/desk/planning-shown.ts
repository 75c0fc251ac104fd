import { type BenchState, openJobs } from '../bench/fold.ts';
import { asFarAsItFits } from '../bench/planning/as-far-as-it-fits.ts';
import { demandOf } from '../bench/planning/demand.ts';
import type { BenchPlan } from '../bench/planning/plan-bench.ts';
import { planNow } from '../bench/planning/standing.ts';
import type { Studio } from '../bench/studio.ts';
import { momentTyped } from '../cards/as-typed.ts';
import { waysOn } from '../cards/job-card.ts';
import { partLines, planCard, planData } from '../cards/plan-card.ts';
import { coldLine } from '../cards/plan-cold.ts';
import { tellTroubles } from '../cards/trouble-card.ts';
import { type Card, card } from '../chat/card.ts';
import { type JobState, nextIndex } from '../job/state.ts';
import { isRefusal, Refusal, type Way } from '../words/refusal.ts';
import { clock, plain, say, strong, type Text } from '../words/text.ts';
import { besideOf, staffedAround } from './board.ts';
import type { Desk } from './desk.ts';
import { elsewhereLine } from './elsewhere.ts';
import { givenOf, type Kept, line, startLine, type Typed } from './examples.ts';
import { boardPicture, orNone, planPicture } from './pictures.ts';
import { type PlanInput, planAsked, planTyped, timeless } from './plan-options.ts';
import { assumptions, benchFor, plannedCard } from './planning.ts';
import { job as jobNamed } from './resolve.ts';
import { curing, outsideRange } from './room-fits.ts';

export interface ShownInput extends PlanInput {
  readonly job?: string | undefined;
  /** Minutes. */
  readonly reserve?: Kept<number> | undefined;
}

interface JobsView {
  readonly state: BenchState;
  readonly studio: Studio;
  readonly now: number;
}

const NOTHING_ASKED = { start: null, readyBy: null, extras: [], roomCelsius: null };

/** The plan of one job under way, as it is or as it would be; or of all on this bench. */
export async function planShown(desk: Desk, input: ShownInput): Promise<Card | Refusal> {
  const state = await desk.bench.state();
  const jobs = openJobs(state);
  if (input.job === undefined && jobs.length === 0)
    return new Refusal('nothing-to-plan', say`Nothing is under way here. Say what is to be made, of what.`, {
      example: startLine(desk).replace('/job start', '/plan'),
    });
  const asked: Typed = { ...planTyped(input), reserve: input.reserve?.typed };
  const isAsked = Object.values(asked).some((value) => value !== undefined);
  if (input.job === undefined && jobs.length > 1 && !isAsked) return benchShown(desk, state, jobs);
  const job = jobNamed(state, input.job, { desk, command: 'plan', options: asked });
  if (isRefusal(job)) return job;
  return isAsked ? planAgain(desk, state, job, input, { job: job.id, ...asked }) : jobShown(desk, state, job);
}

async function jobShown(desk: Desk, state: BenchState, job: JobState): Promise<Card> {
  const view = { state, studio: desk.studio, now: desk.now };
  const bench = planNow(state, desk.studio, desk.now);
  const plan = bench.plans.get(job.id);
  const troubles = bench.troubles.filter((trouble) => trouble.job === job.id);
  const told = tellTroubles(troubles, bench, desk.studio, desk.now);
  const notes = assumptions({ desk, ask: NOTHING_ASKED });
  if (!plan) return withTroubles(partShown(job, bench, view), told);
  const files = await orNone(planPicture(plan, view, staffedAround(view), desk.painter));
  const shown = planCard({
    plan,
    towards: 'early',
    reserveMinutes: 0,
    notes: [
      ...notes,
      ...coldLine(
        plan,
        job.steps.map((step) => step.plan),
        bench.alone.clocks.conditions,
        desk.studio,
      ),
      ...(await elsewhereLine(desk, bench.world, [plan])),
    ],
    buttons: fileWays(job),
    files,
    studio: desk.studio,
  });
  return withTroubles(shown, told);
}

/** A job that cannot be planned to its end: as far as it fits, or why nothing can be told. */
function partShown(job: JobState, bench: BenchPlan, view: JobsView): Card {
  const trouble = bench.troubles.find((each) => each.job === job.id);
  const part = trouble ? asFarAsItFits(bench, trouble) : null;
  return card(
    trouble ? say`${job.name}: ${trouble.title} does not fit` : say`${job.name} cannot be planned now`,
    part ? [say`Up to there it fits:`, ...partLines(part)] : trouble ? [] : [whyNot(job, bench)],
    {
      data: { plan: null, ...(part ? { inPart: planData(part, view.studio) } : {}) },
      buttons: waysOn({ job, ...view }),
    },
  );
}

/** How a job under way would be done with another start, promise, room or more hands. Stores nothing. */
async function planAgain(desk: Desk, state: BenchState, job: JobState, input: ShownInput, typed: Typed): Promise<Card | Refusal> {
  const ask = planAsked(desk, input, { command: 'plan', options: typed });
  if (isRefusal(ask)) return ask;
  const outside = outsideRange(ask.roomCelsius, curing(job), desk.studio, (room) => line('plan', { ...typed, room }));
  if (outside) return outside;
  const steps = job.steps.slice(nextIndex(job)).map(({ plan }) => plan);
  const bench = benchFor({ desk, state, ask, steps });
  const demand = bench.demands.find((each) => each.job === job.id);
  if (!demand) return jobShown(desk, state, job);
  const begun = nextIndex(job) > 0 || demand.atHand !== null;
  if (begun && ask.start !== null)
    return new Refusal('begun-already', say`${job.name} has begun: what comes next begins as early as it can.`, {
      example: line('plan', { ...typed, start: undefined }),
    });
  return plannedCard(
    {
      desk,
      state,
      // What has begun goes on as early as it can.
      ask: begun ? { ...ask, start: desk.now } : ask,
      typed,
      reserveMinutes: input.reserve?.value ?? null,
      steps,
      demandOn: ({ demands }, { start, readyBy }) => {
        const own = demands.find((each) => each.job === job.id);
        if (!own) return null;
        const asked = { ...own, readyBy: readyBy ?? own.readyBy };
        if (begun) return { ...asked, wish: null };
        if (start !== null) return { ...asked, begin: { from: start, until: start }, wish: start };
        // Where another promise was asked for, when it begins is left to the plan; else it begins when it was to, or later.
        if (readyBy !== null || own.wish === null) return { ...asked, wish: null };
        return { ...asked, begin: { from: own.wish, until: null } };
      },
      ways: (plan) => keepWay(job, begun ? null : (plan.steps[0]?.startsAt ?? null), timeless(typed, ask, desk.studio), desk),
      notes: [],
      shopping: null,
    },
    bench,
  );
}

/** Makes it the job's plan, with what it counts on; `begins`: null where it has begun. */
function keepWay(job: JobState, begins: number | null, asked: Typed, { studio }: Desk): Way[] {
  const start = begins === null ? undefined : momentTyped(begins, studio.zone);
  const options = givenOf({ ...asked, reserve: undefined, job: job.id, start });
  return Object.keys(options).length > 1 ? [{ label: 'Keep this plan', command: 'job plan', options }] : [];
}

async function benchShown(desk: Desk, state: BenchState, jobs: readonly JobState[]): Promise<Card> {
  const view = { state, studio: desk.studio, now: desk.now };
  const bench = planNow(state, desk.studio, desk.now);
  const plans = [...bench.plans.values()].sort((a, b) => a.readyAt - b.readyAt);
  const inTrouble = bench.troubles.map((trouble) => trouble.job);
  const unplanned = jobs.filter(({ id }) => !bench.plans.has(id) && !inTrouble.includes(id));
  const shown = card(
    say`Plan of this bench: ${plain(`${jobs.length} jobs`)}`,
    [
      ...plans.map(
        ({ name, steps, readyAt }) =>
          say`${strong(say`${name}`)}: ${steps[0] ? say`${steps[0].title} at ${clock(steps[0].startsAt)}, ` : say``}ready ${clock(readyAt)}`,
      ),
      ...unplanned.map((each) => say`${strong(say`${each.name}`)}: ${whyNot(each, bench)}`),
      ...(await elsewhereLine(desk, bench.world, plans)),
      ...assumptions({ desk, ask: NOTHING_ASKED }),
    ],
    {
      data: { plans: plans.map((each) => planData(each, desk.studio)) },
      buttons: fileWays(null),
      files: await orNone(boardPicture(view, besideOf(view), desk.painter)),
    },
  );
  return withTroubles(shown, tellTroubles(bench.troubles, bench, desk.studio, desk.now));
}

const fileWays = (job: JobState | null): Way[] => {
  const options: Readonly<Record<string, string>> = job === null ? {} : { job: job.id };
  return [
    { label: 'Shopping list', command: 'shopping', options },
    { label: 'Calendar file', command: 'calendar', options },
  ];
};

/** Why the clock has nothing to say of a job. */
function whyNot(job: JobState, { alone }: BenchPlan): Text {
  const { status, heldFor } = job;
  if (status === 'held') return say`On hold${heldFor === null ? say`` : say`: ${heldFor}`}.`;
  if (status !== 'active') return say`It is ${plain(status)}.`;
  if (demandOf(job, alone) === 'touch') return say`Somebody must touch it first: then the rest is planned.`;
  return say`Its window was missed: say what was done, or what is to be done, then the rest is planned.`;
}

function withTroubles(shown: Card, { lines, ways, data }: ReturnType<typeof tellTroubles>): Card {
  if (lines.length === 0) return { ...shown, aside: true };
  return {
    ...shown,
    aside: true,
    lines: [...lines, ...shown.lines],
    buttons: [...ways, ...shown.buttons].slice(0, 3),
    data: { ...shown.data, troubles: data },
    tone: 'soon',
  };
}
