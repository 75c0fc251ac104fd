import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pngPainter } from '../../src/adapters/png/painter.ts';
import { laidBoard } from '../../src/picture/board.ts';
import { laidCure } from '../../src/picture/cure.ts';
import type { BoardPicture, CurePicture, PictureBar, PictureRow } from '../../src/picture/models.ts';
import { GRID, LOOKS, SKY_BLUE, type What } from '../../src/picture/palette.ts';
import type { Box, Scene } from '../../src/picture/scene.ts';
import { laidTemperature } from '../../src/picture/temperature.ts';
import { boards, cure, NOW, temperature } from './models.ts';

const { measure } = pngPainter();
const MINUTE = 60_000;
/** Edges may touch. */
const TOUCH = 0.01;

const meets = (a: Box, b: Box) =>
  a.x < b.x + b.width - TOUCH && b.x < a.x + a.width - TOUCH && a.y < b.y + b.height - TOUCH && b.y < a.y + a.height - TOUCH;
const holds = (outer: Box, inner: Box) =>
  inner.x >= outer.x - TOUCH &&
  inner.y >= outer.y - TOUCH &&
  inner.x + inner.width <= outer.x + outer.width + TOUCH &&
  inner.y + inner.height <= outer.y + outer.height + TOUCH;

/** All that hides something else, or is cut off, or could not be read. */
function faultsOf({ width, height, texts, bars }: Scene): string[] {
  const faults: string[] = [];
  const must = (holdsTrue: boolean, fault: string) => holdsTrue || faults.push(fault);
  const canvas = { x: 0, y: 0, width, height };
  for (const [index, text] of texts.entries()) {
    const quoted = `“${text.text}”`;
    must(Math.abs(text.width - measure(text.text, text.size, text.bold)) < 1e-6, `${quoted} is not as wide as its box`);
    // Shown 400 pixels wide, as on a telephone.
    must((text.size * 400) / width >= 12, `${quoted} is smaller than 12 pixels`);
    must(holds(canvas, text), `${quoted} leaves the picture`);
    for (const other of texts.slice(index + 1)) must(!meets(text, other), `${quoted} over “${other.text}”`);
    if (text.within) must(holds(text.within, text), `${quoted} leaves its bar`);
    else for (const bar of bars) must(!meets(text, bar), `${quoted} over a bar`);
  }
  for (const [index, bar] of bars.entries()) {
    must(holds(canvas, bar), 'a bar leaves the picture');
    for (const other of bars.slice(index + 1)) {
      must(!meets(bar, other), 'a bar over a bar');
      const same = bar.row === other.row && bar.lane === other.lane && bar.from < other.from;
      must(!same || bar.x + bar.width <= other.x + TOUCH, 'bars out of order');
    }
  }
  return faults;
}

const isClear = (scene: Scene) => expect(faultsOf(scene)).toEqual([]);

const words = fc.oneof(
  fc.constantFrom('Lion head', 'The large relief of the town hall’s south portal, second part from the left', 'Heron', ''),
  fc.string({ maxLength: 80, unit: 'grapheme' }),
  fc.string({ maxLength: 200, unit: 'binary' }),
);
const what = fc.constantFrom(...(Object.keys(LOOKS) as What[]));
const minutes = fc.oneof(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 1500 }), fc.integer({ min: 0, max: 30_000 }));

/** Bars one after the other, some with a gap between, from some time before or after now. */
const bars = fc
  .tuple(
    fc.integer({ min: -6000, max: 3000 }),
    fc.array(fc.record({ gap: minutes, length: minutes, what, title: words }), { maxLength: 24 }),
  )
  .map(([start, list]): PictureBar[] => {
    let at = NOW + start * MINUTE;
    return list.map(({ gap, length, ...rest }) => {
      const from = at + (gap % 3 === 0 ? 0 : gap * MINUTE);
      at = from + length * MINUTE;
      return { from, until: at, ...rest };
    });
  });
