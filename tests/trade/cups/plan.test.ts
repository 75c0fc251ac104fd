import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { type CupsAsk, largestLaid, planCups } from '../../../src/trade/cups/plan.ts';
import { potLifeOf } from '../../../src/trade/cups/pot-life.ts';
import { parseMassRate, parseQuantity } from '../../../src/trade/measures/quantity.ts';
import { smallestBatchGrams } from '../../../src/trade/mixing/mix.ts';
import { isRefusal } from '../../../src/words/refusal.ts';
import { ab } from '../example.ts';

const SCALE = { stepGrams: 1, mostGrams: null, measureStepMillilitres: 5 };
const ask = (more: Partial<CupsAsk> = {}): CupsAsk => ({
  totalGrams: 2400,
  gramsPerMinute: 25,
  containerGrams: null,
  potLifeMinutes: () => 9,
  ...more,
});

const sheet = fc
  .record({
    masses: fc.uniqueArray(fc.integer({ min: 20, max: 2000 }), { minLength: 1, maxLength: 4 }),
    minutes: fc.array(fc.integer({ min: 1, max: 90 }), { minLength: 4, maxLength: 4 }),
  })
  .map(({ masses, minutes }) => {
    const falling = [...minutes].sort((one, other) => other - one);
    const [first, ...others] = [...masses]
      .sort((one, other) => one - other)
      .map((massGrams, index) => ({ massGrams, potLifeMinutes: falling[index] ?? 1 }));
    return ab(41, 100, {
      reference: { celsius: 23, massGrams: first?.massGrams ?? 100 },
      potLifeMinutes: first?.potLifeMinutes ?? 9,
      potLifeByMass: others,
    });
  });

test('no larger cup is laid in time than the largest, tried gram by gram', () => {
  fc.assert(
    fc.property(sheet, fc.double({ min: 0.5, max: 60, noNaN: true }), (material, gramsPerMinute) => {
      const potLifeMinutes = (grams: number) => potLifeOf(material, grams).minutes;
      const largest = largestLaid({ gramsPerMinute, potLifeMinutes });
      // 60 g/min × 0.8 × 90 min is the most that can come out.
      let grams = 0;
      while ((grams + 1) / gramsPerMinute <= 0.8 * potLifeMinutes(grams + 1)) grams += 1;
      for (let more = grams + 2; more <= 4400; more += 1)
        if (more / gramsPerMinute <= 0.8 * potLifeMinutes(more)) throw new Error(`${more} g would do, too`);
      expect(largest).toBeGreaterThanOrEqual(grams - 1e-6);
      expect(largest).toBeLessThan(grams + 1 + 1e-6);
    }),
  );
});

test('the cups hold what is needed, are as few as can be, and each keeps every limit', () => {
  fc.assert(
    fc.property(
      sheet,
      fc.record({
        totalGrams: fc.integer({ min: 50, max: 5000 }),
        gramsPerMinute: fc.integer({ min: 5, max: 60 }),
        containerGrams: fc.option(fc.integer({ min: 60, max: 1000 })),
        mostGrams: fc.option(fc.integer({ min: 100, max: 1000 })),
        carries: fc.option(fc.integer({ min: 100, max: 1000 })),
        stepGrams: fc.constantFrom(0.1, 1),
      }),
      (base, { mostGrams, carries, stepGrams, ...asked }) => {
        const material = { ...base, mostGrams };
        const potLifeMinutes = (grams: number) => potLifeOf(material, grams).minutes;
        const plan = planCups(material, { ...asked, potLifeMinutes }, { ...SCALE, stepGrams, mostGrams: carries });
        fc.pre(!isRefusal(plan));
        const { count, mix, minutesEach } = plan;
        const each = mix.totalGrams;
        const may = (grams: number) =>
          grams / asked.gramsPerMinute <= 0.8 * potLifeMinutes(grams) + 1e-6 &&
          [asked.containerGrams, mostGrams, carries].every((most) => most === null || grams <= most + 1e-6);
        expect(may(each)).toBe(true);
        expect(each).toBeGreaterThanOrEqual(smallestBatchGrams(material, stepGrams) * 0.98);
        // Rounding takes less than a step from each of the two parts of each cup.
        expect(each * count).toBeGreaterThan(asked.totalGrams - 2 * stepGrams * count);
        if (count > 1) expect(may(asked.totalGrams / (count - 1))).toBe(false);
        expect(minutesEach).toBeCloseTo(each / asked.gramsPerMinute, 5);
        expect(mix.parts.at(-1)?.scaleReading).toBeCloseTo(each, 6);
      },
    ),
  );
});

