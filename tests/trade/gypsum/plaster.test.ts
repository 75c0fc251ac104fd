import fc from 'fast-check';
import { all, create } from 'mathjs';
import { describe, expect, it, test } from 'vitest';
import { parsePlasterAmount } from '../../../src/trade/gypsum/asked.ts';
import { plasterBatches } from '../../../src/trade/gypsum/batch.ts';
import {
  ownWater,
  poresPercent,
  powderAndWater,
  powderFor,
  setPiece,
  slurryMillilitres,
  withWater,
} from '../../../src/trade/gypsum/plaster.ts';
import { mixedDensity } from '../../../src/trade/mixing/parts.ts';
import { good, refused } from '../asks.ts';
import { material, part } from '../example.ts';

const math = create(all ?? {});
const near = (got: number, expected: number, relative = 1e-9) =>
  expect(Math.abs(got - expected), `${got} against ${expected}`).toBeLessThanOrEqual(relative * Math.max(1, Math.abs(expected)));

const powder = part('powder', 100, { gramsPerMillilitre: 2.75 });
const water = part('water', 70, { gramsPerMillilitre: 1 });
const plaster = material([powder, water], { family: 'gypsum' });
const parts = good(powderAndWater(plaster));

const grams = fc.double({ min: 10, max: 50_000, noNaN: true });
const ratio = fc.double({ min: 18.7, max: 120, noNaN: true });

describe('what becomes of powder and water', () => {
  test('calcium sulphate is neither made nor lost, and what is wet is dry once the water has gone', () => {
    // Molar masses of a handbook, from memory: CaSO4 136.14, with half a water 145.15, with two waters 172.17.
    const [bare, half, two] = [136.14, 145.15, 172.17];
    fc.assert(
      fc.property(grams, ratio, (powderGrams, waterPerHundred) => {
        const piece = setPiece(powderGrams, (powderGrams * waterPerHundred) / 100);
        near(piece.dryGrams * (bare / two), powderGrams * (bare / half), 3e-4);
        near(piece.dryGrams + piece.evaporatesGrams, powderGrams * (1 + waterPerHundred / 100));
        near(piece.wetGrams - piece.dryGrams, piece.evaporatesGrams);
        expect(piece.evaporatesGrams).toBeGreaterThan(0);
      }),
    );
  });

  test('the slurry has the volume of its solid and its water, in the units of another library', () => {
    fc.assert(
      fc.property(grams, ratio, (powderGrams, waterPerHundred) => {
        const waterGrams = (powderGrams * waterPerHundred) / 100;
        const sum = `(${powderGrams} g) / (2750 kg/m^3) + (${waterGrams} g) / (1000 kg/m^3)`;
        near(slurryMillilitres(powderGrams, waterGrams, parts) ?? 0, math.evaluate(`number(${sum}, ml)`));
      }),
    );
  });

  test('a mould that is asked for is filled, and a dry weight comes out as it was asked for', () => {
    fc.assert(
      fc.property(grams, ratio, (size, waterPerHundred) => {
        const filled = good(powderFor({ of: 'mould', millilitres: size }, waterPerHundred, plaster, parts));
        near(slurryMillilitres(filled, (filled * waterPerHundred) / 100, parts) ?? 0, size);
        const dried = good(powderFor({ of: 'dry', grams: size }, waterPerHundred, plaster, parts));
        near(setPiece(dried, dried).dryGrams, size);
        const mixed = good(powderFor({ of: 'mix', grams: size }, waterPerHundred, plaster, parts));
        near(mixed * (100 + waterPerHundred), 100 * size);
      }),
    );
  });

  test('more water leaves more pores; with none to spare the piece is nearly solid', () => {
    const pores = (waterPerHundred: number) =>
      poresPercent(setPiece(100, waterPerHundred).dryGrams, slurryMillilitres(100, waterPerHundred, parts) ?? 0);
    // All that is left then is the contraction of setting, 7 %.
    expect(pores(18.62)).toBeCloseTo(7.1, 0);
    // 1 − (118.62/2.32)/(100/2.75 + 70), by hand.
    expect(pores(70)).toBeCloseTo(51.93, 1);
    fc.assert(fc.property(ratio, (each) => pores(each + 1) > pores(each)));
  });
});

describe('the ratio', () => {
  it('of the sheet is water to 100 of powder, and another one replaces it', () => {
    expect(ownWater(parts)).toBe(70);
    const wetter = withWater(material([part('powder', 50), part('water', 30)]), parts, 80);
    expect(wetter.parts.map(({ weightShare }) => weightShare)).toContain(80);
    // Whatever is thicker, the powder goes into the water.
    expect(wetter.pourOrder).toEqual(['water', 'powder']);
    const own = good(powderAndWater(material([part('Water', 30), part('base', 50)])));
    expect([own.powder.name, own.water.name, ownWater(own)]).toEqual(['base', 'Water', 60]);
    // 180 g of slurry in 100/2.75 + 80 mL.
    near(mixedDensity(withWater(plaster, parts, 80)) ?? 0, 180 / (100 / 2.75 + 80));
  });

  it('is not that of a material without water, or with a third part', () => {
    const other = material([part('powder', 100), part('polymer', 40)]);
    expect(refused(powderAndWater(other)).code).toBe('not-powder-and-water');
    const three = material([powder, water, part('sand', 20)]);
    expect(refused(powderAndWater(three)).code).toBe('not-powder-and-water');
  });

  it('cannot fill a mould without densities', () => {
    const bare = material([part('powder', 100), part('water', 70)]);
    const pair = good(powderAndWater(bare));
    expect(slurryMillilitres(100, 70, pair)).toBeNull();
    expect(refused(powderFor({ of: 'mould', millilitres: 400 }, 70, bare, pair)).code).toBe('density-missing');
  });
});

