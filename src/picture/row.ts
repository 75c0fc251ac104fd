import { type Axis, xOf } from './axis.ts';
import { barsOn } from './bars.ts';
import { tidy } from './fit.ts';
import { type Label, placeLabels } from './labels.ts';
import type { BoardPicture, PictureBar, PictureRow } from './models.ts';
import { LOOKS, QUIET_TEXT } from './palette.ts';
import type { Box } from './scene.ts';
import { BODY, heightOf, INNER, MARGIN, SIGN_ROOM, type Sketch, SMALL, WIDTH } from './sketch.ts';
import { ground, markLine, nowLine, type Shades } from './strip.ts';

const PAD = 5;

/** How high things are, by how many rows there are. */
interface Heights {
  readonly bar: number;
  readonly window: number;
  /** Lines of labels beneath the bars. */
  readonly labels: number;
  readonly gap: number;
}

export const heightsFor = (rows: number): Heights =>
  rows <= 3
    ? { bar: 38, window: 16, labels: 2, gap: 20 }
    : rows <= 6
      ? { bar: 36, window: 14, labels: 1, gap: 18 }
      : { bar: 26, window: 12, labels: 0, gap: 14 };

interface Drawn {
  readonly row: PictureRow;
  readonly index: number;
  readonly heights: Heights;
}

/** What a row says, and its bars beneath that. */
export function drawRow(
  sketch: Sketch,
  axis: Axis,
  { zone, now, marks }: BoardPicture,
  shades: Shades,
  { row, index, heights }: Drawn,
): void {
  said(sketch, row);
  const window = row.window && row.window.until > axis.from && row.window.from < axis.until ? row.window : null;
  const height = heights.bar + 2 * PAD + (window ? heights.window + PAD : 0);
  const top = sketch.y;
  ground(sketch, axis, zone, shades, top, height);
  const labels: Label[] = [];
  const bars = barsOn(axis, row.bars);
  const lefts = bars.filter(({ bar }) => bar.what !== 'wait').map(({ left }) => left);
  for (const { bar, left, right } of bars) {
    const box = { x: left, y: top + PAD, width: right - left, height: heights.bar };
    put(sketch, box, bar, index, 'steps');
    if (!sketch.inside(bar.title, box, LOOKS[bar.what]) && bar.what !== 'wait' && bar.title !== '')
      labels.push({ words: tidy(bar.title), left, rank: rankOf(bar, now) });
  }
  if (window) {
    const [left, right] = [xOf(axis, window.from), xOf(axis, window.until)];
    put(
      sketch,
      { x: left, y: top + heights.bar + 2 * PAD, width: Math.max(2, right - left), height: heights.window },
      window,
      index,
      'window',
    );
  }
  nowLine(sketch, axis, now, top, height);
  for (const { at } of marks) markLine(sketch, axis, at, top, height);
  sketch.y += height + 2;
  // What does not fit is named beside what is due.
  const lines = row.trouble !== '' && heights.labels > 0 ? 2 : heights.labels;
  sketch.y += placeLabels(sketch, labels, lefts, WIDTH - MARGIN, lines) * heightOf(SMALL) + heights.gap;
}

/** What is due next is said first, then what comes, then what was, the last first. */
const rankOf = ({ what, from }: PictureBar, now: number): number =>
  what === 'hands' || what === 'earliest' ? 1 + Math.abs(from - now) : what === 'done' ? Number.MAX_SAFE_INTEGER - from : 0;

function put(sketch: Sketch, box: Box, { what, from, until }: PictureBar, row: number, lane: 'steps' | 'window'): void {
  sketch.look(box, LOOKS[what]);
  sketch.bars.push({ ...box, row, lane, what, from, until });
}

/** Between a name and what is due. */
const SPACE = 18;

/** Name, who and what is due: on one line where that fits, else on two. */
function said(sketch: Sketch, { name, who, due, state, trouble }: PictureRow): void {
  const { measure } = sketch;
  const [title, holder, words] = [tidy(name), tidy(who), tidy(due)];
  const side = Math.min(measure(holder, SMALL, false), INNER * 0.4);
  const line = heightOf(BODY);
  if (holder !== '')
    sketch.text(holder, { x: WIDTH - MARGIN - side, y: sketch.y + 2, size: SMALL, colour: QUIET_TEXT, most: side + 1 });
  const room = INNER - (holder === '' ? 0 : side + SPACE);
  const mark = state === null ? 0 : SIGN_ROOM;
  const whole = measure(title, BODY, true) + SPACE + mark + measure(words, BODY, false);
  const box = sketch.text(title, { x: MARGIN, y: sketch.y, size: BODY, bold: true, most: room });
  const beside = words === '' || whole <= room;
  if (!beside) sketch.y += line;
  const x = beside ? box.x + box.width + SPACE : MARGIN;
  if (words !== '') {
    if (state !== null) sketch.sign(LOOKS[state], x, sketch.y);
    sketch.text(words, { x: x + mark, y: sketch.y, size: BODY });
  }
  sketch.y += line + 4;
  if (trouble !== '') {
    sketch.signed(LOOKS.unfit, trouble, 3);
    sketch.y += 4;
  }
}
