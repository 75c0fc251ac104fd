import { card } from '../../../../src/chat/card.ts';
import { file, text, typed, whole, yesNo } from '../../../../src/chat/options.ts';
import { registry } from '../../../../src/chat/registry.ts';
import { command, group, part } from '../../../../src/desk/desk.ts';
import { parsePeople } from '../../../../src/trade/time/calendar-text.ts';
import { isRefusal, Refusal } from '../../../../src/words/refusal.ts';
import { say } from '../../../../src/words/text.ts';

/** What was written down, so that a test can see what reached a command. */
export const written: Record<string, unknown>[] = [];

const note = part({
  summary: 'Writes something down',
  options: {
    job: text({ about: 'Which' }),
    text: text({ about: 'What', free: true }),
  },
  examples: ['job:lion-head text:thin on the nose'],
  form: ({ job = '' }) => ({ title: `Note on ${job}`, fields: [{ option: 'text', label: 'Note', example: 'thin', long: true }] }),
  run: async (input) => {
    written.push(input);
    return card(say`Noted: ${input.text}`, []);
  },
});

/** Commands of each kind that the shipped ones have no need of yet. */
export const forms = registry([
  group({ name: 'paper', summary: 'Notes', commands: { note } }),
  command({
    name: 'fix',
    summary: 'Puts a pour right',
    options: { material: text({ about: 'What' }), poured: text({ about: 'How much', free: true }) },
    examples: ['material:rubber poured:171 g A'],
    form: ({ material = '' }) =>
      material === 'lost'
        ? new Refusal('unknown-material', say`There is no ${material}.`)
        : {
            title: 'Fix',
            fields: [
              { option: 'poured', label: 'Part A', example: '171 g', suffix: 'A' },
              { option: 'poured', label: 'Part B', example: '200 g', suffix: 'B' },
            ],
          },
    run: async ({ material, poured }) =>
      poured.includes('nonsense') ? new Refusal('unreadable', say`Expected grams.`) : card(say`${material}: ${poured}`, []),
  }),
  command({
    name: 'offer',
    summary: 'A card with buttons that ask',
    options: { material: text({ about: 'What' }), job: text({ about: 'Which' }).optional() },
    examples: ['material:rubber'],
    run: async ({ material, job = 'lion-head' }) =>
      card(say`Offered`, [], {
        buttons: [
          { label: 'Fix', command: 'fix', options: { material }, asks: true },
          { label: 'Note', command: 'paper note', options: { job }, asks: true },
          { label: 'Same', command: 'offer', options: { material } },
        ],
      }),
  }),
  command({
    name: 'kinds',
    summary: 'One option of each kind',
    options: {
      who: typed(parsePeople, { about: 'Who', complete: 'person' }).optional(),
      quiet: yesNo({ about: 'Quiet?' }).optional(),
      cups: whole({ about: 'How many', least: 1, most: 9 }).optional(),
      list: file({ about: 'A list' }).optional(),
      aside: yesNo({ about: 'For me alone' }).optional(),
    },
    examples: ['cups:2'],
    run: async (input, desk) => {
      written.push(input);
      const bytes = input.list === undefined ? null : await desk.files.read(input.list);
      if (isRefusal(bytes)) return bytes;
      return card(say`Kinds`, [say`${bytes === null ? 'no file' : Buffer.from(bytes).toString()}`], {
        aside: input.aside ?? false,
      });
    },
  }),
  command({
    name: 'shown',
    summary: 'A card with files, and a button that is over when it is pressed',
    options: { press: yesNo({ about: 'Pressed?' }).optional() },
    examples: ['press:yes'],
    run: async ({ press = false }) =>
      press
        ? new Refusal('already-done', say`That was done.`)
        : card(say`Shown`, [], {
            buttons: [{ label: 'Press', command: 'shown', options: { press: 'yes' } }],
            files: [
              { name: 'board.png', about: 'The board', type: 'image/png', bytes: Buffer.from('picture') },
              { name: 'list.txt', about: 'The list', type: 'text/plain', bytes: Buffer.from('list') },
            ],
          }),
  }),
  command({
    name: 'manage',
    summary: 'For managers',
    options: {},
    examples: [],
    manage: true,
    run: async () => card(say`Managed`, []),
  }),
  command({
    name: 'breaks',
    summary: 'Is defective',
    options: {},
    examples: [],
    run: async () => {
      throw new Error('a defect');
    },
  }),
]);
