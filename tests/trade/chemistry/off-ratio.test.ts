import { describe, expect, it } from 'vitest';
import { offRatioEffect, overPoured } from '../../../src/trade/chemistry/off-ratio.ts';
import type { Family, Part } from '../../../src/trade/material.ts';
import { ab, material, part } from '../example.ts';

const effect = (family: Family, names: readonly (readonly [string, Partial<Part>?])[], over: string) => {
  const example = material(
    names.map(([name, more], index) => part(name, index === 0 ? 100 : 10, more)),
    { family },
  );
  const text = offRatioEffect(example, example.parts.find(({ name }) => name === over) as Part);
  return text?.map((span) => ('text' in span ? String(span.text) : '')).join('') ?? null;
};
const isocyanate = { equivalent: { grams: 140, group: 'isocyanate' } } as const;
const polyol = { equivalent: { grams: 160, group: 'polyol' } } as const;

describe('what becomes of a cup that is off', () => {
  // Common practice, no source: each family, either way.
  it.each<[Family, (readonly [string, Partial<Part>?])[], string, RegExp]>([
    [
      'urethane',
      [
        ['A', isocyanate],
        ['B', polyol],
      ],
      'A',
      /^it turns hard and brittle, and foams/,
    ],
    [
      'urethane',
      [
        ['A', isocyanate],
        ['B', polyol],
      ],
      'B',
      /^it stays soft, tacky/,
    ],
    ['urethane', [['A', isocyanate], ['B']], 'B', /^it stays soft, tacky/],
    ['urethane', [['A'], ['B']], 'A', /too much isocyanate it turns hard.*too little it stays soft/],
    ['epoxy', [['resin'], ['hardener']], 'hardener', /^it turns soft, blushes/],
    ['epoxy', [['resin'], ['hardener']], 'resin', /never turns hard$/],
    ['epoxy', [['A'], ['B']], 'A', /too much hardener it turns soft.*too little it stays tacky/],
    ['silicone-tin', [['base'], ['catalyst']], 'catalyst', /sooner, shrinks more and turns brittle/],
    ['silicone-tin', [['base'], ['catalyst']], 'base', /^it cures late/],
    ['silicone-tin', [['A'], ['B']], 'B', /sooner, shrinks more/],
    ['silicone-platinum', [['A'], ['B']], 'A', /soft or tacky/],
    ['polyester', [['resin'], ['catalyst']], 'catalyst', /gets hot/],
    ['polyester', [['resin'], ['catalyst']], 'resin', /^it cures late/],
    ['gypsum', [['powder'], ['water']], 'water', /weaker and more porous/],
    ['gypsum', [['powder'], ['water']], 'powder', /stiff to pour/],
  ])('%s %j with too much %s', (family, names, over, words) => expect(effect(family, names, over)).toMatch(words));

  const dense = { gramsPerMillilitre: 2.75 };
  const wet = { gramsPerMillilitre: 1 };
  it.each<[string, (readonly [string, Partial<Part>?])[], string, RegExp | null]>([
    [
      'by its density',
      [
        ['P', dense],
        ['W', wet],
      ],
      'W',
      /weaker and more porous/,
    ],
    [
      'by its density, either way',
      [
        ['P', dense],
        ['W', wet],
      ],
      'P',
      /stiff to pour/,
    ],
    ['not known', [['P'], ['W']], 'P', null],
  ])('of gypsum is told where the part is known: %s', (_, names, over, words) => {
    const found = effect('gypsum', names, over);
    if (words === null) expect(found).toBeNull();
    else expect(found).toMatch(words);
  });
  it('of three parts of a silicone whose roles nobody knows is not told', () =>
    expect(effect('silicone-tin', [['A'], ['B'], ['C']], 'A')).toBeNull());

  it('nothing general is said of others', () => expect(effect('other', [['A'], ['B']], 'A')).toBeNull());
});

describe('the part of which there is too much', () => {
  it.each([
    [[80, 100], null],
    [[81, 100], 'A'],
    [[80, 101], 'B'],
    [[8, 0], 'A'],
  ] as const)('of %j at 80:100 is %s', (grams, name) => expect(overPoured(ab(80, 100), grams)?.name ?? null).toBe(name));
});
