/**
 * Pictures as they were looked at and found good: `golden/*.png`. What a machine rounds differently passes; a bar that is elsewhere,
 * or another word, does not. Where a picture differs, the new one is written to the folder that the failure names: look at it, and
 * where it is meant so, copy it over the one in `golden/`.
 */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pixelmatch from 'pixelmatch';
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { pngPainter } from '../../src/adapters/png/painter.ts';
import { laidBoard } from '../../src/picture/board.ts';
import { laidCure } from '../../src/picture/cure.ts';
import type { BoardPicture, PictureRow } from '../../src/picture/models.ts';
import type { Scene } from '../../src/picture/scene.ts';
import { svgOf } from '../../src/picture/svg.ts';
import { laidTemperature } from '../../src/picture/temperature.ts';
import { boards, cure, temperature } from './models.ts';

const painter = pngPainter();
const painted = (scene: Scene) => painter.png(svgOf(scene, painter.measure));
const board = (picture: BoardPicture) => painted(laidBoard(picture, painter.measure));

/** So many pixels may differ clearly, edges of letters and lines left aside. */
const MOST_PIXELS = 30;

/** How many pixels differ; all of them where the sizes do. */
function difference(one: Uint8Array, other: Uint8Array): number {
  const [a, b] = [PNG.sync.read(Buffer.from(one)), PNG.sync.read(Buffer.from(other))];
  if (a.width !== b.width || a.height !== b.height) return a.width * a.height;
  return pixelmatch(a.data, b.data, undefined, a.width, a.height, { threshold: 0.15 });
}

const GOLDEN: readonly (readonly [string, () => Promise<Uint8Array>])[] = [
  ['empty', () => board(boards.empty)],
  ['one', () => board(boards.one)],
  ['ten', () => board(boards.ten)],
  ['weeks', () => board(boards.weeks)],
  ['plan', () => board(boards.plan)],
  ['trouble', () => board(boards.trouble)],
  ['promised', () => board(boards.promised)],
  ['temperature', () => painted(laidTemperature(temperature, painter.measure))],
  ['cure', () => painted(laidCure(cure, painter.measure))],
];

describe('a picture', () => {
  it.each(GOLDEN)('looks as it did: %s', async (name, paint) => {
    const now = await paint();
    const differs = difference(now, readFileSync(new URL(`golden/${name}.png`, import.meta.url)));
    if (differs <= MOST_PIXELS) return;
    const fresh = join(mkdtempSync(join(tmpdir(), 'coatbell-picture-')), `${name}.png`);
    writeFileSync(fresh, now);
    expect.fail(`${differs} pixels differ: see ${fresh}`);
  });
});

/** The picture of one job, with something of it otherwise. */
const otherwise = (change: (row: PictureRow) => Partial<PictureRow>, more: Partial<BoardPicture> = {}): BoardPicture => {
  const row = boards.one.rows[0] as PictureRow;
  return { ...boards.one, rows: [{ ...row, ...change(row) }], ...more };
};

describe('a real change', () => {
  const changes: readonly (readonly [string, BoardPicture])[] = [
    ['a digit of a time', otherwise(() => ({ due: 'Coat 3 at 10:45 (in 35 min), by 13:05' }))],
    ['a letter of a name', otherwise(() => ({ name: 'Lion heat' }))],
    [
      'a coat five minutes later',
      otherwise(({ bars }) => ({
        bars: bars.map((bar) =>
          bar.title === 'Coat 4' ? { ...bar, from: bar.from + 300_000, until: bar.until + 300_000 } : bar,
        ),
      })),
    ],
    [
      'a coat that is on hold',
      otherwise(({ bars }) => ({ bars: bars.map((bar) => (bar.title === 'Coat 4' ? { ...bar, what: 'held' } : bar)) })),
    ],
    ['five minutes', otherwise(() => ({}), { now: boards.one.now + 300_000 })],
    ['a night', otherwise(() => ({}), { nights: boards.one.nights.slice(2) })],
    ['a shift', otherwise(() => ({}), { staffed: null })],
    ['what does not fit', otherwise(() => ({ trouble: 'Coat 4 does not fit' }))],
    ['a promise', otherwise(() => ({}), { marks: [{ at: boards.one.now + 7_200_000, word: 'promised' }] })],
  ];
  it.each(changes)('is seen: %s', async (_, changed) => {
    expect(difference(await board(boards.one), await board(changed))).toBeGreaterThan(MOST_PIXELS);
  });

  it('is none where a machine rounds otherwise', async () => {
    const png = PNG.sync.read(Buffer.from(await board(boards.one)));
    for (const [index, value] of png.data.entries()) if (index % 4 !== 3) png.data[index] = Math.max(0, value - (index % 7));
    expect(difference(await board(boards.one), PNG.sync.write(png))).toBeLessThanOrEqual(MOST_PIXELS);
  });

  it('is none, painted twice', async () => {
    expect(difference(await board(boards.ten), await board(boards.ten))).toBe(0);
  });
});
