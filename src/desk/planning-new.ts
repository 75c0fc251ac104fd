import { momentTyped } from '../cards/as-typed.ts';
import { concernLines, isOfTheChoice } from '../cards/compatibility.ts';
import { takesLine } from '../cards/shopping-card.ts';
import type { Card } from '../chat/card.ts';
import { isRefusal, type Refusal, type Way } from '../words/refusal.ts';
import type { Desk } from './desk.ts';
import { givenOf, type Kept, line, type Typed } from './examples.ts';
import { type MakingInput, makingOf, makingTyped } from './making.ts';
import { type PlanInput, planAsked, planTyped, timeless } from './plan-options.ts';
import { benchFor, plannedCard } from './planning.ts';
import { outsideRange } from './room-fits.ts';
import { shoppingOf } from './shopping.ts';

export interface NewPlanInput extends MakingInput, PlanInput {
  readonly name?: string | undefined;
  /** Minutes. */
  readonly reserve?: Kept<number> | undefined;
}

/** More of what is to be minded is read on the job's own cards. */
const MOST_CONCERNS = 2;

/** Plans a job that has not begun, around the work of those that have. Stores nothing. */
export async function planNew(desk: Desk, input: NewPlanInput): Promise<Card | Refusal> {
  const options: Typed = { name: input.name, ...planTyped(input), reserve: input.reserve?.typed };
  const typed: Typed = { ...options, ...makingTyped(input) };
  const ask = planAsked(desk, input, { command: 'plan', options: typed });
  if (isRefusal(ask)) return ask;
  const making = await makingOf(desk, input, { command: 'plan', options });
  if (isRefusal(making)) return making;
  const { steps, cover } = making;
  const outside = outsideRange(ask.roomCelsius, steps, desk.studio, (room) => line('plan', { ...typed, room }));
  if (outside) return outside;
  const name = input.name?.trim() || making.recipe.name;
  const state = await desk.bench.state();
  const shopping = await shoppingOf(desk, [{ name, steps, areaSquareMetres: cover?.areaSquareMetres ?? null, poured: [] }]);
  const concerns = concernLines(making.concerns.filter(isOfTheChoice), desk.studio);
  return plannedCard(
    {
      desk,
      state,
      ask,
      typed,
      reserveMinutes: input.reserve?.value ?? null,
      steps,
      demandOn: (_, { start, readyBy }) => ({
        job: null,
        name,
        steps,
        begin: { from: start ?? desk.now, until: start },
        wish: null,
        readyBy,
        atHand: null,
      }),
      ways: (plan) => [
        startWay(plan.steps[0]?.startsAt ?? desk.now, desk, timeless(typed, ask, desk.studio)),
        { label: 'Shopping list', command: 'shopping', options: givenOf(makingTyped(input)) },
      ],
      notes: [...takesLine({ shopping, studio: desk.studio }), ...concerns.slice(0, MOST_CONCERNS), ...making.leftOut],
      shopping,
    },
    benchFor({ desk, state, ask, steps }),
  );
}

/** Begins the job as it was planned; where it has no name yet, it asks for one. */
function startWay(begins: number, { studio }: Desk, typed: Typed): Way {
  const { reserve: _, ...options } = typed;
  return {
    label: 'Start this plan',
    command: 'job start',
    options: givenOf({ ...options, start: momentTyped(begins, studio.zone) }),
    ...(typed['name'] === undefined ? { asks: true } : {}),
  };
}
