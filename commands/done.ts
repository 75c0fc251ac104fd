import { type CupState, pouredFor } from '../src/bench/fold.ts';
import { isoIn } from '../src/cards/iso.ts';
import { mass } from '../src/cards/words.ts';
import { text, yesNo } from '../src/chat/options.ts';
import { changeJob } from '../src/desk/change.ts';
import { command, type Desk } from '../src/desk/desk.ts';
import { line } from '../src/desk/examples.ts';
import { atText, job as jobNamed, moment } from '../src/desk/resolve.ts';
import * as decide from '../src/job/decide.ts';
import type { PlannedStep } from '../src/job/events.ts';
import { nextIndex } from '../src/job/state.ts';
import { isRefusal } from '../src/words/refusal.ts';
import { clock, say, strong, type Text } from '../src/words/text.ts';

export default command({
  name: 'done',
  summary: 'A step is done: start its wait, and hear what comes next',
  options: {
    job: text({ about: 'Which job; may be left out where there is only one', complete: 'job' }).optional(),
    step: text({ about: 'Which step; left out, the next one', complete: 'step' }).optional(),
    at: text({ about: 'When it was finished, if not just now: 10m ago, 14:05' }).optional(),
    note: text({ about: 'Anything to remember', free: true }).optional(),
    early: yesNo({ about: 'Log it although its window had not opened' }).optional(),
    begun: text({ about: 'When hands began with it, where its window closed over their work: 20m ago' }).optional(),
  },
  examples: ['job:lion-head', 'step:coat-2 at:10m ago note:thin on the nose', 'begun:20m ago'],
  run: async (input, desk) => {
    const early = input.early === undefined ? undefined : input.early ? 'yes' : 'no';
    const when = moment(desk, input.at, (at) => line('done', { ...input, early, at }));
    if (isRefusal(when)) return when;
    const at = input.at === undefined ? undefined : atText(desk, when);
    const begun =
      input.begun === undefined ? null : moment(desk, input.begun, (each) => line('done', { ...input, early, begun: each }));
    if (isRefusal(begun)) return begun;
    const begunText = begun === null ? undefined : isoIn(desk.studio.zone)(begun);
    const options = { step: input.step, at, note: input.note, early, begun: begunText };
    const state = await desk.bench.state();
    const job = jobNamed(state, input.job, { desk, command: 'done', options });
    if (isRefusal(job)) return job;
    return changeJob(
      desk,
      job.id,
      input.at,
      (each, told) =>
        decide.done(
          each,
          {
            step: input.step ?? null,
            note: input.note ?? null,
            early: input.early ?? false,
            begun,
            whenTold: at !== undefined,
          },
          told,
        ),
      (after, before) => {
        const logged = before.steps[nextIndex(before)]?.plan;
        const doneAt = after.steps[nextIndex(before)]?.done?.at ?? desk.now;
        if (after.status === 'finished') return say`${after.name} is finished: ${logged?.title ?? ''} done at ${clock(doneAt)}`;
        return say`${after.name}: ${logged?.title ?? ''} done at ${clock(doneAt)}`;
      },
      {
        lines: (_, before) => {
          const plan = before.steps[nextIndex(before)]?.plan;
          return plan ? leftOver(plan, pouredFor(state, before, plan.id), desk) : [];
        },
      },
    );
  },
});

/** Of what a step takes, so much must be logged as poured for it to look whole; rounding and a brush take some. */
const WHOLE = 0.8;

/** Where some of a step's cups were logged and others not, it may have been pressed too soon. */
function leftOver({ grams }: PlannedStep, poured: readonly CupState[], { studio }: Desk): Text[] {
  if (grams === null || poured.length === 0 || poured.some((cup) => cup.grams === null)) return [];
  const logged = poured.reduce((sum, cup) => sum + (cup.grams ?? 0), 0);
  if (logged >= WHOLE * grams) return [];
  return [
    say`${strong(say`${mass(logged, studio)} of ${mass(grams, studio)}`)} is logged as poured for it. If it is not whole yet: /undo, and pour the rest.`,
  ];
}
