import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import type { PlannedStep } from '../../src/job/events.ts';
import { type Room, room } from '../support/room.ts';

let here: Room;
beforeAll(async () => {
  here = await room();
});
afterAll(() => here.close());

interface Layer {
  material: string;
  title: string;
  mixedGrams: number;
  thicknessMillimetres: number;
  volumeLitres: number;
  coatsMillimetres: number[];
  /** Then /mix refuses, and nothing can be compared. */
  scaleTooCoarse: boolean;
}
const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);
const layersIn = (message: MessageObject | undefined) => (message?.data['coverage'] as { layers: Layer[] } | undefined)?.layers;
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

const SKINS = ['brush-urethane', 'brush-urethane-slow', 'brush-silicone-tin', 'brush-silicone-platinum'];
const SHELLS = ['shell-paste', 'shell-epoxy', 'casting-plaster', 'laminate-epoxy', 'laminate-polyester'];
const sizes = fc.oneof(
  fc.integer({ min: 3, max: 300 }).map((each) => `area:${each / 100} m2`),
  fc.integer({ min: 1, max: 30 }).map((each) => `area:${each},5 sq ft`),
  fc
    .tuple(...[1, 2, 3].map(() => fc.integer({ min: 5, max: 110 })))
    .map(([x, y, z]) => `shape:box ${x} x ${y} x ${z} cm flange:40 mm`),
  fc.integer({ min: 8, max: 90 }).map((each) => `shape:half sphere ${each} cm relief:folds edges:15 %`),
);
const asks = fc.record({
  size: sizes,
  skin: fc.constantFrom(...SKINS),
  shell: fc.constantFrom(...SHELLS),
  detail: fc.constantFrom('', ' recipe:skin-paste-fine', ' recipe:skin-paste-fine detail:detail-silicone'),
  thickness: fc.option(fc.integer({ min: 10, max: 160 }).map((each) => ` thickness:${each / 10} mm`)),
  backing: fc.option(fc.integer({ min: 4, max: 40 }).map((each) => ` backing:${each} mm`)),
  waste: fc.option(fc.integer({ min: 0, max: 40 }).map((each) => ` waste:${each} %`)),
  // Metric scales, and those of an ounce and a tenth of one.
  scale: fc.constantFrom(
    'units:metric scale:1 g',
    'units:metric scale:0.1 g',
    'units:customary scale:0.1 oz',
    'units:customary scale:1 oz',
  ),
});

/** What /mix weighs out for one step after the other: the cup that it shows, as often as it says that there are cups. */
async function mixedStepByStep(job: string, steps: readonly PlannedStep[]): Promise<Map<string, number>> {
  const byRole = new Map<string, number>();
  for (const step of steps) {
    if (step.kind === 'demould') break;
    if (step.material) {
      const card = await last(`/mix job:${job}`);
      const cup = (card?.data['mix'] as { totalGrams: number } | undefined)?.totalGrams ?? Number.NaN;
      const cups = Number(/cup 1 of (\d+)/.exec(`${card?.title} ${card?.text}`)?.[1] ?? 1);
      const role = step.kind === 'shell' ? 'Shell' : step.id.startsWith('detail') ? 'Detail' : 'Skin';
      byRole.set(role, (byRole.get(role) ?? 0) + cup * cups);
    }
    const wait = step.wait?.fromMinutes ?? 0;
    await here.type(`/done job:${job} step:${step.id}`, `+${Math.ceil(wait) + 1}m`);
  }
  return byRole;
}

/** A box with a wall of 12 mm around the sides and above it, less itself; in litres, from millimetres. */
const blockAround = (x: number, y: number, z: number, wall: number) =>
  ((x + 2 * wall) * (y + 2 * wall) * (z + wall) - x * y * z) / 1e6;

