import { describe, expect, it } from 'vitest';
import { coatsBond, releaseBetween, usualRelease } from '../../../src/trade/compatibility/release.ts';
import { FAMILIES, type Family } from '../../../src/trade/material.ts';
import { ab } from '../example.ts';

// The rules of this file are common practice of the trade, no source.
const SILICONES: Family[] = ['silicone-tin', 'silicone-platinum'];
const OTHERS: Family[] = ['urethane', 'epoxy', 'polyester', 'gypsum'];
const pairs = (a: readonly Family[], b: readonly Family[]) => a.flatMap((one) => b.map((other) => [one, other] as const));

describe('a release', () => {
  it.each([...pairs(SILICONES, SILICONES), ...pairs(OTHERS, OTHERS)])('%s on %s: needed', (fresh, under) =>
    expect(usualRelease(fresh, under)).toBe('needed'),
  );
  it.each([...pairs(SILICONES, OTHERS), ...pairs(OTHERS, SILICONES)])('%s on %s: not needed', (fresh, under) =>
    expect(usualRelease(fresh, under)).toBe('not-needed'),
  );
  it.each([...pairs(['other'], FAMILIES), ...pairs(FAMILIES, ['other'])])('%s on %s: not known', (fresh, under) =>
    expect(usualRelease(fresh, under)).toBeNull(),
  );

  it('is what a material’s own lists say, whichever of the two has them; needed before not needed', () => {
    const plain = ab(1, 1, { family: 'urethane' });
    const lets = ab(1, 1, { family: 'epoxy', release: { needed: [], notNeeded: ['urethane'] } });
    const holds = ab(1, 1, { family: 'silicone-tin', release: { needed: ['urethane'], notNeeded: [] } });
    expect(releaseBetween(plain, lets)).toBe('not-needed');
    expect(releaseBetween(lets, plain)).toBe('not-needed');
    expect(releaseBetween(plain, holds)).toBe('needed');
    expect(releaseBetween(holds, plain)).toBe('needed');
    const both = ab(1, 1, { family: 'urethane', release: { needed: ['epoxy'], notNeeded: [] } });
    expect(releaseBetween(both, lets)).toBe('needed');
  });
});

describe('a coat on a coat', () => {
  it.each<[Family, Family, boolean]>([
    ['urethane', 'urethane', true],
    ['gypsum', 'gypsum', true],
    ['silicone-tin', 'silicone-platinum', true],
    ['silicone-platinum', 'urethane', false],
    ['urethane', 'silicone-tin', false],
    ['epoxy', 'silicone-platinum', false],
    ['epoxy', 'polyester', true],
    ['polyester', 'epoxy', false],
    ['epoxy', 'urethane', true],
    ['gypsum', 'urethane', false],
    ['urethane', 'gypsum', false],
    ['other', 'silicone-tin', true],
  ])('%s on %s bonds: %s', (fresh, under, bonds) => expect(coatsBond(fresh, under)).toBe(bonds));
});
