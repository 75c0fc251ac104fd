import { PNG } from 'pngjs';
import { beforeAll, describe, expect, it } from 'vitest';
import { legible } from '../../../src/adapters/png/legible.ts';
import { pngPainter } from '../../../src/adapters/png/painter.ts';
import { laidBoard } from '../../../src/picture/board.ts';
import type { Painter } from '../../../src/picture/painter.ts';
import { TEXT } from '../../../src/picture/palette.ts';
import { svgOf } from '../../../src/picture/svg.ts';
import { board, boards } from '../../picture/models.ts';

let painter: Painter;
beforeAll(() => {
  painter = pngPainter();
});

/** The columns and rows in which a text of size 40 at (100, 100), in a box 50 high, leaves ink. */
async function inkOf(text: string, bold: boolean) {
  const placed = { text, x: 100, y: 100, width: 0, height: 50, size: 40, bold, colour: TEXT, within: null };
  const svg = svgOf({ width: 1400, height: 260, shapes: [], texts: [placed], bars: [] }, painter.measure);
  const { width, height, data } = PNG.sync.read(Buffer.from(await painter.png(svg)));
  const columns: number[] = [];
  const rows: number[] = [];
  for (let y = 4; y < height - 4; y += 1)
    for (let x = 4; x < width - 4; x += 1)
      if ((data[(y * width + x) * 4] ?? 0) > 120) {
        columns.push(x);
        rows.push(y);
      }
  return {
    left: columns.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY),
    right: columns.reduce((a, b) => Math.max(a, b), 0),
    top: rows.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY),
    bottom: rows.reduce((a, b) => Math.max(a, b), 0),
  };
}

describe('what is measured', () => {
  // The renderer shapes and paints with its own code: it is the second opinion on every width.
  it.each([
    ['Lion head', false],
    ['Lion head', true],
    ['The large relief of the town hall, second part', false],
    ['AVAVAV To Yours, WAXED', true],
    ['Großer Löwenkopf: 10:45–13:00', false],
    ['fifty-first affidavit', false],
    ['Голова льва, Κεφάλι', true],
    ['תבנית אריה', false],
    ['رأس الأسد', false],
    ['🦁 Lion 🦁', false],
    ['漢字 mould', true],
  ] as const)('is what is painted: %s', async (text, bold) => {
    const { left, right, top, bottom } = await inkOf(text, bold);
    const width = painter.measure(text, 40, bold);
    expect(left).toBeGreaterThanOrEqual(98);
    expect(right).toBeLessThanOrEqual(100 + width + 2);
    // Letters stand a little apart from the ends of their boxes, but no more.
    expect(right).toBeGreaterThanOrEqual(100 + width - 12);
    expect(top).toBeGreaterThanOrEqual(99);
    expect(bottom).toBeLessThanOrEqual(151);
  });

  it('grows with the size', () => {
    expect(painter.measure('Lion', 60, false)).toBeCloseTo(2 * painter.measure('Lion', 30, false), 9);
    expect(painter.measure('', 30, false)).toBe(0);
  });
});

describe('a character that the font lacks', () => {
  const known = new Set([...'abcé'].map((each) => each.codePointAt(0) ?? 0));
  it('is one sign, however many code points it has', () => {
    expect(legible('👩‍👩‍👧👩', known)).toBe('\ufffd\ufffd');
    expect(legible('漢 字', known)).toBe('\ufffd \ufffd');
    expect(legible('漢字', known)).toBe('\ufffd\ufffd');
    expect(legible('é', known)).toBe('é');
  });

  it('is left out where it is a little picture beside words, and a space with it', () => {
    const shown = [
      '👩‍👩‍👧 abc',
      'abc 🦁🏳️‍🌈',
      'a 🦁 b',
      'abc 🇩🇪: abc',
      'a🦁b',
      '🦁 é 漢',
      'a\u00a0b',
      'a🦁 b',
      'a 🦁b',
      'a 🦁, b',
      '(🦁 a)',
      'a 🦁 🐯',
      '1️⃣ a',
      'a™️',
      'a 🦁 漢',
    ];
    expect(shown.map((each) => legible(each, new Set([...known, 0xa0, 0x2122])))).toEqual([
      'abc',
      'abc',
      'a b',
      'abc: abc',
      'ab',
      'é \ufffd',
      'a\u00a0b',
      'a b',
      'a b',
      'a, b',
      '(a)',
      'a',
      '1 a',
      'a™',
      'a \ufffd',
    ]);
    expect(legible('<text>🦁 a</text><text>🦁</text>', known)).toBe('<text>a</text><text>\ufffd</text>');
  });

  it('leaves plain ASCII as it is, so that no markup is touched', () => {
    expect(legible('<text x="1">漢</text>', known)).toBe('<text x="1">\ufffd</text>');
  });
});

describe('a picture', () => {
  const row = boards.one.rows[0];
  const hostile = [
    '</text></svg><script>alert(1)</script>',
    '&lt; &#0; &unknown; "\'` %s {a|b}',
    'a\u0000b\u0007c\u001b[31md\ud800e\uffff\ufffe',
    '\u202eright to left\u202c',
    '\u0301\u0301 combining first',
    ']]><!--',
    '👩‍👩‍👧‍👦🏳️‍🌈🦁',
    'a'.repeat(5000),
  ];
  it.each(hostile.map((name) => [name.slice(0, 20), name]))('can be painted whatever a job is called: %j', async (_, name) => {
    const each = { ...(row as NonNullable<typeof row>), name, due: name, who: name };
    const scene = laidBoard(board({ rows: [each], headline: name, title: name }), painter.measure);
    const png = PNG.sync.read(Buffer.from(await painter.png(svgOf(scene, painter.measure))));
    expect([png.width, png.height]).toEqual([scene.width, scene.height]);
  });

  it('is opaque, so that a dark and a light chat show it alike', async () => {
    const { data } = PNG.sync.read(
      Buffer.from(await painter.png(svgOf(laidBoard(boards.one, painter.measure), painter.measure))),
    );
    const inner = data.filter((_, index) => index % 4 === 3);
    expect(inner.reduce((a, b) => Math.min(a, b), 255)).toBe(255);
  });

  it('is painted while others have their turn', async () => {
    let turns = 0;
    const count = setInterval(() => {
      turns += 1;
    }, 1);
    await painter.png(svgOf(laidBoard(boards.ten, painter.measure), painter.measure));
    clearInterval(count);
    expect(turns).toBeGreaterThan(0);
  });
});