const window = fc.option(
  fc.record({ from: fc.integer({ min: -3000, max: 3000 }), length: minutes }).map(
    ({ from, length }): PictureBar => ({
      from: NOW + from * MINUTE,
      until: NOW + (from + length) * MINUTE,
      what: 'window',
      title: '',
    }),
  ),
);
const row: fc.Arbitrary<PictureRow> = fc.record({
  name: words,
  who: words,
  due: words,
  state: fc.option(what),
  trouble: words,
  bars,
  window,
});
const board: fc.Arbitrary<BoardPicture> = fc.record({
  now: fc.constant(NOW),
  zone: fc.constantFrom('Europe/Berlin', 'Pacific/Auckland', 'America/St_Johns', 'Etc/UTC'),
  title: words,
  headline: words,
  lines: fc.array(words, { maxLength: 2 }),
  trouble: words,
  marks: fc.array(
    fc.record({
      at: fc.integer({ min: -3000, max: 9000 }).map((each) => NOW + each * MINUTE),
      word: fc.constantFrom('promised', ''),
    }),
    {
      maxLength: 2,
    },
  ),
  rows: fc.array(row, { maxLength: 15 }),
  staffed: fc.option(fc.constant([{ from: NOW - 60 * MINUTE, until: NOW + 400 * MINUTE }])),
  nights: fc.constant([{ from: NOW + 500 * MINUTE, until: NOW + 1100 * MINUTE }]),
  scale: fc.constantFrom('near-first', 'even'),
});

/** The board of one job, with something of it otherwise. */
const oneJob = (more: Partial<PictureRow>): BoardPicture => ({
  ...boards.one,
  rows: [{ ...(boards.one.rows[0] as PictureRow), window: null, ...more }],
});

describe('a board', () => {
  it('shows whatever there is to show without anything over another', () => {
    fc.assert(
      fc.property(board, (picture) => void isClear(laidBoard(picture, measure))),
      { numRuns: 150 },
    );
  });

  it.each(Object.entries(boards))('is clear, too, with what is likely: %s', (_, picture) => isClear(laidBoard(picture, measure)));

  it('says all of its words where there is room for them', () => {
    const said = laidBoard(boards.one, measure).texts.map(({ text }) => text);
    expect(said).toEqual(
      expect.arrayContaining(['Lion head', 'Coat 3 at 10:45 (in 35 min), by 13:00', 'Coat 3', 'now', 'night', 'wait']),
    );
    expect(said.join(' ')).toContain('Lion head: Coat 3 at 10:45');
  });

  it('names of steps that lie close together what comes before what was, and of that the last', () => {
    const bar = (from: number, what: What, title: string): PictureBar => ({
      from: NOW + from * MINUTE,
      until: NOW + (from + 5) * MINUTE,
      what,
      title,
    });
    const said = (list: readonly PictureBar[]) =>
      laidBoard(oneJob({ bars: [...list, bar(2000, 'hands', 'Demould')] }), measure).texts.map(({ text }) => text);
    const was = said([bar(-40, 'done', 'Seal'), bar(-30, 'done', 'First coat')]);
    expect(was).toContain('First coat');
    expect(was).not.toContain('Seal');
    const comes = said([bar(-10, 'done', 'Seal'), bar(10, 'hands', 'First coat'), bar(20, 'hands', 'Second coat')]);
    expect(comes).toContain('First coat');
    expect(comes).not.toContain('Seal');
    expect(comes).not.toContain('Second coat');
  });

  it('says that there are more jobs than it shows', () => {
    const rows = Array.from({ length: 19 }, (_, index) => ({ ...(boards.one.rows[0] as PictureRow), name: `Job ${index + 1}` }));
    const said = laidBoard({ ...boards.one, rows }, measure).texts.map(({ text }) => text.replaceAll('\u00a0', ' '));
    expect(said).toContain('Job 12');
    expect(said).not.toContain('Job 13');
    expect(said.join(' ')).toContain('and 7 more: Job 13, Job 14');
  });

  it('names in its legend just what occurs', () => {
    const legend = (picture: BoardPicture) => laidBoard(picture, measure).texts.map(({ text }) => text);
    const words = [...legend(boards.ten), ...legend(boards.trouble)];
    expect(words).toEqual(expect.arrayContaining(Object.values(LOOKS).map(({ word }) => word)));
    expect(legend(boards.one)).not.toContain('does not fit');
    expect(legend(boards.one)).not.toContain('window missed');
    expect(legend({ ...boards.one, staffed: null })).not.toContain('nobody on shift');
    expect(legend(boards.empty)).not.toContain('wait');
  });
});

