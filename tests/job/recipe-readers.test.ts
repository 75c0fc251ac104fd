import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layerText, waitText } from '../../src/cards/recipe-words.ts';
import type { RecipeWait } from '../../src/job/recipe.ts';
import { parseHands, parseThickness, parseWait } from '../../src/job/recipe-readers.ts';
import { isRefusal } from '../../src/words/refusal.ts';
import { good, refused } from '../trade/asks.ts';

const fixed = (fromMinutes: number, untilMinutes: number | null = null) => ({ kind: 'fixed', fromMinutes, untilMinutes });

describe('a wait', () => {
  it.each<[string, unknown]>([
    ['recoat', { kind: 'recoat' }],
    ['Re-coat', { kind: 'recoat' }],
    ['cured', { kind: 'cure' }],
    ['none', { kind: 'none' }],
    ['0 min', { kind: 'none' }],
    ['15 min', fixed(15)],
    ['from 15 min', fixed(15)],
    ['1h30', fixed(90)],
    ['1-1/2 h', fixed(90)],
    ['2,5 h', fixed(150)],
    ['15 min to 4 h', fixed(15, 240)],
    ['15 min - 4 h', fixed(15, 240)],
    ['15min–4h', fixed(15, 240)],
    ['from 15 min until 4 h', fixed(15, 240)],
    ['15-20 min', fixed(15, 20)],
    ['15 min to 20', fixed(15, 20)],
    ['0,5 to 1,5 h', fixed(30, 90)],
    ['45 min…4 hrs', fixed(45, 240)],
    ['45 min..4 h', fixed(45, 240)],
    ['45 min ... 4h', fixed(45, 240)],
    ['15..20 min', fixed(15, 20)],
  ])('“%s” is read', (typed, wait) => expect(parseWait(typed)).toEqual(wait));

  it.each([
    ['4 h to 15 min', 'wait-backwards', '15 min to 4 h'],
    ['15 min to 15 min', 'wait-backwards', '15 min to 4 h'],
    ['0 to 4 h', 'wait-zero', '1 min to 4 h'],
    ['45 min…4', 'wait-backwards', '45 min to 4 h'],
    ['20', 'unit-missing', '20 min'],
    ['15 - 20', 'unit-missing', '15 min to 20 min'],
    ['-5 min', 'number-negative', undefined],
    ['recaot', 'wait-unreadable', 'recoat'],
    ['overnight', 'wait-unreadable', '15 min to 4 h'],
    ['15 min to soon', 'wait-unreadable', '15 min to 4 h'],
    ['15 mins to 4 huors', 'duration-unreadable', undefined],
    ['', 'wait-unreadable', '15 min to 4 h'],
  ])('“%s” is refused', (typed, code, example) => {
    const refusal = refused(parseWait(typed));
    expect(refusal.code).toBe(code);
    if (example !== undefined) expect(refusal.example).toBe(example);
    expect(isRefusal(parseWait(refusal.example ?? '')), refusal.example).toBe(false);
  });

  it('reads back what a card says of it, to the second', () => {
    const seconds = fc.integer({ min: 1, max: 500_000 });
    fc.assert(
      fc.property(seconds, fc.option(seconds), (from, more) => {
        const wait: RecipeWait = {
          kind: 'fixed',
          fromMinutes: from / 60,
          untilMinutes: more === null ? null : (from + more) / 60,
        };
        const read = good(parseWait(waitText(wait)));
        if (read.kind !== 'fixed') throw new Error(read.kind);
        expect(read.fromMinutes).toBeCloseTo(wait.fromMinutes, 6);
        expect(read.untilMinutes ?? -1).toBeCloseTo(wait.untilMinutes ?? -1, 6);
      }),
    );
  });
});

describe('a thickness', () => {
  it.each<[string, unknown]>([
    ['0.8 mm', { millimetres: 0.8 }],
    ['0,8mm', { millimetres: 0.8 }],
    ['1/8 in', { millimetres: 3.175 }],
    ['0.7 x', { timesUsualCoat: 0.7 }],
    ['0,7x', { timesUsualCoat: 0.7 }],
    ['x 0,7', { timesUsualCoat: 0.7 }],
    ['1½ ×', { timesUsualCoat: 1.5 }],
    ['2 times the usual coat', { timesUsualCoat: 2 }],
    ['70 %', { timesUsualCoat: 0.7 }],
    ['block 12 mm', { blockWallMillimetres: 12 }],
    ['12 mm wall', { blockWallMillimetres: 12 }],
    ['none', 'none'],
  ])('“%s” is read', (typed, layer) => expect(parseThickness(typed)).toEqual(layer));

  it.each([
    ['0,8', 'unit-missing', '0,8 mm'],
    ['50 x', 'thickness-too-much', '0.7 x'],
    ['0 x', 'thickness-too-much', '0.7 x'],
    ['-1 x', 'number-negative', '1 x'],
    ['3 m', 'thickness-too-much', '0.8 mm'],
    ['block 3 m', 'thickness-too-much', 'block 12 mm'],
    ['block 12', 'unit-missing', undefined],
    ['thick', 'thickness-unreadable', '0.7 x'],
    ['3 milimeter', 'length-unreadable', undefined],
    ['1,200 x', 'number-ambiguous', '1200 x'],
  ])('“%s” is refused', (typed, code, example) => {
    const refusal = refused(parseThickness(typed));
    expect(refusal.code).toBe(code);
    if (example !== undefined) expect(refusal.example).toBe(example);
  });

  it('reads back what a card says of it', () => {
    for (const layer of [{ timesUsualCoat: 0.7 }, { millimetres: 0.8 }, { blockWallMillimetres: 12 }])
      expect(parseThickness(layerText(layer, 'metric'))).toEqual(layer);
    expect(parseThickness(layerText(null, 'metric'))).toBe('none');
  });
});

it('hands that lack their unit were meant in minutes', () => {
  expect(parseHands('1,5 h')).toBe(90);
  expect(refused(parseHands('20'))).toMatchObject({ code: 'unit-missing', example: '20 min' });
});
