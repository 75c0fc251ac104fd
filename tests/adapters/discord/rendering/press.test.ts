import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { benchTag, keptId, markOf, pressId, pressOf } from '../../../../src/adapters/discord/rendering/press.ts';
import type { Way } from '../../../../src/words/refusal.ts';
import { hostile } from './hostile.ts';

const bench = '165511591545143296';
const tag = benchTag(bench);

describe('the id of a button', () => {
  it('says all that pressing it means', () => {
    const id = pressId({ command: 'done', options: { job: 'lion-head', step: 'coat-1' } }, bench);
    expect(id).toBe(`1p.${tag}.done;job=lion-head;step=coat-1;`);
    expect(pressOf(id ?? '')).toEqual({ bench: tag, command: 'done', options: { job: 'lion-head', step: 'coat-1' } });
  });

  it('spends nothing on what people type', () => {
    const id = pressId({ command: 'cup start', options: { note: 'für 12,5 % Gießharz: (a/b)' } }, bench);
    expect(id).toBe(`1p.${tag}.cup start;note=für 12,5 % Gießharz: (a/b);`);
  });

  it('says whether a form is to be shown', () => {
    const id = pressId({ command: 'fix', options: {}, asks: true }, bench);
    expect(id).toBe(`1f.${tag}.fix;`);
    expect(pressOf(id ?? '')).toEqual({ bench: tag, command: 'fix', options: {}, form: true });
  });

  it('reads back as it was, whatever the options are', () => {
    const options = fc.dictionary(hostile, hostile, { maxKeys: 3, noNullPrototype: true });
    let fitted = 0;
    fc.assert(
      fc.property(hostile, options, fc.boolean(), (words, options, asks) => {
        const command = `x${words}`;
        const id = pressId({ command, options, asks }, bench);
        if (id === null) return;
        fitted++;
        expect(id.length).toBeLessThanOrEqual(100);
        expect(id).toMatch(/^[^\p{Cc}\p{Cf}\p{Cs}]+;$/u);
        expect(pressOf(id)).toEqual({ bench: tag, command, options, ...(asks ? { form: true } : {}) });
      }),
      { numRuns: 2000 },
    );
    expect(fitted).toBeGreaterThan(100);
  });

  it('takes exactly a hundred UTF-16 units', () => {
    const room = 100 - `1p.${tag}.note;text=;`.length;
    const way = (text: string) => ({ command: 'note', options: { text } });
    expect(pressId(way('x'.repeat(room)), bench)).toHaveLength(100);
    expect(pressId(way('x'.repeat(room + 1)), bench)).toBeNull();
    expect(pressId(way('🪣'.repeat(Math.floor(room / 2) + 1)), bench)).toBeNull();
  });

  it('differs where the meaning does', () => {
    const ways: Pick<Way, 'command' | 'options'>[] = [
      { command: 'a', options: { b: 'c;d=e' } },
      { command: 'a', options: { b: 'c', d: 'e' } },
      { command: 'a;b=c', options: { d: 'e' } },
      { command: 'a', options: { 'b=c': ';d=e' } },
      { command: 'a', options: { b: 'c~,d~-e' } },
    ];
    const ids = ways.map((way) => pressId(way, bench));
    expect(new Set(ids).size).toBe(ids.length);
    expect(pressId({ command: 'a', options: {} }, 'another')).not.toBe(pressId({ command: 'a', options: {} }, bench));
  });
});

describe('what an id means', () => {
  it('tells what is kept elsewhere', () => {
    expect(keptId('aZ_-09', bench)).toBe(`1k.${tag}.aZ_-09`);
    expect(pressOf(keptId('aZ_-09', bench))).toEqual({ bench: tag, kept: 'aZ_-09' });
    expect(pressOf(`1k.${tag}.`)).toBeNull();
  });

  it('tells another version from an id that is none of ours', () => {
    expect(pressOf(`2p.${tag}.done;`)).toBe('unknown-version');
    expect(pressOf('12z.anything.at all')).toBe('unknown-version');
    for (const id of [
      '',
      'done',
      '1p.done;',
      `1p.${tag}.done`,
      `1p.${tag}.;`,
      `1x.${tag}.done;`,
      `1p.${tag}x.done;`,
      `1p.${tag}.done;job;`,
      `1p.${tag}.done;job=a=b;`,
      `1p.${tag}.done;job=a;job=b;`,
      `1p.${tag}.done;job=a~b;`,
      `1p.${tag}.done;job=~00;`,
    ])
      expect(pressOf(id), id).toBeNull();
  });

  it('is never an error', () => {
    fc.assert(
      fc.property(hostile, (words) => {
        const press = pressOf(`1p.${tag}.${words};`);
        if (press === null || press === 'unknown-version' || 'kept' in press) return;
        // What is read means the same when we write it, if it still fits.
        const again = pressId(press, bench);
        if (again !== null) expect(pressOf(again)).toEqual(press);
      }),
    );
  });
});

it('marks a ping with a number that the platform takes, and keeps', () => {
  expect(markOf('165/recoat-open/lion-head')).toBe(markOf('165/recoat-open/lion-head'));
  const marks = Array.from({ length: 5000 }, (_, index) => markOf(`ping ${index}`));
  expect(new Set(marks).size).toBe(5000);
  for (const mark of marks) expect(mark > 1000 && mark < 2 ** 31 && Number.isInteger(mark)).toBe(true);
});