describe('a mark on the axis', () => {
  const marked = (hours: number) =>
    laidBoard({ ...boards.plan, marks: [{ at: NOW + hours * 60 * MINUTE, word: 'promised' }] }, measure).texts.map(
      ({ text }) => text,
    );

  it('is drawn past the end, as long as that leaves room for the rest', () => {
    // The plan ends after 44 hours.
    expect(marked(50)).toContain('promised');
    expect(marked(20)).toContain('promised');
    expect(marked(70)).toContain('promised');
    // It lasts 47 hours: 60 % of them are 28.
    expect(marked(76)).not.toContain('promised');
    expect(marked(24 * 14)).not.toContain('promised');
  });
});

describe('the other pictures', () => {
  it('show the temperature record and what it moved', () => {
    const scene = laidTemperature(temperature, measure);
    isClear(scene);
    expect(scene.texts.map(({ text }) => text)).toEqual(
      expect.arrayContaining(['now', 'read', 'expected', 'made for 15 to 32 °C', '30 °C']),
    );
  });

  it('join the stretches of a temperature that follow each other, and no others', () => {
    const stretch = (from: number, until: number, degrees: number) => ({
      from: NOW + from * 60 * MINUTE,
      until: NOW + until * 60 * MINUTE,
      degrees,
      read: true,
    });
    const strokes = (second: number) => {
      const course = [stretch(-6, -4, 18), stretch(second, -1, 21)];
      const { shapes } = laidTemperature({ ...temperature, readings: [], usable: null, moved: [], course }, measure);
      return shapes.flatMap((shape) =>
        shape.as === 'line' && shape.colour === SKY_BLUE ? [shape.points.map(([x]) => Math.round(x))] : [],
      );
    };
    const upright = (points: readonly number[]) => points[0] === points[1];
    expect(strokes(-4).filter(upright)).toHaveLength(1);
    expect(strokes(-3).filter(upright)).toHaveLength(0);
  });

  it('label the degrees beside their lines', () => {
    const { shapes, texts } = laidTemperature(temperature, measure);
    const levels = shapes.flatMap((shape) => {
      const [one, other] = shape.as === 'line' && shape.colour === GRID ? shape.points : [];
      return one && other && one[1] === other[1] ? [one[1]] : [];
    });
    const labels = texts.filter(({ text }) => /^-?\d+( °C)?$/.test(text));
    expect(labels.map(({ y, height }) => y + height / 2)).toEqual(levels);
  });

  it('show any temperature record', () => {
    const degrees = fc.double({ min: -20, max: 60, noNaN: true });
    const at = fc.integer({ min: -4000, max: 4000 }).map((each) => NOW + each * MINUTE);
    fc.assert(
      fc.property(
        fc.array(fc.record({ at, degrees }), { maxLength: 12 }),
        fc.array(fc.record({ words, was: fc.option(at), is: fc.option(at) }), { maxLength: 10 }),
        fc.option(fc.record({ from: fc.constant(5), until: degrees.map(Math.abs), words })),
        (list, moved, usable) => {
          const readings = [...list].sort((a, b) => a.at - b.at);
          const course = readings.map((reading, index) => ({
            from: reading.at,
            until: readings[index + 1]?.at ?? reading.at + 300 * MINUTE,
            degrees: reading.degrees,
            read: index % 2 === 0,
          }));
          void isClear(laidTemperature({ ...temperature, readings, course, moved, usable }, measure));
        },
      ),
      { numRuns: 100 },
    );
  });

  it('call no wait over that is not', () => {
    const waits = [{ ...(cure.waits[0] as CurePicture['waits'][number]), sharePercent: 99.7 }];
    const said = laidCure({ ...cure, waits }, measure).texts.map(({ text }) => text);
    expect(said).toContain('99 %');
    expect(said).not.toContain('100 %');
  });

  it('show how much of any wait is over', () => {
    isClear(laidCure(cure, measure));
    const wait = fc.record({
      name: words,
      words,
      sharePercent: fc.option(fc.double({ min: 0, max: 100, noNaN: true })),
      state: what,
    });
    fc.assert(
      fc.property(fc.array(wait, { maxLength: 15 }), (waits) => void isClear(laidCure({ ...cure, waits }, measure))),
      { numRuns: 100 },
    );
  });
});
