import type { BenchEvent } from '../bench/events.ts';
import { type BenchState, openJobs } from '../bench/fold.ts';
import { startCard } from '../cards/start-card.ts';
import type { Card } from '../chat/card.ts';
import { unknownBlock } from '../job/layers-of.ts';
import { named } from '../words/nearest.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { slug } from '../words/slug.ts';
import { clock, say } from '../words/text.ts';
import { countedOn, toldAlong } from './counted-on.ts';
import type { Desk } from './desk.ts';
import { line, startLine } from './examples.ts';
import { type MakingInput, makingOf, makingTyped } from './making.ts';
import { type PlanInput, planAsked, planTyped, STILL_STARTS } from './plan-options.ts';
import { outsideRange } from './room-fits.ts';

export interface StartInput extends MakingInput, PlanInput {
  readonly name: string;
  readonly holder?: string | undefined;
}

/** A name stands on every card, and in every picture. */
const MOST_NAME = 200;
const LONGEST_ID = 24;

/** Begins a job: its steps are laid out once, with the amounts that they take, and stay so. */
export async function startJob(desk: Desk, input: StartInput): Promise<Card | Refusal> {
  const { holder } = input;
  // What nobody can see is no name.
  const name = input.name.replace(/\p{C}+/gu, ' ').trim();
  if (name.length > MOST_NAME)
    return new Refusal('name-too-long', say`Expected a name of at most ${MOST_NAME} characters, got ${name.length}.`, {
      example: startLine(desk),
    });
  if (name === '') return new Refusal('name-missing', say`A job needs a name.`, { example: startLine(desk) });
  const others = { name, holder, ...makingTyped(input), ...planTyped(input) };
  const asked = planAsked(desk, input, { command: 'job start', options: others }, STILL_STARTS);
  if (isRefusal(asked)) return asked;
  // All that may go wrong goes wrong before anything is stored.
  const making = await makingOf(desk, input, { command: 'job start', options: { name, holder, ...planTyped(input) } });
  if (isRefusal(making)) return making;
  const outside = outsideRange(asked.roomCelsius, making.steps, desk.studio, (room) => line('job start', { ...others, room }));
  if (outside) return outside;
  const twice = alreadyPlanned(await desk.bench.state(), name, asked);
  if (twice) return twice;
  const along = await toldAlong(desk, asked);
  if (isRefusal(along)) return along;
  const { start, readyBy } = asked;
  const { recipe, steps, sized, cover, coverage, reason, surface, laid, leftOut, concerns } = making;
  const decided = await desk.bench.decide((state): BenchEvent[] => [
    ...along,
    {
      version: 1 as const,
      type: 'JobStarted' as const,
      at: desk.now,
      enteredAt: desk.now,
      by: desk.who,
      ...calledFor(name, state),
      recipe: { id: recipe.id, name: recipe.name, version: recipe.version },
      steps: [...steps],
      areaSquareMetres: cover?.areaSquareMetres ?? null,
      volumeLitres: sized?.body.volumeLitres ?? null,
      surface,
      holder: holder ?? desk.who,
      planned: start === null && readyBy === null ? null : { beginsAt: start ?? desk.now, readyBy },
      extras: [...asked.extras],
    },
  ]);
  if (isRefusal(decided)) return decided;
  const event = decided.events.at(-1);
  const job = event?.type === 'JobStarted' ? decided.state.jobs.get(event.job) : undefined;
  if (!job) throw new Error('a job that was started is not on the bench');
  const shown = startCard({
    job,
    state: decided.state,
    studio: await desk.house.studio(),
    now: desk.now,
    covered: sized && cover && reason && { ...sized, cover, coverage, reason },
    unknownBlock: unknownBlock(laid),
    splits: laid.splits,
    leftOut,
    concerns,
    who: desk.who,
  });
  return { ...shown, lines: [...shown.lines, ...countedOn(desk, asked)] };
}

/** A button that was pressed twice begins no second job; pressed late, what was to begin meanwhile has begun then. */
function alreadyPlanned(
  state: BenchState,
  name: string,
  { start, typedStart }: { readonly start: number | null; readonly typedStart: number | null },
): Refusal | null {
  if (start === null || typedStart === null) return null;
  const same = openJobs(state).find(({ name: other, planned }) => {
    const begins = planned?.beginsAt ?? Number.NaN;
    return named(name, [other]) !== undefined && begins >= typedStart && begins <= start;
  });
  if (!same) return null;
  return new Refusal(
    'already-planned',
    say`${same.name} was entered at ${clock(same.enteredAt)}, to begin then. A second one needs another name.`,
    {
      example: `/plan job:${same.id}`,
      ways: [{ label: 'Show its plan', command: 'plan', options: { job: same.id } }],
    },
  );
}

/**
 * A short id that can be typed with gloves on: the name in small letters, numbered where it is taken. While an open job has
 * the name, the number belongs to the name as well: "Lion head 2".
 */
function calledFor(name: string, state: BenchState): { job: string; name: string } {
  const stem = slug(name, LONGEST_ID) || 'job';
  const isOpenName = (each: string) =>
    named(
      each,
      openJobs(state).map((job) => job.name),
    ) !== undefined;
  for (let number = 1; ; number += 1) {
    const job = number === 1 ? stem : `${stem}-${number}`;
    const numbered = number === 1 || !isOpenName(name) ? name : `${name} ${number}`;
    if (!state.jobs.has(job) && !isOpenName(numbered)) return { job, name: numbered };
  }
}
