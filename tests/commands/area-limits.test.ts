import { writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, example, roomEach } from '../support/room.ts';
import { covered, modelsAtHand, PAIR } from './coverages.ts';

const here = roomEach();

const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);

const model = modelsAtHand();

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

describe('a size that nobody means', () => {
  const FLAT = `solid flat\n${'facet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex 1 1 1\nvertex 2 2 2\nendloop\nendfacet\n'.repeat(4)}endsolid flat\n`;

  it.each([
    ['/area area:0.000003 cm2', 'area-too-small'],
    ['/area shape:plate 0.1 x 0.1 mm', 'area-too-small'],
    ['/area area:2000 m2', 'area-absurd'],
    ['/area shape:half sphere 40 m', 'area-absurd'],
    [`/mix material:brush-urethane area:1e-9 m2`, 'area-unreadable'],
    ['/mix material:brush-urethane area:0.000003 cm2', 'area-too-small'],
    [`/job start name:Owl ${PAIR} area:0.4 m2 relief:constructor`, 'relief-unreadable'],
    [`/job start name:Owl ${PAIR} area:0.4 m2 relief:__proto__`, 'relief-unreadable'],
    ['/area shape:half torus ring 30 cm tube 5 cm flange:20 cm', 'flange-too-wide'],
  ])('%s is refused as %s, with a line that works, and nothing is stored', async (typed, expected) => {
    const refused = await last(typed);
    expect(code(refused)).toBe(expected);
    expect((await last('/job list'))?.title).toContain('No open job');
    if (expected !== 'area-unreadable') expect((await last(example(refused) ?? ''))?.kind).toBe('reply');
  });

  it('a model without a surface is refused', async () => {
    writeFileSync(model('flat.stl'), FLAT);
    expect(code(await last(`/area model:${model('flat.stl')}`))).toBe('mesh-empty');
  });

  it('is asked about first of all where it may yet be right, and estimates have three digits', async () => {
    const large = await last(`/area ${PAIR} shape:half sphere 9,1 m`);
    expect(large?.text.split('\n')[0]).toBe('9.1 m across? Check the unit.');
    expect(large?.text).toContain('in more than 100 cups');
    // Of each number the digits that are not only there for its size.
    const digits = (large?.text.match(/\d[\d.]*/g) ?? []).map((number) => number.replace('.', '').replace(/^0+|0+$/g, '').length);
    expect(Math.max(...digits)).toBeLessThanOrEqual(4);
    expect((await last('/area area:150 m2'))?.text).toContain('150 m² to cover? Check the unit.');
    expect((await last(`/job start name:Dome ${PAIR} shape:half sphere 9,1 m`))?.text).toContain('9.1 m across? Check the unit.');
  });
});
