import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { complete } from '../../src/chat/complete.ts';
import { declarations } from '../../src/chat/declaration.ts';
import { helpFor } from '../../src/chat/help.ts';
import { writeLine } from '../../src/chat/line.ts';
import { text } from '../../src/chat/options.ts';
import { parseLine } from '../../src/chat/parse.ts';
import { plainText } from '../../src/chat/plain.ts';
import { registry } from '../../src/chat/registry.ts';
import { isRefusal } from '../../src/words/refusal.ts';
import { studio } from './example.ts';

const { command } = declarations<never>();
const fields = registry([
  command({
    name: 'field',
    summary: 'Three texts',
    options: {
      one: text({ about: '1' }).optional(),
      two: text({ about: '2', free: true }).optional(),
      three: text({ about: '3' }).optional(),
    },
    examples: ['one:x'],
    run: () => Promise.reject(new Error('never run')),
  }),
]);

// Pieces that mean something to the parser, so that random values come near its edges.
const piece = fc.constantFrom(
  '"',
  '""',
  '“',
  '”',
  ' ',
  '  ',
  ':',
  'one:',
  ' two:',
  'Three:',
  'word:',
  '/',
  'a',
  'é',
  '14:05',
  '\n',
  '\\',
  '://',
);
const value = fc
  .oneof(
    fc.string({ unit: 'binary', maxLength: 20 }),
    fc.array(piece, { maxLength: 12 }).map((pieces) => pieces.join('')),
  )
  .filter((each) => each.trim() !== '');
const options = fc.dictionary(fc.constantFrom('one', 'two', 'three'), value, { noNullPrototype: true });
const hostile = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 60 }),
  fc
    .tuple(
      fc.constantFrom('/mix', '/job start', '/job note', '/check', '/job', '/help', '/'),
      fc.array(fc.oneof(piece, fc.constantFrom(' material:', ' amount:', ' text:', ' scale:', ' by:', 'x', '1 g')), {
        maxLength: 15,
      }),
    )
    .map(([name, pieces]) => `${name} ${pieces.join('')}`),
);

describe('any text', () => {
  it('reads back as it was written', () => {
    fc.assert(
      fc.property(options, (given) => {
        const call = parseLine(fields, writeLine('field', given));
        expect(call).toMatchObject({ raw: given });
        if (!isRefusal(call)) expect(call.raw).toEqual(given);
      }),
      { numRuns: 2000 },
    );
  });

  it('is either understood or refused with an example, never thrown at', () => {
    fc.assert(
      fc.property(hostile, (line) => {
        const call = parseLine(studio, line);
        if (!isRefusal(call)) return;
        expect(call.code).toMatch(/^[a-z]+(-[a-z]+)*$/);
        expect(call.example).not.toBe('');
        expect(call.example).toBeDefined();
        expect(plainText(call.message, { zone: 'utc', now: 0 })).not.toBe('');
      }),
      { numRuns: 2000 },
    );
  });

  it('can be completed and asked about without a throw', () => {
    fc.assert(
      fc.property(hostile, (line) => {
        const { from, candidates } = complete(studio, line, {
          material: () => ['brush-urethane', 'a b: c'].map((value) => ({ value, title: value })),
        });
        expect(from).toBeGreaterThanOrEqual(0);
        expect(from).toBeLessThanOrEqual(line.length);
        expect(Array.isArray(candidates)).toBe(true);
        helpFor(studio, line);
      }),
      { numRuns: 1000 },
    );
  });

  it('takes a time that grows with its length only', () => {
    const lines = [
      '"'.repeat(200_000),
      'x:'.repeat(100_000),
      ' y'.repeat(100_000),
      ' "z '.repeat(50_000),
      ' one:"'.repeat(30_000),
    ];
    const start = performance.now();
    for (const line of lines) parseLine(fields, `/field one:${line}`);
    expect(performance.now() - start).toBeLessThan(2000);
  });
});

it('the examples of all declarations are understood', () => {
  for (const { examples } of studio.declarations.values())
    for (const example of examples) expect(isRefusal(parseLine(studio, example)), example).toBe(false);
});
