import { conditionsOf } from '../bench/conditions.ts';
import { type BenchState, laidFor } from '../bench/fold.ts';
import type { Studio } from '../bench/studio.ts';
import { type Card, card, type Tone } from '../chat/card.ts';
import type { StepKind } from '../job/recipe.ts';
import { missedWays } from '../job/refusals.ts';
import { isOpen, type JobState, nextIndex } from '../job/state.ts';
import { timelineOf } from '../job/timeline.ts';
import { atWork, fingerMayOpen, hasOpened, isMissed, needsTouch, nextWindow, timesOf, type Window } from '../job/window.ts';
import type { Way } from '../words/refusal.ts';
import { away, clock, person, plain, say, strong, type Text } from '../words/text.ts';
import { isoIn } from './iso.ts';
import { paceLine } from './pace.ts';
import { planLine, toWait } from './plan-line.ts';
import { outsideLine, usableLine } from './usable.ts';
import { amountText, checkFirst, cupsFor, gramsLeft, jobData, mass, timelineData, windowText } from './words.ts';

export interface JobView {
  readonly job: JobState;
  readonly state: BenchState;
  readonly studio: Studio;
  readonly now: number;
}

export const doneWay = (job: JobState): Way => {
  const step = job.steps[nextIndex(job)];
  return {
    label: doneLabel(step?.plan.kind),
    command: 'done',
    options: { job: job.id, ...(step ? { step: step.plan.id } : {}) },
  };
};
const doneLabel = (kind: StepKind | undefined) => (kind === 'coat' ? 'Coat done' : 'Step done');
export const mixWay = (job: JobState): Way => ({
  label: job.steps[nextIndex(job)]?.plan.kind === 'coat' ? 'Mix next coat' : 'Mix',
  command: 'mix',
  options: { job: job.id },
});
export const planWay = (job: JobState): Way => ({ label: 'Show its plan', command: 'plan', options: { job: job.id } });
const castWay = (job: JobState): Way => ({ label: 'How much to cast', command: 'cast', options: { job: job.id } });
export const tackWay = (job: JobState): Way => ({ label: 'Check tack', command: 'check', options: { job: job.id } });

/** Takes back one entry; its time too, in base 36, so that the button means no other entry after a studio was forgotten. */
export const undoWay = ({ seq, at }: { readonly seq: number; readonly at: number }): Way => ({
  label: 'Undo',
  command: 'undo',
  options: { entry: String(seq), of: at.toString(36) },
});
export const noteWay = (id: string): Way => ({ label: 'Write a note', command: 'job note', options: { job: id }, asks: true });

/** What can be pressed now, the likeliest first. */
export function waysOn({ job, state, studio, now }: JobView): Way[] {
  const step = job.steps[nextIndex(job)];
  if (job.status === 'held') return [{ label: 'Resume', command: 'job resume', options: { job: job.id } }];
  if (!step || !isOpen(job)) return [];
  const conditions = conditionsOf(state, studio);
  const window = nextWindow(job, conditions);
  if (isMissed(job, conditions, now)) return [...missedWays(job), ...(fingerMayOpen(job, window) ? [tackWay(job)] : [])];
  const poured = laidFor(state, job, step.plan, now);
  const several = (cupsFor(step.plan, studio)?.count ?? 1) > 1;
  const left = several ? gramsLeft(step.plan, studio, poured) > 0 : poured.length === 0;
  // Without an area nobody but the maker knows how much: nothing to press.
  const mix = step.plan.grams !== null && (!atWork(job, now) || left) ? [mixWay(job)] : [];
  if (window && !hasOpened(window, now)) {
    const wait = job.steps[nextIndex(job) - 1]?.plan.wait;
    const last = job.steps[nextIndex(job) - 1]?.done;
    // Tacky is not cured: a cure is asked of the clock, unless no clock can tell.
    const touch = wait && (wait.kind === 'recoat' || needsTouch(window));
    return [...(touch ? [tackWay(job)] : []), ...mix, ...(last ? [undoWay(last)] : [])];
  }
  if (isToWait({ job, state, studio, now })) return [planWay(job), doneWay(job)];
  const cast = step.plan.kind === 'cast' && mix.length === 0 ? [castWay(job)] : [];
  return [...mix, ...cast, doneWay(job)];
}

/** Whether what is open now would, if it were begun now, leave no place for what follows. */
const isToWait = ({ job, ...view }: JobView): boolean => toWait(job, view)?.breaks ?? false;

