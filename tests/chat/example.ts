import { type Answer, card } from '../../src/chat/card.ts';
import { declarations } from '../../src/chat/declaration.ts';
import { choice, file, someone, text, typed, whole, yesNo } from '../../src/chat/options.ts';
import { registry } from '../../src/chat/registry.ts';
import { Refusal } from '../../src/words/refusal.ts';
import { say } from '../../src/words/text.ts';

/** A few commands that use every kind of option, for the tests of this folder. */
export interface Desk {
  said: string[];
}

export const { command, group, part } = declarations<Desk>();

const grams = (value: string): number | Refusal => {
  const found = /^([\d.]+) ?g( of \w+)?$/.exec(value);
  return found ? Number(found[1]) : new Refusal('bad-amount', say`An amount is like 500 g. Got ${value}.`);
};

const done = (word: string): Promise<Answer> => Promise.resolve(card(say`${word}`, []));

export const mix = command({
  name: 'mix',
  summary: 'How much of each part to pour',
  options: {
    scale: whole({ about: 'Digits that the scale shows', least: 0, most: 3 }).optional(),
    material: text({ about: 'What is mixed', complete: 'material' }),
    amount: typed(grams, { about: 'How much of it' }),
    by: choice(['weight', 'volume'], { about: 'What is measured' }).optional(),
    brief: yesNo({ about: 'Numbers only' }).optional(),
  },
  examples: ['material:brush-urethane amount:500 g'],
  run: async (input, desk) => {
    // These are checked by the compiler: the input has the types of the options.
    const total: number = input.amount;
    const by: 'weight' | 'volume' = input.by ?? 'weight';
    desk.said.push(`${input.material} ${total} ${by}`);
    return done('mixed');
  },
});

export const job = group({
  name: 'job',
  summary: 'The jobs of the studio',
  commands: {
    start: part({
      summary: 'Begin a job',
      options: {
        name: text({ about: 'What it is called' }),
        holder: someone({ about: 'Who has it' }).optional(),
        photo: file({ about: 'What it looks like' }).optional(),
      },
      examples: ['name:Left hand', 'name:Left hand holder:@dana'],
      run: () => done('started'),
    }),
    note: part({
      summary: 'Write something down',
      options: {
        text: text({ about: 'What to remember', free: true }),
        job: text({ about: 'Which job', complete: 'job' }).optional(),
      },
      examples: ['text:The rim is thin job:left-hand'],
      run: () => done('noted'),
    }),
    list: part({ summary: 'All open jobs', options: {}, examples: [], run: () => done('listed') }),
  },
});

export const check = command({
  name: 'check',
  summary: 'Say how a coat feels',
  options: { result: choice(['not-yet', 'ready', 'past'], { about: 'How it feels' }) },
  examples: ['result:ready'],
  run: () => done('checked'),
});

export const shift = group({
  name: 'shift',
  summary: 'When the studio is open',
  commands: {
    set: part({
      summary: 'Set the hours',
      options: { hours: text({ about: 'From when until when' }) },
      examples: ['hours:08:00-17:00'],
      manage: true,
      run: () => done('set'),
    }),
  },
});

export const help = command({
  name: 'help',
  summary: 'What there is to say',
  options: { topic: text({ about: 'A command', complete: 'topic' }).optional() },
  examples: ['topic:mix'],
  run: () => done('helped'),
});

export const studio = registry([mix, job, check, shift, help]);