it('/area, /job start and /mix say the same of a poured block', async () => {
  let number = 0;
  const sides = fc.tuple(...[1, 2, 3].map(() => fc.integer({ min: 60, max: 700 })));
  const pours = fc.constantFrom('pour-urethane', 'pour-silicone-tin', 'pour-silicone-platinum');
  const walls = fc.option(fc.integer({ min: 8, max: 30 }));
  await fc.assert(
    fc.asyncProperty(sides, pours, walls, async ([x = 0, y = 0, z = 0], skin, wall) => {
      number += 1;
      await here.type(`#block-${number}`, '/studio set units:metric scale:1 g');
      const thickness = wall === null ? '' : ` thickness:${wall} mm`;
      const options = `recipe:block-pour skin:${skin} shape:box ${x} x ${y} x ${z} mm waste:0 %${thickness}`;
      const [layer] = layersIn(await last(`/area ${options}`)) ?? [];
      const started = await last(`/job start name:Brick ${options}`);
      expect(layersIn(started)).toEqual([layer]);
      expect(layer?.volumeLitres).toBeCloseTo(blockAround(x, y, z, wall ?? 12), 6);
      const job = [...(await (await here.session.desk()).bench.state()).jobs.values()].at(-1);
      const mixed = await mixedStepByStep(job?.id ?? '', job?.steps.map(({ plan }) => plan) ?? []);
      expect(mixed.get('Shell')).toBeCloseTo(layer?.mixedGrams ?? 0, 1);
      // By its volume alone, as anybody would mix it who has measured the box.
      const byVolume = await last(`/mix material:${skin} amount:${layer?.volumeLitres.toFixed(6)} L`);
      const cups = byVolume?.data['mix'] as { totalGrams: number } | undefined;
      if (cups) expect(Math.abs(cups.totalGrams / (layer?.mixedGrams ?? 0) - 1)).toBeLessThan(0.01);
      // The comparison beside a brushed skin is the same block.
      const beside = (await last(`/area skin:brush-urethane shape:box ${x} x ${y} x ${z} mm`))?.data['coverage'];
      const { block } = beside as { block: { volumeLitres: number } };
      expect(block.volumeLitres).toBeCloseTo(blockAround(x, y, z, 12), 6);
      await here.type(`/job close job:${job?.id} text:done`);
    }),
    { numRuns: 8 },
  );
  expect(here.troubles).toEqual([]);
}, 120_000);

it('a poured block of which only the area is known has no grams, and the cards say what is missing', async () => {
  await here.type('#bare', '/studio set units:metric scale:1 g');
  const options = 'recipe:block-pour skin:pour-silicone-tin area:0.4 m2';
  for (const card of [await last(`/area ${options}`), await last(`/job start name:Bare ${options}`)]) {
    expect(card?.text).toContain('Give a shape or a model; or mix the litres of that');
    expect(layersIn(card)).toEqual([]);
  }
});

it('/area, /job start and /mix say the same of the same mould', async () => {
  let number = 0;
  await fc.assert(
    fc.asyncProperty(asks, async ({ size, skin, shell, detail, thickness, backing, waste, scale }) => {
      number += 1;
      const channel = `#bench-${number}`;
      const options = `skin:${skin} shell:${shell}${detail}${thickness ?? ''}${backing ?? ''}${waste ?? ''} ${size}`;
      await here.type(channel, `/studio set ${scale}`);
      const area = layersIn(await last(`/area ${options}`)) ?? [];
      const started = await last(`/job start name:Owl casting:casting-plaster ${options}`);
      expect(started?.kind, started?.text).toBe('reply');
      expect(area.length).toBeGreaterThan(1);
      expect(layersIn(started)).toEqual(area);
      const job = [...(await (await here.session.desk()).bench.state()).jobs.values()].at(-1);
      const steps = job?.steps.map(({ plan }) => plan) ?? [];
      const thick = (kind: string) => sum(steps.filter((step) => step.kind === kind).map((step) => step.layerMillimetres ?? 0));
      const told = (...titles: string[]) =>
        sum(area.filter(({ title }) => titles.includes(title)).map((layer) => layer.thicknessMillimetres));
      expect(thick('shell')).toBeCloseTo(told('Shell'), 4);
      expect(thick('coat')).toBeCloseTo(told('Detail', 'Skin'), 4);
      const mixed = await mixedStepByStep(job?.id ?? '', steps);
      for (const { title, mixedGrams, scaleTooCoarse } of area)
        if (scaleTooCoarse) expect(mixed.get(title), title).toBeNaN();
        else expect(mixed.get(title), title).toBeCloseTo(mixedGrams, 1);
      await here.type(`/job close job:${job?.id} text:done`);
    }),
    { numRuns: 12 },
  );
  expect(here.troubles).toEqual([]);
}, 120_000);
