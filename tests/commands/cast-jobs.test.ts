import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { boxStl } from '../support/models.ts';
import { loadMaterials } from '../support/own-materials.ts';
import { code, example, labels, roomEach, START } from '../support/room.ts';
import { castOf, FAST } from './casts.ts';

const here = roomEach();
const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);

describe('a job', () => {
  it('lends its materials, and its mould’s skin', async () => {
    const shown = await last(START, '/cast job:lion-head volume:2 L');
    expect(castOf(shown).material).toBe('casting-plaster');
    expect(shown?.text).toContain('mould of Brush-on urethane rubber 0.1 %');
  });

  it('that was started without a volume has to be filled with water', async () => {
    const shown = await last(START, '/cast');
    expect(code(shown)).toBe('volume-missing');
    expect((await last(example(shown) ?? ''))?.kind).toBe('reply');
  });
});

describe('a job of which the size is known', () => {
  const OWL = '/job start name:Owl skin:brush-urethane shell:shell-paste casting:cast-resin-slow shape:half sphere 20 cm';
  const FOX = '/job start name:Fox skin:brush-urethane shell:shell-paste casting:cast-resin-slow shape:half sphere 10 cm';

  it('needs no other word, and lends its step to the cup', async () => {
    // ⅔π · 50³ mm³ = 261.8 mL; mixed density (90 + 100) / (90/1.08 + 100/1.02) = 1.0476 g/mL.
    const cast = castOf(await last(FOX, '/cast'));
    expect(cast.cavityMillilitres).toBeCloseTo(261.8, 1);
    expect(cast.gramsEach).toBeCloseTo(261.8 * 1.0476 * 1.05, 0);
  });

  it('is asked for where there are two, and each button carries on what was said', async () => {
    const asked = await last(OWL, FOX, '/cast pieces:2');
    expect([code(asked), labels(asked)]).toEqual(['which-job', ['Owl', 'Fox']]);
    expect(castOf(await last('[Fox]')).pieces).toBe(2);
  });
});

describe('a job that is finished', () => {
  const OWL = [
    '/job start name:Owl skin:brush-urethane shell:shell-paste casting:cast-resin-slow shape:half sphere 20 cm',
    ...['/done', '+20m', '/done', '+1h', '/done', '+1h', '/done', '+1h', '/done', '+17h', '/done', '/done', '+10m', '/done'],
    ...['+17h', '/done', '+2h', '/done', '+2h', '/done'],
  ];

  it('has the mould that is cast from, named or not', async () => {
    const bare = await last(...OWL, '/cast');
    expect(castOf(bare)).toMatchObject({
      material: 'cast-resin-slow',
      cavityMillilitres: expect.closeTo((2000 / 3) * Math.PI, 6),
    });
    expect(castOf(await last('/cast job:owl'))).toEqual(castOf(bare));
    // Its mould counts also where somebody weighed the water.
    const weighed = await last('/cast water:412 g');
    expect(castOf(weighed)).toMatchObject({ material: 'cast-resin-slow', cavityMillilitres: expect.closeTo(412.74, 2) });
    expect(weighed?.text).toContain('mould of Brush-on urethane rubber 0.1 %');
    expect((await last('[Cup poured]'))?.data['cup']).toMatchObject({ material: 'cast-resin-slow', job: null });
  });

  it('is asked for where there are several, the last first', async () => {
    const fox = OWL.map((each) => each.replace('name:Owl', 'name:Fox'));
    const asked = await last(...OWL, ...fox, '/cast pieces:2');
    expect([code(asked), labels(asked)]).toEqual(['which-job', ['Fox', 'Owl']]);
    expect(castOf(await last('[Owl]')).pieces).toBe(2);
    // Who says how much needs no job.
    expect((await last(`${FAST} volume:60 mL`))?.kind).toBe('reply');
  });

  it('does not count beside one that is open', async () => {
    await here.type(...OWL, START.replace('Lion head', 'Fox'));
    expect(code(await last('/cast'))).toBe('volume-missing');
    expect((await last('/cast'))?.text).toContain('Fox was started without a volume');
    expect(castOf(await last('/cast job:owl')).material).toBe('cast-resin-slow');
  });
});

describe('an area beside', () => {
  it('a shape is that of the wall, with all its texture', async () => {
    const shown = await last(`${FAST} shape:half sphere 20 cm wall:3 mm area:0.09 m2`);
    // 0.09 m² × 3 mm, where the bare half sphere, 2π r², would take 188.5 mL.
    expect(castOf(shown).castMillilitres).toBeCloseTo(270, 6);
    expect(castOf(shown).cavityMillilitres).toBeCloseTo((2000 / 3) * Math.PI, 3);
    expect(shown?.text).toContain('half sphere, 20 cm across, 0.09 m², wall 3 mm');
  });

  it('a shape wants to know the wall', async () => {
    const refused = await last(`${FAST} shape:half sphere 20 cm area:0.09 m2`);
    expect(code(refused)).toBe('wall-missing');
    expect(castOf(await last(example(refused) ?? '')).castMillilitres).toBeCloseTo(270, 6);
  });
});

