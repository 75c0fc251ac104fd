import type { BenchEvent } from '../bench/events.ts';
import { type BenchState, openJobs } from '../bench/fold.ts';
import { startCard } from '../cards/start-card.ts';
import type { Card } from '../chat/card.ts';
import { unknownBlock } from '../job/layers-of.ts';
import { named } from '../words/nearest.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { say } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { line, startLine } from './examples.ts';
import { type MakingInput, makingOf, makingTyped } from './making.ts';
import { type PlanInput, planAsked, planTyped, startsAsPlanned } from './plan-options.ts';

export interface StartInput extends MakingInput, PlanInput {
  readonly name: string;
  readonly holder?: string | undefined;
}

/** Begins a job: its steps are laid out once, with the amounts that they take, and stay so. */
export async function startJob(desk: Desk, input: StartInput): Promise<Card | Refusal> {
  const { name, holder } = input;
  if (name.trim() === '') return new Refusal('name-missing', say`A job needs a name.`, { example: startLine(desk) });
  // All that may go wrong goes wrong before anything is stored.
  const making = await makingOf(desk, input, { command: 'job start', options: { name, holder, ...planTyped(input) } });
  if (isRefusal(making)) return making;
  const others = { name, holder, ...makingTyped(input), ...planTyped(input) };
  const asked = planAsked(desk, input, (more) => line('job start', { ...others, ...more }));
  if (isRefusal(asked)) return asked;
  const planned = await startsAsPlanned(desk, asked);
  if (isRefusal(planned)) return planned;
  const { recipe, steps, sized, cover, coverage, reason, surface, laid, leftOut, concerns } = making;
  const decided = await desk.bench.decide((state): BenchEvent[] => [
    ...planned.told,
    {
      version: 1 as const,
      type: 'JobStarted' as const,
      at: desk.now,
      enteredAt: desk.now,
      by: desk.who,
      ...calledFor(name.trim(), state),
      recipe: { id: recipe.id, name: recipe.name, version: recipe.version },
      steps: [...steps],
      areaSquareMetres: cover?.areaSquareMetres ?? null,
      volumeLitres: sized?.body.volumeLitres ?? null,
      surface,
      holder: holder ?? desk.who,
      planned: planned.planned,
    },
  ]);
  if (isRefusal(decided)) return decided;
  const event = decided.events.at(-1);
  const job = event?.type === 'JobStarted' ? decided.state.jobs.get(event.job) : undefined;
  if (!job) throw new Error('a job that was started is not on the bench');
  return startCard({
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
}

/**
 * A short id that can be typed with gloves on: the name in small letters, numbered where it is taken. While an open job has
 * the name, the number belongs to the name as well: "Lion head 2".
 */
function calledFor(name: string, state: BenchState): { job: string; name: string } {
  const slug =
    name
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 24)
      .replace(/-+$/, '') || 'job';
  const isOpenName = (each: string) =>
    named(
      each,
      openJobs(state).map((job) => job.name),
    ) !== undefined;
  for (let number = 1; ; number += 1) {
    const job = number === 1 ? slug : `${slug}-${number}`;
    const numbered = number === 1 || !isOpenName(name) ? name : `${name} ${number}`;
    if (!state.jobs.has(job) && !isOpenName(numbered)) return { job, name: numbered };
  }
}
