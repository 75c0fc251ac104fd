import { describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, example, offered, roomEach } from '../support/room.ts';

const here = roomEach();

const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);
interface Data {
  layers: { gramsPerSquareMetre: number; count: number; thicknessMillimetres: number; matSquareMetres: number }[];
  areaSquareMetres: number;
  fibreGrams: number;
  matSquareMetres: number;
  matGrams: number;
  resinGrams: number;
  parts: { part: string; grams: number; scaleReading: number }[];
  batches: number;
  thicknessMillimetres: number;
  laminateGrams: number;
  fibreWeightFraction: number;
}
const data = (message: MessageObject | undefined) => message?.data['laminate'] as Data;

const MATS = '/laminate mats:2 x 450 g/m2, 1 x 300 g/m2 area:1,2 m2 material:laminate-epoxy';

describe('three layers on 1.2 m²', () => {
  it('take resin in equal cups, each weighed out in pour order', async () => {
    const card = await last(MATS);
    expect(card?.title).toBe('3 layers on 1.2 m²: 3692 g of Epoxy laminating resin, 3 mm thick');
    // 1.2 m² × 1200 g/m² = 1440 g of glass, × 7/3 = 3360 g of resin, and 10 %: 3696 g, in cups of at most 1 kg; by hand.
    expect(data(card)).toMatchObject({ batches: 4, resinGrams: 3692 });
    expect(data(card).fibreGrams).toBeCloseTo(1440, 6);
    expect(data(card).laminateGrams).toBeCloseTo(4800, 6);
    expect(data(card).parts).toMatchObject([
      { part: 'resin', grams: 710, scaleReading: 710 },
      { part: 'hardener', grams: 213, scaleReading: 923 },
    ]);
    expect(card?.text).toContain('4 cups of 923 g, one after the other');
  });

  it('say how much mat to cut, off-cuts included, and how thick each is', async () => {
    const card = await last(MATS);
    expect(card?.text).toContain('Cut 2 × 450 g/m²: 2.64 m² off the roll, 1190 g; 1.1 mm each.');
    expect(data(card).matSquareMetres).toBeCloseTo(3.96, 9);
    expect(data(card).matGrams).toBeCloseTo(1584, 6);
    expect(data(await last(`${MATS} offcut:25%`)).matSquareMetres).toBeCloseTo(4.5, 9);
  });

  it('start their clock by a press, for one cup', async () => {
    expect((await last(MATS, '[Cup poured]'))?.data['cup']).toMatchObject({ material: 'laminate-epoxy', grams: 923 });
  });

  it('take less resin with a larger share of fibre, and other waste', async () => {
    const card = await last(`${MATS} fraction:0,5 waste:0`);
    expect(data(card).resinGrams).toBeCloseTo(1440, -1);
    expect(data(card).fibreWeightFraction).toBeCloseTo(0.5, 9);
  });
});

describe('ounces', () => {
  it('of who knows what are offered as mat and as cloth', async () => {
    const refused = await last('/laminate mats:2 x 1.5 oz area:12 sq ft material:laminate-polyester fraction:30 %');
    expect(code(refused)).toBe('ounces-unclear');
    expect(refused?.buttons.map(({ label }) => label)).toEqual(['Mat, oz per sq ft', 'Cloth, oz per sq yd']);
    const [mat] = data(await last('[Mat, oz per sq ft]')).layers;
    expect(mat?.gramsPerSquareMetre).toBeCloseTo(457.728, 3);
    expect(data(await last(example(refused) ?? '')).layers[0]).toEqual(mat);
    const cloth = await last('/laminate mats:2 x 6 oz area:12 sq ft material:laminate-epoxy', '[Cloth, oz per sq yd]');
    expect(data(cloth).layers[0]?.gramsPerSquareMetre).toBeCloseTo(203.43, 2);
  });

  it('are read as the studio that buys in them does', async () => {
    const card = await last(
      '/studio set units:customary',
      '/laminate mats:2 x 1.5 oz mat, 1 x 6 oz cloth area:12 sq ft material:laminate-epoxy',
    );
    expect(card?.title).toMatch(/^3 layers on 12 sq ft \(1\.11 m²\): 2925 g \(6 lb 7\.2 oz\)/);
    expect(card?.text).toContain('Cut 2 × 1.5 oz/sq ft (458 g/m²)');
    expect(card?.text).toContain('Cut 1 × 6 oz/sq yd (203 g/m²)');
  });
});