describe('a model', () => {
  const folder = mkdtempSync(join(tmpdir(), 'coatbell-cast.'));
  afterAll(() => rmSync(folder, { recursive: true }));

  it('says how much the mould of it holds', async () => {
    const path = join(folder, 'block.stl');
    writeFileSync(path, boxStl([60, 40, 20]));
    const cast = castOf(await last(`${FAST} model:${path} unit:mm`));
    expect(cast.cavityMillilitres).toBeCloseTo(48, 3);
    expect(cast.castingBoxMillimetres).toEqual([expect.closeTo(59.7), expect.closeTo(39.8), expect.closeTo(19.9)]);
    const hollow = castOf(await last(`${FAST} model:${path} unit:mm wall:2 mm`));
    // A block by its measures: 60 · 40 · 20 mm³ less the 56 · 36 · 18 mm³ inside, open at its foot.
    expect(hollow.castMillilitres).toBeCloseTo(11.712, 3);
    // It has its own area: of two somebody must say which counts, the model first.
    const refused = await last(`${FAST} model:${path} unit:mm wall:2 mm area:0.01 m2`);
    expect([code(refused), labels(refused)?.[0]]).toEqual(['one-size', expect.stringMatching(/model/)]);
    expect(castOf(await last(example(refused) ?? '')).castMillilitres).toBeCloseTo(11.712, 3);
    expect(
      castOf(await last(`${FAST} model:${path} unit:mm wall:2 mm area:0.01 m2`, '[Take the area]')).castMillilitres,
    ).toBeCloseTo(20, 6);
  });
});

describe('a model with a hole', () => {
  const folder = mkdtempSync(join(tmpdir(), 'coatbell-cast.'));
  afterAll(() => rmSync(folder, { recursive: true }));

  it('is cast with a word of doubt', async () => {
    const [whole, holed] = [join(folder, 'whole.stl'), join(folder, 'holed.stl')];
    writeFileSync(whole, boxStl([60, 40, 20]));
    // Without one triangle of its top.
    writeFileSync(holed, boxStl([60, 40, 20]).replace(/facet normal(?:(?!endfacet)[\s\S])*?0 0 20[\s\S]*?endfacet\n/, ''));
    const doubts = async (path: string) => {
      const shown = await last(`${FAST} model:${path} unit:mm wall:2 mm`);
      expect(shown?.kind, shown?.text).toBe('reply');
      return shown?.text.split('\n').filter((each) => /^⚠ /.test(each) && /hole|open/i.test(each));
    };
    expect(await doubts(whole)).toEqual([]);
    expect(await doubts(holed)).toHaveLength(1);
  });
});

it('in a studio that has nothing to cast says how to add it', async () => {
  const list = `materials:
  - id: ledge-skin
    name: A skin of our own
    family: urethane
    use: [skin]
    parts: [{ part: A, density: 1.0 }, { part: B, density: 1.0 }]
    ratio: { weight: { A: 1, B: 1 } }
    tolerance: 5 %
    reference: { temperature: 23 C }
    potLife: 10 min
    hazards: [isocyanate]
    source: an invented example
`;
  await loadMaterials(here.type, list);
  for (const typed of ['/cast material:ledge-skin water:1 g', '/cast water:1 g', '/cast material:m1 water:1 g']) {
    const refused = await last(typed);
    expect([code(refused), refused?.text]).toEqual(['no-casting', expect.stringContaining('/material load')]);
    expect((await last(example(refused) ?? ''))?.kind).toBe('reply');
  }
});

describe('what cannot be cast', () => {
  it.each([
    [`${FAST}`, 'volume-missing'],
    ['/cast', 'casting-missing'],
    ['/cast volume:350 mL', 'casting-missing'],
    ['/cast material:cast-resn-fast volume:350 mL', 'unknown-material'],
    ['/cast material:brush-urethane water:1 lb', 'wrong-use'],
    [`${FAST} volume:350`, 'unit-missing'],
    [`${FAST} volume:412 g`, 'wrong-unit'],
    [`${FAST} volume:12 oz`, 'wrong-unit'],
    [`${FAST} water:lots`, 'amount-unreadable'],
    [`${FAST} volume:350 mL water:412 g`, 'two-sizes'],
    [`${FAST} volume:350 mL shape:ball 10 cm`, 'two-sizes'],
    [`${FAST} volume:350 mL overpour:200 %`, 'share-out-of-range'],
    [`${FAST} volume:350 mL overpour:30 spoons`, 'unit-unknown'],
    [`${FAST} volume:350 mL waste:300 %`, 'share-out-of-range'],
    [`${FAST} volume:350 mL want:100`, 'unit-missing'],
    [`${FAST} volume:350 mL want:100 mm size:100 mm`, 'one-length'],
    [`${FAST} volume:350 mL mould:cast-epoxy`, 'wrong-use'],
    [`${FAST} volume:350 mL mould:brush-silicon`, 'unknown-material'],
    [`${FAST} volume:350 mL scale:5 mL`, 'bad-scale'],
    ['/cast material:casting-plaster volume:350 mL by:volume', 'powder-by-volume'],
    [`${FAST} shape:half sphere 20 cm wall:60 mm`, 'wall-too-thick'],
    [`${FAST} volume:350 mL wall:60 mm`, 'wall-too-thick'],
  ])('%s is refused as %s, with a line that works', async (typed, expected) => {
    const refused = await last(typed);
    expect(code(refused)).toBe(expected);
    const shown = example(refused) ?? '';
    expect(shown).toMatch(/^\/cast /);
    expect((await last(shown))?.kind, shown).toBe('reply');
  });
});

it.each([
  [`${FAST} volume:400`, `${FAST} volume:400 mL`],
  [`${FAST} water:380`, `${FAST} water:380 g`],
  [`${FAST} volume:350 mL want:120`, `${FAST} water:412 g want:120 mm`],
])('%s keeps its number in the example', async (typed, shown) => {
  expect(example(await last(typed))).toBe(shown);
});