describe('batches', () => {
  test('come to what is needed, true to the ratio, within what may be mixed and what the scale carries', () => {
    fc.assert(
      fc.property(
        fc.record({
          needed: fc.double({ min: 200, max: 60_000, noNaN: true }),
          waterPerHundred: fc.integer({ min: 19, max: 120 }),
          mostGrams: fc.option(fc.integer({ min: 1000, max: 12_000 })),
          carries: fc.option(fc.integer({ min: 1000, max: 12_000 })),
          of: fc.constantFrom('powder', 'water', 'mix', 'mould', 'dry'),
        }),
        ({ needed, waterPerHundred, mostGrams, carries, of }) => {
          const mixed = withWater({ ...plaster, mostGrams }, parts, waterPerHundred);
          const scale = { stepGrams: 1, mostGrams: carries, measureStepMillilitres: 1 };
          const { mix, count, apart, raised } = good(plasterBatches(mixed, parts, needed, of as 'mix', scale));
          const weights = mix.parts.map((each) => each.grams);
          expect(raised).toBe(false);
          expect(mix.parts.map((each) => each.part)).toEqual(['water', 'powder']);
          // Each part is within a step of what it should be, or, where the ratio is kept truer so, two; water that was said
          // stays at its nearest step, half a gram off at most, and so much more powder goes with it.
          const off = of === 'water' ? 1 + (1 + 100 / waterPerHundred) / 2 : 3;
          expect(Math.abs(mix.totalGrams * count - needed)).toBeLessThanOrEqual(Math.max(3, off) * count);
          expect(mix.ratioErrorPercent).toBeLessThan(5);
          if (mostGrams !== null) expect(mix.totalGrams).toBeLessThanOrEqual(mostGrams);
          if (carries !== null) expect(Math.max(...weights)).toBeLessThanOrEqual(carries);
          expect(apart).toBe(carries !== null && mix.totalGrams > carries);
        },
      ),
    );
  });

  it('leave the scale one step, so that rounding up takes no part above what it carries', () => {
    const of = (grams: number) =>
      good(
        plasterBatches(withWater(plaster, parts, 70), parts, grams * 1.7, 'mix', {
          stepGrams: 10,
          mostGrams: 1000,
          measureStepMillilitres: 1,
        }),
      );
    // 990 g of powder are a step less than what the scale carries, and go in one; more go in two.
    expect(of(990)).toMatchObject({ count: 1 });
    expect(of(990).mix.parts.map((each) => each.grams)).toEqual([690, 990]);
    expect(of(992)).toMatchObject({ count: 2 });
  });

  it('keep the powder as it was said, and raise what is too little to be weighed', () => {
    const scale = { stepGrams: 1, mostGrams: null, measureStepMillilitres: 1 };
    const said = good(plasterBatches(withWater(plaster, parts, 33), parts, 1000 * 1.33, 'powder', scale));
    expect(said.mix.parts.map((each) => each.grams)).toEqual([330, 1000]);
    expect(good(plasterBatches(withWater(plaster, parts, 70), parts, 10, 'powder', scale))).toMatchObject({
      count: 1,
      raised: true,
    });
  });
});

describe('an amount', () => {
  it.each([
    ['0,4 L', { of: 'mould', millilitres: 400 }],
    ['0.4 L of mould', { of: 'mould', millilitres: 400 }],
    ['2 gal', { of: 'mould', millilitres: 7570.823568 }],
    ['2 kg', { of: 'powder', grams: 2000 }],
    ['2 kg of powder', { of: 'powder', grams: 2000 }],
    ['2 kg casting plaster', { of: 'powder', grams: 2000 }],
    ['2 kg dry plaster', { of: 'powder', grams: 2000 }],
    ['2000 g powdr', { of: 'powder', grams: 2000 }],
    ['1.2 kg dry', { of: 'dry', grams: 1200 }],
    ['dry 1,2 kg', { of: 'dry', grams: 1200 }],
    ['1.2 kg dried piece', { of: 'dry', grams: 1200 }],
    ['500 g mix', { of: 'mix', grams: 500 }],
    ['500 g of slurry', { of: 'mix', grams: 500 }],
    ['0.5 L water', { of: 'water', grams: 500 }],
  ])('%s', (typed, ask) => expect(parsePlasterAmount(typed)).toEqual(ask));

  it.each([
    ['0.4', 'unit-missing', '0.4 L'],
    ['500', 'unit-missing', '500 g'],
    ['5 kg cheese', 'plaster-amount-unreadable', '2 kg of powder'],
    ['2 L powder', 'powder-by-volume', '2 kg of powder'],
    ['70:100', 'ratio-not-amount', '500 g'],
    ['much', 'amount-unreadable', '500 g'],
    ['0 L', 'amount-zero', '500 g'],
  ])('%s is refused as %s, and %s would do', (typed, code, example) => {
    const refusal = refused(parsePlasterAmount(typed));
    expect([refusal.code, refusal.example]).toEqual([code, example]);
    good(parsePlasterAmount(example));
  });
});
