import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, roomEach } from '../support/room.ts';

const here = roomEach();

interface Coverage {
  areaSquareMetres: number;
  bareAreaSquareMetres: number;
  volumeLitres: number | null;
  boxMillimetres: number[] | null;
  watertight: boolean | null;
  triangles: number | null;
  warnings: string[];
  layers: { material: string; title: string; thicknessMillimetres: number; grams: number; parts: { grams: number }[] }[];
  totalGrams: number;
  mouldGrams: number;
  block: { volumeLitres: number; grams: number } | null;
}
const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);
const labels = (message: MessageObject | undefined) => message?.buttons.map(({ label }) => label);
const example = (message: MessageObject | undefined) => /^For example: (.*)$/m.exec(message?.text ?? '')?.[1];
const covered = (message: MessageObject | undefined) => message?.data['coverage'] as Coverage;
const mixed = (message: MessageObject | undefined) => (message?.data['mix'] as { totalGrams: number } | undefined)?.totalGrams;

const PAIR = 'skin:brush-urethane shell:shell-paste';
let folder: string;
const model = (name: string) => join(folder, name);

/** The corners of a box's triangles, two to each side, as an ASCII STL file; `open`: without its last side, the foot. */
function box([x, y, z]: readonly [number, number, number], open = false): string {
  const corner = (n: number) => `vertex ${n & 1 ? x : 0} ${n & 2 ? y : 0} ${n & 4 ? z : 0}`;
  const sides = [
    [0, 1, 5, 4],
    [1, 3, 7, 5],
    [3, 2, 6, 7],
    [2, 0, 4, 6],
    [4, 5, 7, 6],
    [0, 2, 3, 1],
  ].slice(0, open ? 5 : 6);
  const facets = sides.flatMap(([a = 0, b = 0, c = 0, d = 0]) => [
    [a, b, c],
    [a, c, d],
  ]);
  const text = facets.map((of) => `facet normal 0 0 0\nouter loop\n${of.map(corner).join('\n')}\nendloop\nendfacet`).join('\n');
  return `solid box\n${text}\nendsolid box\n`;
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'coatbell-area.'));
  writeFileSync(model('box.stl'), box([300, 200, 100]));
  writeFileSync(model('open.stl'), box([300, 200, 100], true));
  const flat = 'facet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex 150 0 0\nvertex 0 0 0\nendloop\nendfacet\n';
  writeFileSync(model('flat.stl'), box([300, 200, 100]).replace('endsolid', `${flat}endsolid`));
  // The same in inches, to the tenth of a micrometre.
  writeFileSync(model('doubtful.stl'), box([300 / 25.4, 200 / 25.4, 100 / 25.4]));
  writeFileSync(model('words.stl'), 'This is no mesh at all.\n');
});
afterAll(() => rmSync(folder, { recursive: true }));

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
    const { layers, totalGrams } = covered(answer);
    expect(layers.map(({ title, thicknessMillimetres }) => [title, thicknessMillimetres])).toEqual([
      ['Skin', 3.2],
      ['Shell', 10],
    ]);
    const sum = (values: number[]) => values.reduce((total, value) => total + value, 0);
    for (const layer of layers) expect(sum(layer.parts.map(({ grams }) => grams))).toBe(layer.grams);
    expect(sum(layers.map(({ grams }) => grams))).toBe(totalGrams);
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
  it('is covered with its edges, and shown against a solid block', async () => {
    const answer = await last(`/area shape:box 30 x 20 x 10 cm ${PAIR}`);
    expect(covered(answer)).toMatchObject({ bareAreaSquareMetres: 0.16, areaSquareMetres: 0.176, volumeLitres: 6 });
    // 324 × 224 × 112 mm less 6 L.
    expect(covered(answer).block?.volumeLitres).toBeCloseTo(2.128512, 6);
    expect(answer?.text).toContain('0.176 m² = 0.16 m² (box');
    const flanged = await last('[Add 40 mm flange]');
    // The outline is 1 m: 1000 × 40 mm and a circle of 40 mm at the corners.
    expect(covered(flanged).areaSquareMetres).toBeCloseTo(0.176 + 0.04 + Math.PI * 0.0016, 6);
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
    expect(covered(answer).areaSquareMetres).toBeCloseTo(0.176 + 0.04 + Math.PI * 0.0016, 4);
    expect(covered(await last(`/area model:${model('doubtful.stl')} unit:cm`)).volumeLitres).toBeCloseTo(6 / 2.54 ** 3, 4);
  });

  it('that is open says so', async () => {
    const answer = await last(`/area model:${model('open.stl')} skin:brush-urethane`);
    expect(covered(answer).watertight).toBe(false);
    expect(answer?.text).toContain('The surface is open at 4 edges');
    expect(covered(answer).warnings[0]).toContain('open at 4 edges');
  });
});