describe('a polyester', () => {
  it('has its peroxide in the ratio of the sheet, within its limits, and full cautions first', async () => {
    const card = await last('/laminate mats:2 x 450 area:1 m2 material:laminate-polyester');
    const [resin, catalyst] = data(card).parts;
    expect((100 * (catalyst?.grams ?? 0)) / (resin?.grams ?? 1)).toBeCloseTo(1.5, 1);
    expect(card?.text).toContain('catalyst: 1 to 2 % may be used');
    expect(card?.text).toContain('goggles on before the bottle is opened');
  });

  it('that would grow too thick at once is laid in goes', async () => {
    const card = await last('/laminate mats:6 x 450 area:20x30cm material:laminate-polyester');
    expect(card?.text).toContain('Lay it in 2 goes: at most 4 mm at once');
  });

  it('of which less is needed than can be weighed says so', async () => {
    const card = await last('/laminate mats:450 area:20 x 10 mm material:laminate-polyester');
    expect(card?.title).toMatch(/^1 layer on 2 cm²/);
    expect(card?.text).toContain('0.2 g are needed; less than this cannot be weighed true.');
  });
});

describe('what is typed with gloves on', () => {
  it.each([
    ['/laminate mats:2 x 450 g/m2 area:1 m2', 'material-missing'],
    ['/laminate mats:2 x 1.5 area:1 m2 material:laminate-epoxy', 'unit-missing'],
    ['/laminate mats:thick area:1 m2 material:laminate-epoxy', 'mats-unreadable'],
    ['/laminate mats:2 450 g/m2 area:1 m2 material:laminate-epoxy', 'areal-weight-out-of-range'],
    ['/laminate mats:99 x 450 area:1 m2 material:laminate-epoxy', 'layers-out-of-range'],
    ['/laminate mats:-2 x 450 area:1 m2 material:laminate-epoxy', 'number-negative'],
    ['/laminate mats:2 twice area:1 m2 material:laminate-epoxy', 'unit-missing'],
    ['/laminate mats:2x450 area:1,2 material:laminate-epoxy', 'unit-missing'],
    ['/laminate mats:2x450 area:1 m2 material:laminat-epoxy', 'unknown-material'],
    ['/laminate mats:2x450 area:1 m2 material:xyz', 'unknown-material'],
    ['/laminate mats:2x450 area:1 m2 material:brush-urethane', 'not-a-laminate'],
    ['/laminate mats:2x450 area:1 m2 material:casting-plaster', 'not-a-laminate'],
    ['/laminate mats:2x450 area:1 m2 material:laminate-epoxy fraction:90 %', 'fraction-out-of-range'],
    ['/laminate mats:2x450 area:1 m2 material:laminate-epoxy fraction:half', 'percent-unreadable'],
    ['/laminate mats:2x450 area:1 m2 material:laminate-epoxy offcut:300 %', 'share-out-of-range'],
  ])('%s is refused as %s, with a line that works', async (typed, expected) => {
    const answer = await offered(here.type, typed, expected);
    expect(data(answer).layers.length).toBeGreaterThan(0);
  });

  it('asks for the resin with a button for each', async () => {
    const refused = await last('/laminate mats:2 x 450 g/m2 area:1 m2 fibre:carbon');
    expect(refused?.buttons.map(({ label }) => label)).toEqual(['Epoxy laminating resin', 'Polyester laminating resin']);
    expect((await last('[Epoxy laminating resin]'))?.data['laminate']).toMatchObject({
      fibre: 'carbon',
      material: 'laminate-epoxy',
    });
  });
});

describe('chopped-strand mat', () => {
  const BINDER = 'needs styrene to dissolve';
  // Common practice, no source.
  it.each([
    ['2 x 450 g/m2 mat', 'laminate-epoxy', true],
    ['2 x 450 g/m2', 'laminate-epoxy', true],
    ['2 x 450 g/m2 stitched mat', 'laminate-epoxy', false],
    ['2 x 200 g/m2 cloth', 'laminate-epoxy', false],
    ['2 x 450 g/m2 mat', 'laminate-polyester', false],
  ])('%s with %s is warned of its binder: %s', async (mats, material, warned) => {
    const card = await last(`/laminate mats:${mats} area:1.2 m2 material:${material}`);
    expect(card?.title).toContain('2 layers');
    expect(card?.text.includes(BINDER)).toBe(warned);
  });
  it('is wetted out by no paste', async () => {
    const refused = await last('/laminate mats:2 x 450 g/m2 area:1.2 m2 material:shell-epoxy');
    expect(code(refused)).toBe('not-a-laminate');
    expect(refused?.text).toContain('too thick to wet out');
    expect(code(await last(example(refused) ?? ''))).toBeUndefined();
  });
});
