import { describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, labels, roomEach } from '../support/room.ts';
import { covered, modelsAtHand, PAIR } from './coverages.ts';

const here = roomEach();

const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);
const mixed = (message: MessageObject | undefined) => (message?.data['mix'] as { totalGrams: number } | undefined)?.totalGrams;

const model = modelsAtHand();

describe('an area', () => {
  it('alone is answered with litres for each millimetre', async () => {
    const answer = await last('/area 0,4 m2');
    expect(answer?.title).toBe('0.4 m² to cover');
    // A litre over a square metre is a millimetre.
    expect(answer?.text).toContain('Each 1 mm of thickness takes 400 mL');
    expect(covered(answer)).toMatchObject({ areaSquareMetres: 0.4, layers: [], totalGrams: 0, volumeLitres: null, block: null });
  });

  it('with materials is answered with what each layer takes, each part by itself, and sums that are sums', async () => {
    const answer = await last(`/area area:0.4 m2 ${PAIR}`);
    // 0.4 m² × 3.2 mm × 1.125 g/mL and 10 % waste: 1584 g of skin; × 10 mm × 1.0565 g/mL: 4649 g of shell, by hand.
    expect(answer?.title).toMatch(/^0\.4 m² to cover: 158\d g of Brush-on urethane rubber, 46\d\d g of Urethane shell paste$/);
    const { layers, totalGrams, totalMixedGrams } = covered(answer);
    expect(layers.map(({ title, thicknessMillimetres }) => [title, thicknessMillimetres])).toEqual([
      ['Skin', 3.2],
      ['Shell', 10],
    ]);
    const sum = (values: number[]) => values.reduce((total, value) => total + value, 0);
    for (const layer of layers) expect(sum(layer.parts.map(({ grams }) => grams))).toBe(layer.mixedGrams);
    expect(sum(layers.map(({ mixedGrams }) => mixedGrams))).toBe(totalMixedGrams);
    expect(layers[0]?.grams).toBeCloseTo(0.4 * 3.2 * 1.125 * 1100, 6);
    expect(sum(layers.map(({ grams }) => grams))).toBeCloseTo(totalGrams, 5);
    expect(labels(answer)).toEqual(['Start job', 'Mix first coat']);
  });

  it('leads on to the first coat, and to the job', async () => {
    const mix = await last(`/area area:0.4 m2 ${PAIR}`, '[Mix first coat]');
    // The first of the recipe's four coats is 0.7 × 0.8 mm: 0.4 × 0.56 × 1.125 × 1.1 is 277 g.
    expect(mixed(mix)).toBe(277);
    const asked = await last('[Start job]');
    const line = /(\/job start .*)$/m.exec(asked?.text ?? '')?.[1];
    expect(line).toContain('area:0.4 m2');
    expect((await last(line ?? ''))?.title).toBe('Lion head has started');
  });

  it('means the same in the units of either system', async () => {
    const grams = async (line: string) => covered(await last(line)).layers.map((layer) => layer.grams);
    // A square foot is 0.09290304 m², an inch 25.4 mm: exact by the agreement of 1959.
    const metric = await grams(`/area area:0.37161216 m2 thickness:3.175 mm backing:9.525 mm ${PAIR}`);
    expect(await grams(`/area area:4 sq ft thickness:1/8 in backing:3/8" ${PAIR}`)).toEqual(metric);
    const [, answer] = await here.type('/studio set units:customary', `/area area:4 sq ft ${PAIR}`);
    expect(answer?.title).toMatch(/^4 sq ft \(0\.372 m²\) to cover: 14\d\d g \(3 lb/);
  });

  it('is mixed for as one coat', async () => {
    const answer = await last('/mix material:brush-urethane area:0,4 m2');
    // 0.4 m² × 0.8 mm × 1.125 g/mL and 10 % waste, by hand.
    expect(mixed(answer)).toBe(396);
    expect(answer?.text).toContain('One coat of 0.8 mm over 0.4 m²: 396 g with 10 % waste.');
    expect(mixed(await last('/mix material:brush-urethane area:0,4 m2 thickness:1 mm'))).toBe(495);
    expect((await last('/mix material:shell-paste area:0.4 m2'))?.text).toContain('in 8 cups like this one');
  });

  it('says when the mould is too heavy for one', async () => {
    const heavy = await last('/area area:1 m2 skin:brush-urethane shell:casting-plaster');
    expect(heavy?.text).toContain('two people or a hoist');
    expect((await last(`/area area:0.4 m2 ${PAIR}`))?.text).not.toContain('two people');
  });
});

describe('a shape', () => {
  it('is covered, with more for its edges where they are asked for, and shown against a solid block', async () => {
    const answer = await last(`/area shape:box 30 x 20 x 10 cm ${PAIR}`);
    expect(covered(answer)).toMatchObject({ bareAreaSquareMetres: 0.16, areaSquareMetres: 0.16, volumeLitres: 6 });
    expect(answer?.text).toContain('Edges and undercuts run thin: edges:15 % adds for them.');
    // 324 × 224 × 112 mm less 6 L.
    expect(covered(answer).block?.volumeLitres).toBeCloseTo(2.128512, 6);
    const more = await last('/area shape:box 30 x 20 x 10 cm skin:brush-urethane shell:shell-paste edges:10 %');
    expect(more?.text).toContain('0.176 m² = 0.16 m² (box');
    await last('/area shape:box 30 x 20 x 10 cm skin:brush-urethane shell:shell-paste');
    const flanged = await last('[Add 40 mm flange]');
    // The outline is 1 m: 1000 × 40 mm and a circle of 40 mm at the corners.
    expect(covered(flanged).areaSquareMetres).toBeCloseTo(0.16 + 0.04 + Math.PI * 0.0016, 6);
    expect(labels(flanged)).toEqual(['Start job', 'Mix first coat']);
  });

  it('starts a job with its area to cover', async () => {
    const answer = await last(
      '/job start name:Box skin:brush-urethane shell:shell-paste shape:box 30 x 20 x 10 cm relief:folds edges:0%',
    );
    expect(answer?.text).toContain('To cover: 0.208 m² = 0.16 m² (box');
    const job = (await (await here.session.desk()).bench.state()).jobs.get('box');
    expect([job?.areaSquareMetres, job?.volumeLitres]).toEqual([expect.closeTo(0.208, 9), expect.closeTo(6, 9)]);
    const mix = await last('[Step done]', '+20m', '[Mix next coat]');
    // 0.208 m² × 0.56 mm × 1.125 g/mL and 10 % waste: 144 g.
    expect(mixed(mix)).toBe(144);
  });
});

describe('a model', () => {
  it('is measured', async () => {
    const answer = await last(`/area model:${model('box.stl')} ${PAIR}`);
    expect(covered(answer)).toMatchObject({ triangles: 12, watertight: true, warnings: [], volumeLitres: 6 });
    expect(covered(answer).bareAreaSquareMetres).toBeCloseTo(0.16, 6);
    expect(answer?.text).toContain('box.stl, in millimetres');
  });

  it('stands as its file has it, with y up where that is told', async () => {
    // The box lies on its 300 × 100 mm side: 0.22 m² in all, less that.
    const answer = await last(`/area model:${model('box.stl')} up:y ${PAIR}`);
    expect(covered(answer).boxMillimetres).toEqual([300, 100, 200]);
    expect(covered(answer).bareAreaSquareMetres).toBeCloseTo(0.19, 6);
    expect((await last('[Add 40 mm flange]'))?.text).toContain('0.19 m²');
  });

  it('with triangles that have no area says so to scripts only: it is harmless', async () => {
    const answer = await last(`/area model:${model('flat.stl')} skin:brush-urethane`);
    expect(covered(answer).warnings).toEqual(['1 triangle has no area: harmless.']);
    expect(answer?.text).not.toContain('harmless');
  });

  it('whose unit is in doubt is asked for, with the sizes that it would have', async () => {
    const asked = await last(`/area model:${model('doubtful.stl')} skin:brush-urethane flange:40 mm`);
    expect(code(asked)).toBe('which-unit');
    expect(labels(asked)).toContain('Inches: 300 mm long');
    const answer = await last('[Inches: 300 mm long]');
    expect(covered(answer).volumeLitres).toBeCloseTo(6, 4);
    expect(covered(answer).areaSquareMetres).toBeCloseTo(0.16 + 0.04 + Math.PI * 0.0016, 4);
    expect(covered(await last(`/area model:${model('doubtful.stl')} unit:cm`)).volumeLitres).toBeCloseTo(6 / 2.54 ** 3, 4);
  });

  it('that is open says so', async () => {
    const answer = await last(`/area model:${model('open.stl')} skin:brush-urethane`);
    expect(covered(answer).watertight).toBe(false);
    expect(answer?.text).toContain('The surface is open at 4 edges');
    expect(covered(answer).warnings[0]).toContain('open at 4 edges');
  });
});

describe('a laminated shell', () => {
  it('is resin and glass, on both cards', async () => {
    const options = 'skin:brush-urethane shell:laminate-polyester area:0.4 m2 backing:4 mm waste:0 %';
    for (const card of [await last(`/area ${options}`), await last(`/job start name:Owl ${options}`)]) {
      const shell = covered(card).layers[1] as unknown as { grams: number; glassGrams: number };
      // 1.6 L; rule of mixtures with 30 % of E-glass (2.56 g/mL) by weight, and 101.5 g of resin in 1/1.1·100 + 1.5/1.15 mL.
      const resin = 101.5 / (100 / 1.1 + 1.5 / 1.15);
      const density = 1 / (0.3 / 2.56 + 0.7 / resin);
      expect(shell.glassGrams).toBeCloseTo(1600 * density * 0.3, 3);
      expect(Math.abs(shell.grams - 1600 * density * 0.7)).toBeLessThan(3);
      expect(card?.text).toMatch(/640 g of glass mat.*\/laminate/);
    }
  });
});

describe('a relief', () => {
  it('is filled by the first coats, and says so', async () => {
    const grams = async (relief: string) =>
      covered(await last(`/area ${PAIR} area:2 m2 relief:${relief}`)).layers.map((layer) => layer.grams);
    const [smooth, deep] = [await grams('smooth'), await grams('deep')];
    // Coats of 0.56, 0.72, 0.88 and 1.04 mm; 60 % more under the first, 30 % under the second, none under the others.
    const skin = (0.56 * 1.6 + 0.72 * 1.3 + 0.88 + 1.04) / 3.2;
    expect((deep[0] ?? 0) / (smooth[0] ?? 0)).toBeCloseTo(skin, 2);
    expect(deep[1]).toBe(smooth[1]);
    expect((await last(`/area ${PAIR} area:2 m2 relief:deep`))?.text).toContain('the second coat counts half of the relief');
  });
});
