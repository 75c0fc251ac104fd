import { describe, expect, it, test } from 'vitest';
import { SET_GRAMS_PER_MILLILITRE, WATER_TAKEN_UP } from '../../src/trade/gypsum/chemistry.ts';
import { type PowderAndWater, setPiece, slurryMillilitres } from '../../src/trade/gypsum/plaster.ts';
import { parseWater } from '../../src/trade/gypsum/water.ts';
import { room } from '../support/room.ts';
import { part } from '../trade/example.ts';

const within = (got: number, expected: number, relative: number) =>
  expect(Math.abs(got / expected - 1), `${got} against ${expected}`).toBeLessThan(relative);

const gypsum = (powder: number, water: number): PowderAndWater => ({
  powder: part('powder', 100, { gramsPerMillilitre: powder }),
  water: part('water', 60, { gramsPerMillilitre: water }),
});

describe('setting', () => {
  // Arithmetic from the standard atomic weights (CIAAW, from memory).
  test('takes up 18.62 g of water per 100 g of hemihydrate', () => {
    within(100 * WATER_TAKEN_UP, 18.62, 1e-3);
    within(setPiece(100, 70).dryGrams, 118.62, 1e-3);
  });

  // NIOSH Pocket Guide to Chemical Hazards prints molar masses of 145.2 (npgd0518) and 172.2 (npgd0308).
  test('takes up what the printed molar masses of both forms say', () => within(WATER_TAKEN_UP, (172.2 - 145.2) / 145.2, 2e-3));

  // NIOSH Pocket Guide, npgd0308: the specific gravity of gypsum.
  test('leaves gypsum of 2.32 g/mL', () => expect(SET_GRAMS_PER_MILLILITRE).toBe(2.32));

  // Phillips' book on dental materials prints a contraction of 7.11 % (from memory); 7.10 % by arithmetic with these densities.
  test('makes less volume out of just as much water as it takes up: −7.10 %', () => {
    const before = slurryMillilitres(1, WATER_TAKEN_UP, gypsum(2.75, 0.997)) ?? 0;
    const after = (1 + WATER_TAKEN_UP) / SET_GRAMS_PER_MILLILITRE;
    within((after / before - 1) * 100, -7.1, 3e-3);
  });
});

// Arithmetic from the above: 1 kg of powder of 2.63 g/mL, at 0.6 of water.
test('1 kg at 0.6: 0.980 L of slurry, 1.186 kg dry, 0.414 kg evaporates', () => {
  within(slurryMillilitres(1000, 600, gypsum(2.63, 1)) ?? 0, 980, 1e-3);
  const piece = setPiece(1000, 600);
  within(piece.dryGrams, 1186, 1e-3);
  within(piece.evaporatesGrams, 414, 1e-3);
});

// NIOSH Pocket Guide, npgd0518 (read there): a specific gravity of 2.5 for the hemihydrate; textbooks say 2.63 to 2.75, from memory.
test.each(['casting-plaster', 'gypsum-stone'])('the powder of the shipped %s is as dense as hemihydrate', async (id) => {
  const { session, close } = await room();
  const shipped = (await session.desk()).materials.find((each) => each.id === id);
  const density = shipped?.parts.find(({ name }) => name === 'powder')?.gramsPerMillilitre ?? 0;
  expect(density).toBeGreaterThanOrEqual(2.5);
  expect(density).toBeLessThanOrEqual(2.75);
  await close();
});

// Table 8.2 of pocketdentistry.com/8-gypsum-materials: water to powder of dental plaster, stone and die stone, g per 100 g.
describe('the printed ratios of dental gypsums', () => {
  it.each([
    ['plaster', 40, 50],
    ['stone', 25, 30],
    ['die stone', 19, 24],
  ])('of %s, %d to %d, can all be asked for', (_, from, until) => {
    for (const water of [from, until]) {
      expect(parseWater(`${water}:100`)).toBe(water);
      expect(parseWater(String(water / 100))).toBe(water);
    }
  });

  it('hold the shipped stone', async () => {
    const { session, close } = await room();
    const stone = (await session.desk()).materials.find(({ id }) => id === 'gypsum-stone');
    const share = (name: string) => stone?.parts.find((one) => one.name === name)?.weightShare ?? 0;
    const water = (100 * share('water')) / share('powder');
    expect(water).toBeGreaterThanOrEqual(25);
    expect(water).toBeLessThanOrEqual(30);
    await close();
  });
});

// NSEAD's notes on plaster, and CLEAPSS PS072: it reaches 60 °C, and skin may be damaged from 45 °C.
test('the card says how hot it gets, and what that does', async () => {
  const { type, close } = await room();
  const [first, second] = await type('/plaster amount:0.4 L', '/plaster amount:0.4 L');
  for (const card of [first, second]) expect(card?.text).toMatch(/60 °C .* 45 °C: never round a hand, a limb/);
  await close();
});