/** The lines that say what is next on a job: what, how much, by when; then whether its clocks can be trusted. */
export function nextLines(view: JobView): Text[] {
  const { job, state, studio, now } = view;
  const window = isOpen(job) ? nextWindow(job, conditionsOf(state, studio)) : null;
  if (window && needsTouch(window)) return [...whatIsNext(view), ...outsideLine(job, window, studio.units)];
  const [head, ...rest] = whatIsNext(view);
  const plan = job.status === 'active' ? planLine(job, view) : [];
  const pace = window && (now < window.opensAt || timesOf(window).closesAt !== null) ? paceLine(job, studio) : [];
  return [
    ...(head ? [head] : []),
    ...plan,
    ...rest,
    ...pace,
    ...(job.status === 'active' ? usableLine(job, state, now, studio.units) : []),
  ];
}

function whatIsNext(view: JobView): Text[] {
  const { job, state, studio, now } = view;
  const step = job.steps[nextIndex(job)]?.plan;
  if (job.status === 'held')
    return [say`On hold${job.heldFor === null ? say`` : say`: ${job.heldFor}`}. The material goes on curing.`];
  if (!step) return [say`All steps are done.`];
  if (!isOpen(job)) return [say`Closed.`];
  const conditions = conditionsOf(state, studio);
  const window = nextWindow(job, conditions);
  if (isMissed(job, conditions, now))
    return [
      say`${strong(say`Window missed`)}: ${step.title} had to go on by ${clock(window?.closesAt ?? now)}.`,
      decideLine(job, window),
    ];
  const when = window ? windowText(window, now) : say``;
  const poured = laidFor(state, job, step, now);
  const whole = gramsLeft(step, studio, []);
  const cups = cupsFor(step, studio)?.count ?? 1;
  const working = atWork(job, now);
  const begun = working
    ? say` (${cups === 1 ? say`its cup is poured` : say`${mass(whole - gramsLeft(step, studio, poured), studio)} of ${mass(whole, studio)} poured`})`
    : say``;
  const waiting = window !== null && !hasOpened(window, now);
  const head =
    window !== null && needsTouch(window)
      ? say`${strong(say`Touch it before ${step.title}`)}: nobody can tell by the clock.${now < window.opensAt ? say` I ring at ${clock(window.opensAt)} for it.` : say``}`
      : waiting
        ? say`${strong(say`Next: ${step.title}`)}, from ${strong(clock(window.opensAt))} (${away(window.opensAt)})${window.closesAt === null ? say`` : say`, no later than ${strong(clock(window.closesAt))}`}.`
        : say`${strong(say`${plain(toWait(job, view) === null ? 'Now' : 'Next')}: ${step.title}`)}${begun}${window === null || timesOf(window).closesAt === null ? say`` : say`, ${when}`}.`;
  const wait = job.steps[nextIndex(job) - 1]?.plan;
  const amount = amountText(step, studio, { poured, begun: working });
  return [
    head,
    ...(amount.length > 0 ? [amount] : []),
    ...(waiting && !needsTouch(window) && wait?.wait?.kind === 'cure'
      ? [say`${wait.title} cures until ${clock(window.opensAt)}: leave it alone.`]
      : []),
    ...(working ? [] : checkFirst(job)),
    ...(step.advice === null ? [] : [say`${step.advice}`]),
  ];
}

/** What can be done about a missed window. */
export const decideLine = (job: JobState, window: Window | null): Text =>
  fingerMayOpen(job, window)
    ? say`Decide: abrade and go on, or scrap the coat. If it is still tacky, check it: the finger goes before the clock.`
    : say`Decide: abrade and go on, or scrap the coat.`;

function toneOf({ job, state, studio, now }: JobView): Tone {
  if (!isOpen(job) || job.status === 'held') return 'calm';
  const conditions = conditionsOf(state, studio);
  if (isMissed(job, conditions, now)) return 'late';
  const window = nextWindow(job, conditions);
  return window && hasOpened(window, now) && toWait(job, { state, studio, now }) === null ? 'go' : 'calm';
}

/** A job's card: what to do next, how much, by when, who; `said` goes before it, for what has just been told. */
export function jobCard(
  view: JobView,
  title: Text,
  more: { lines?: readonly Text[]; buttons?: readonly Way[]; aside?: boolean; to?: readonly string[] } = {},
): Card {
  const { job, state, studio, now } = view;
  return card(title, [...nextLines(view), say`With ${person(job.holder)}.`, ...(more.lines ?? [])], {
    data: { job: jobData(job), timeline: timelineData(timelineOf(job, conditionsOf(state, studio), now), isoIn(studio.zone)) },
    buttons: more.buttons ?? waysOn(view),
    tone: toneOf(view),
    aside: more.aside ?? false,
    to: more.to ?? [],
  });
}

/** How many of the recipe's steps are done, in words. */
export const progress = (job: JobState) => plain(`${nextIndex(job)} of ${job.steps.length} steps done`);
