import { describe, expect, it } from 'vitest';
import { adiabaticExotherm } from '../../src/trade/chemistry/exotherm.ts';
import { part } from '../trade/example.ts';

const mix = (epoxy: number, amine: number) => [
  part('resin', epoxy, { equivalent: { grams: epoxy, group: 'epoxy' } }),
  part('hardener', amine, { equivalent: { grams: amine, group: 'amine' } }),
];

// Arithmetic from 100 to 110 kJ for each mole of epoxy groups and 2 J/(g K), both from memory: the figures hold under these
// assumptions only, and where no heat leaves the piece.
describe('epoxy and diethylenetriamine, balanced', () => {
  it.each([
    ['the smallest bisphenol A resin', 170.2, [524, 576], [262, 288]],
    ['a usual liquid resin', 190, [475, 522], [237, 261]],
  ])('%s', (_, epoxy, joules, kelvin) => {
    const { joulesPerGram, kelvin: rise } = adiabaticExotherm(mix(epoxy, 20.63)) ?? {};
    expect([joulesPerGram?.least, joulesPerGram?.most].map((each) => Math.round(each ?? 0))).toEqual(joules);
    expect([rise?.least, rise?.most].map((each) => Math.floor(each ?? 0))).toEqual(kelvin);
  });

  it('what is too much of either side gives off no heat', () => {
    const [resin, hardener] = mix(190, 20.63);
    const right = adiabaticExotherm(mix(190, 20.63))?.joulesPerGram.least ?? 0;
    const twice = [resin, part('hardener', 2 * 20.63, { equivalent: hardener?.equivalent ?? null })];
    const heat = adiabaticExotherm(twice.flatMap((each) => each ?? []))?.joulesPerGram.least ?? 0;
    expect(heat).toBeCloseTo((right * (190 + 20.63)) / (190 + 2 * 20.63), 9);
  });

  it('is not known of a urethane, nor without equivalents', () => {
    expect(adiabaticExotherm([part('A', 100), part('B', 100)])).toBeNull();
    const urethane = [
      part('A', 100, { equivalent: { grams: 140, group: 'isocyanate' } }),
      part('B', 100, { equivalent: { grams: 160, group: 'polyol' } }),
    ];
    expect(adiabaticExotherm(urethane)).toBeNull();
  });
});