describe('2.4 kg at 25 g/min, of a paste that lasts 9 min', () => {
  // By hand: 0.8 × 9 min × 25 g/min = 180 g; 2400/180 = 13.3, so 14 cups of 171.4 g: 49.9 and 121.6 g of 41:100.
  it('is 14 cups of 50 g and 122 g, or of a gram less', () => {
    const plan = planCups(ab(41, 100), ask(), SCALE);
    if (isRefusal(plan)) throw new Error(plan.code);
    expect(plan.limit.by).toBe('pot-life');
    expect(plan.limit.grams).toBeCloseTo(180, 6);
    expect(plan.count).toBe(14);
    expect(Math.abs(plan.mix.totalGrams - 171.4)).toBeLessThan(1);
  });

  it('is 6 cups of 400 g where hands are quick and no more may be mixed at once', () => {
    const plan = planCups(ab(41, 100, { mostGrams: 400 }), ask({ gramsPerMinute: 100 }), SCALE);
    expect(plan).toMatchObject({ count: 6, limit: { by: 'material', grams: 400 } });
  });

  it('is as large as the container', () =>
    expect(planCups(ab(41, 100), ask({ containerGrams: 120 }), SCALE)).toMatchObject({ count: 20, limit: { by: 'container' } }));

  it('of 60 g is raised to what can be weighed true', () => {
    const plan = planCups(ab(41, 100), ask({ totalGrams: 20 }), SCALE);
    // 0.5 g × (141/41 + 1.05 × 141/100) / 0.05 = 49.2 g, so 50 g.
    expect(plan).toMatchObject({ count: 1, raised: true });
    if (!isRefusal(plan)) expect(plan.mix.totalGrams).toBeGreaterThanOrEqual(50);
  });
});

describe('what cannot be', () => {
  it('too slow: the rate that it names is enough, and a little less is not', () => {
    fc.assert(
      fc.property(sheet, fc.double({ min: 0.1, max: 60, noNaN: true }), (material, gramsPerMinute) => {
        const potLifeMinutes = (grams: number) => potLifeOf(material, grams).minutes;
        const plan = (rate: number) => planCups(material, ask({ gramsPerMinute: rate, totalGrams: 500, potLifeMinutes }), SCALE);
        const refused = plan(gramsPerMinute);
        fc.pre(isRefusal(refused));
        expect(refused.code).toBe('too-slow');
        const rate = parseMassRate(refused.example ?? '');
        if (isRefusal(rate)) throw new Error(rate.code);
        expect(isRefusal(plan(rate))).toBe(false);
        // A slower one rounds to a cup of a few grams less, whose pot life can be a good deal longer: hence not just below.
        expect(isRefusal(plan(rate * 0.7 - 0.1))).toBe(true);
      }),
    );
  });

  it('too small a container: the one that it names is enough', () => {
    const refused = planCups(ab(41, 100), ask({ containerGrams: 30 }), SCALE);
    if (!isRefusal(refused)) throw new Error('planned');
    expect(refused.code).toBe('container-too-small');
    const container = parseQuantity(refused.example ?? '');
    if (isRefusal(container) || container.kind !== 'mass') throw new Error('not a mass');
    expect(isRefusal(planCups(ab(41, 100), ask({ containerGrams: container.grams }), SCALE))).toBe(false);
  });

  it('a hundred cups are planned, one more is refused', () => {
    const planned = (totalGrams: number) => planCups(ab(41, 100), ask({ containerGrams: 120, totalGrams }), SCALE);
    expect(planned(12_000)).toMatchObject({ count: 100 });
    expect(planned(12_120)).toMatchObject({ code: 'too-many-cups' });
  });

  it('too many cups: the amount that it names is not too much', () => {
    const refused = planCups(ab(41, 100), ask({ totalGrams: 100_000 }), SCALE);
    if (!isRefusal(refused)) throw new Error('planned');
    expect(refused.code).toBe('too-many-cups');
    const less = parseQuantity(refused.example ?? '');
    if (isRefusal(less) || less.kind !== 'mass') throw new Error('not a mass');
    expect(isRefusal(planCups(ab(41, 100), ask({ totalGrams: less.grams }), SCALE))).toBe(false);
  });
});