describe('what cannot be meant', () => {
  it.each([
    ['/area', 'size-missing'],
    ['/area area:4', 'unit-missing'],
    ['/area area:banana', 'area-unreadable'],
    ['/area area:0.4 m2 shape:sphere 20 cm', 'one-size'],
    ['/area area:0.4 m2 unit:in', 'unit-alone'],
    ['/area area:0.4 m2 up:y', 'up-alone'],
    ['/area area:0.4 m2 flange:40 mm', 'no-outline'],
    ['/area shape:sphere 20 cm flange:40 mm', 'no-outline'],
    ['/area area:0.4 m2 recipe:skin-paist', 'unknown-recipe'],
    ['/area area:0.4 m2 parting:1 m', 'flange-missing'],
    ['/area area:0.4 m2 flange:4 parting:1 m', 'unit-missing'],
    ['/area area:0.4 m2 relief:9', 'relief-out-of-range'],
    ['/area area:0.4 m2 edges:300 %', 'percent-too-large'],
    ['/area area:0.4 m2 waste:lots', 'percent-unreadable'],
    ['/area area:0.4 m2 skin:shell-paste', 'wrong-use'],
    ['/area area:0.4 m2 skin:brush-urethan', 'unknown-material'],
    ['/area area:0.4 m2 skin:brush-urethane thickness:8 cm', 'coat-too-thick'],
    ['/mix material:brush-urethane area:0.4 m2 amount:300 g', 'one-amount'],
    ['/mix material:brush-urethane thickness:1 mm', 'thickness-alone'],
    ['/mix material:brush-urethane area:0.4 m2 thickness:3 mm', 'coat-too-thick'],
    ['/job start name:Owl skin:brush-urethane shell:shell-paste area:0.4 m2 flange:4 cm', 'no-outline'],
  ])('%s is refused, with a line that works', async (typed, refused) => {
    const answer = await last(typed);
    expect(code(answer)).toBe(refused);
    const again = await last(example(answer) ?? '');
    expect(again?.kind, again?.text).toBe('reply');
  });

  it('a skin thicker than the recipe brushes gets further coats, and both cards say so', async () => {
    const why = 'Skin in 6 coats, not the recipe’s 4: 1.5 mm is the most in one.';
    expect((await last(`/area ${PAIR} area:0.4 m2 thickness:7 mm`))?.text).toContain(why);
    const answer = await last(`/job start name:Owl ${PAIR} area:0.4 m2 thickness:7 mm`);
    expect(answer?.text).toContain(why);
    expect((await last('/job show'))?.text).toContain('· Sixth coat');
  });

  it('a material that the recipe has no use for is said to be left out', async () => {
    const answer = await last('/area recipe:skin-paste detail:detail-urethane skin:brush-urethane area:0.1 m2');
    expect(answer?.text).toContain('has no step with a detail material: “detail-urethane” is left out');
  });

  it.each([['words.stl'], ['nowhere.stl']])('%s is no model', async (name) => {
    expect((await last(`/area model:${model(name)}`))?.kind).toBe('refusal');
  });

  it('one of two sizes is taken by a button', async () => {
    await here.type('/area area:0.4 m2 shape:sphere 20 cm skin:brush-urethane');
    expect(covered(await last('[Take the area]')).areaSquareMetres).toBe(0.4);
  });
});
