import { text, typed } from '../src/chat/options.ts';
import { command } from '../src/desk/desk.ts';
import { inLine, inMinutes, kept, line } from '../src/desk/examples.ts';
import { makingOptions } from '../src/desk/making-options.ts';
import { planOptions } from '../src/desk/plan-options.ts';
import { planNew } from '../src/desk/planning-new.ts';
import { planShown } from '../src/desk/planning-shown.ts';
import { parseDuration } from '../src/trade/measures/quantity.ts';
import { Refusal } from '../src/words/refusal.ts';
import { say } from '../src/words/text.ts';

/** What a plan needs beside its size and times: for examples. */
const EXAMPLE = { skin: 'brush-urethane', shell: 'shell-paste' };

/** Nobody keeps three minutes in reserve: so small a bare number was meant in hours. */
const inHours = (typedText: string): string | undefined =>
  /^\s*[1-4]\s*$/.test(typedText) ? `${typedText.trim()} h` : undefined;

const reserve = kept(
  inLine(parseDuration, (_, typedText) =>
    line('plan', { ...EXAMPLE, 'ready-by': 'fri 16:00', reserve: inHours(typedText) ?? inMinutes(typedText, '30 min') }),
  ),
);

export default command({
  name: 'plan',
  summary: 'When to do each step, so that every coat is in its window and somebody is there',
  options: {
    job: text({ about: 'A job under way; left out, a new one, or all of this bench', complete: 'job' }).optional(),
    name: text({ about: 'What the mould is of', free: true }).optional(),
    ...planOptions('plan', EXAMPLE),
    reserve: typed(reserve, {
      about: 'By how much any one step may slip, and ready-by with it: 30 min',
      withRest: true,
    }).optional(),
    ...makingOptions('plan', EXAMPLE),
  },
  examples: [
    'name:Lion head skin:brush-urethane shell:shell-paste area:0.4 m2 start:tomorrow 8:00',
    'name:Lion head skin:brush-urethane shell:shell-paste ready-by:in 4 days reserve:1 h',
    '',
  ],
  run: async ({ job, ...asked }, desk) => {
    const { start, 'ready-by': readyBy, extra, room, reserve, ...making } = asked;
    const isNew = Object.values(making).some((value) => value !== undefined);
    if (job === undefined)
      return isNew ? planNew(desk, asked) : planShown(desk, { start, 'ready-by': readyBy, extra, room, reserve });
    if (!isNew) return planShown(desk, { job, start, 'ready-by': readyBy, extra, room, reserve });
    return new Refusal('one-or-new', say`${job} is under way, and what it is made of stands. Plan that job, or a new one.`, {
      example: line('plan', { job }),
    });
  },
});
