import { describe, expect, it } from 'vitest';
import type { Material } from '../../../src/trade/material.ts';
import { parseAdditives } from '../../../src/trade/measures/additives.ts';
import { weigh } from '../../../src/trade/mixing/mix.ts';
import { isRefusal } from '../../../src/words/refusal.ts';
import { good } from '../asks.ts';
import { ab, material, part } from '../example.ts';

const POLYESTER = material([part('resin', 100, { pascalSeconds: 0.4 }), part('catalyst', 1.5, { pascalSeconds: 0.02 })], {
  family: 'polyester',
  hazards: ['styrene', 'peroxide'],
  tolerancePercent: 10,
  catalyst: { part: 'catalyst', leastPercent: 1, mostPercent: 2 },
});
const URETHANE = ab(1, 1);
const TIN = ab(100, 10, {
  family: 'silicone-tin',
  additives: [{ name: 'thinner', of: 'A', leastPercent: 0, mostPercent: 10, usualPercent: null }],
});
const weighed = (of: Material, typed: string) => {
  const additives = parseAdditives(typed);
  if (isRefusal(additives)) throw new Error(additives.code);
  const amount = { quantity: { kind: 'mass', grams: 507.5 }, of: null } as const;
  return weigh(of, { amount, by: 'weight', additives }, { stepGrams: 0.1, mostGrams: null, measureStepMillilitres: 5 });
};

// Common practice, no source; that accelerator and peroxide explode together stands in the safety data sheets of either.
describe('what does not go into a cup', () => {
  it.each<[string, Material, string, string | null]>([
    ['accelerator beside a peroxide', POLYESTER, '1 % accelerator', 'accelerator'],
    ['with a slip', POLYESTER, '1 % acelerator', 'accelerator'],
    ['cobalt', POLYESTER, '0.5 % cobalt 6', 'accelerator'],
    ['promoter', POLYESTER, '0.5 % promoter', 'accelerator'],
    ['DMA', POLYESTER, '0.5 % DMA', 'accelerator'],
    ['more peroxide', POLYESTER, '1 % peroxide', 'peroxide-twice'],
    ['pigment', POLYESTER, '2 % pigment', null],
    ['accelerator in what has no peroxide', URETHANE, '1 % accelerator', null],
    ['water in urethane', URETHANE, '1 % water', 'water-foams'],
    ['water in a silicone', TIN, '1 % water', null],
    ['acetone', URETHANE, '5 % acetone', 'solvent'],
    ['thinner', URETHANE, '5 % thinner', 'solvent'],
    ['thinner that the sheet names', TIN, '5 % thinner', null],
  ])('%s', (_, of, typed, code) => {
    const mix = weighed(of, typed);
    expect(isRefusal(mix) ? mix.code : null).toBe(code);
  });

  it('is refused though the sheet names it, where it is an accelerator', () => {
    const named = { name: 'accelerator', of: 'resin', leastPercent: 0, mostPercent: 2, usualPercent: 1 };
    const mix = weighed({ ...POLYESTER, additives: [named] }, '1 % accelerator');
    expect(isRefusal(mix) && mix.code).toBe('accelerator');
  });
});

describe('what is stirred in', () => {
  it('goes in before the catalyst', () => {
    const mix = good(weighed(POLYESTER, '2 % pigment of resin'));
    // Arithmetic: 507.5 g at 100:1.5 are 500 and 7.5 g; 2 % of 500 g is 10 g.
    expect(mix.parts.map((one) => [one.part, one.scaleReading])).toEqual([
      ['resin', 500],
      ['catalyst', 517.5],
    ]);
    expect(mix.additives).toMatchObject([{ grams: 10, scaleReading: 510 }]);
    expect(mix.cupGrams).toBe(517.5);
  });
  it('goes in last where there is none', () => {
    // At 1:1, on a step of 0.1 g.
    const mix = good(weighed(URETHANE, '2 % pigment of A'));
    expect(mix.parts.at(-1)?.scaleReading).toBeCloseTo(507.5, 0);
    expect(mix.additives).toMatchObject([{ scaleReading: mix.cupGrams }]);
  });
});
