import { type Axis, axisOf, isNear } from './axis.ts';
import type { BoardPicture, PictureRow, TimeSpan } from './models.ts';
import type { Measure } from './painter.ts';
import { DAY, LOOKS, type Look, NIGHT, QUIET_TEXT, type What } from './palette.ts';
import { drawRow, heightsFor } from './row.ts';
import type { Box, Scene } from './scene.ts';
import { BODY, MARGIN, Sketch, WIDTH } from './sketch.ts';
import { axisLine, boxesOf, type Shades, unstaffed } from './strip.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
/** More jobs than these nobody reads on a telephone; a plan has more steps. */
const MOST_ROWS = { 'near-first': 12, even: 24 };
/** So much of the past is drawn. */
const PAST = 1.5 * HOUR;
const LEAST_TO_COME = 2 * HOUR;
/** What is promised may lie after the end by this share of the whole; further off, it is only said in words. */
const MOST_STRETCH = 0.6;
/** With more rows than these, the axis stands beneath them too. */
const AXIS_AGAIN = 5;

/** Where everything of a board lies. */
export function laidBoard(picture: BoardPicture, measure: Measure): Scene {
  const sketch = new Sketch(measure);
  sketch.head(picture.title, picture.headline);
  for (const line of picture.lines) sketch.lines(line, BODY, 2, { colour: QUIET_TEXT });
  if (picture.trouble !== '') sketch.signed(LOOKS.unfit, picture.trouble, 3);
  if (picture.lines.length > 0 || picture.trouble !== '') sketch.y += 10;
  const rows = picture.rows.slice(0, MOST_ROWS[picture.scale]);
  if (rows.length === 0) return sketch.scene();
  const axis = axisOf(spanOf(picture, rows), picture.now, MARGIN, WIDTH - MARGIN, isNearFirst(picture, rows));
  const shades = { nights: picture.nights, unstaffed: unstaffedOf(picture, axis) };
  axisLine(sketch, axis, picture.zone, picture.now, picture.marks);
  const heights = heightsFor(rows.length);
  for (const [index, row] of rows.entries()) drawRow(sketch, axis, picture, shades, { row, index, heights });
  if (rows.length > AXIS_AGAIN) axisLine(sketch, axis, picture.zone, picture.now, picture.marks);
  const more = picture.rows.length - rows.length;
  if (more > 0)
    sketch.lines(
      `and ${more} more: ${picture.rows
        .slice(rows.length)
        .map(({ name }) => name)
        .join(', ')}`,
      BODY,
      2,
    );
  sketch.y += 14;
  sketch.legend([...looksOf(sketch, picture.trouble, rows), ...shadesOf(sketch, axis, shades)]);
  return sketch.scene();
}

/** Where nothing is to be done for hours, nothing is there to be drawn larger. */
const isNearFirst = ({ scale, now }: BoardPicture, rows: readonly PictureRow[]): boolean =>
  scale === 'near-first' &&
  isNear(
    rows.flatMap(({ bars }) => bars.filter(({ what }) => what !== 'wait' && what !== 'done')),
    now,
  );

/** From a little before now, or from where the first bar begins, to where the last one ends. */
function spanOf({ now, scale, marks }: BoardPicture, rows: readonly PictureRow[]): TimeSpan {
  const bars = rows.flatMap((row) => [...row.bars, ...(row.window ? [row.window] : [])]);
  const first = Math.min(...bars.map(({ from }) => from));
  const last = Math.max(...rows.flatMap((row) => row.bars.map(({ until }) => until)));
  if (scale === 'even' && bars.length > 0) {
    const near = marks.map(({ at }) => at).filter((at) => at < last + (last - first) * MOST_STRETCH);
    const until = Math.max(last, first + HOUR, ...near);
    return { from: first - (until - first) * 0.03, until };
  }
  const from = Math.min(now - 20 * MINUTE, Math.max(first, now - PAST));
  return { from, until: Math.max(Number.isFinite(last) ? last : now, now + LEAST_TO_COME) };
}

function unstaffedOf({ staffed }: BoardPicture, axis: Axis): TimeSpan[] {
  if (staffed === null) return [];
  const gaps: TimeSpan[] = [];
  let at = axis.from;
  for (const span of [...staffed].sort((a, b) => a.from - b.from)) {
    if (span.from > at) gaps.push({ from: at, until: span.from });
    at = Math.max(at, span.until);
  }
  return at < axis.until ? [...gaps, { from: at, until: axis.until }] : gaps;
}

type Entry = readonly [Look, (box: Box) => void];

function looksOf(sketch: Sketch, first: string, rows: readonly PictureRow[]): Entry[] {
  const seen = new Set<What>(sketch.bars.map(({ what }) => what));
  if (first !== '') seen.add('unfit');
  for (const { due, state, trouble } of rows) {
    if (due !== '' && state !== null) seen.add(state);
    if (trouble !== '') seen.add('unfit');
  }
  return Object.entries(LOOKS)
    .filter(([what]) => seen.has(what as What))
    .map(([, look]) => [look, (box: Box) => sketch.look(box, look)]);
}

function shadesOf(sketch: Sketch, axis: Axis, { nights, unstaffed: gaps }: Shades): Entry[] {
  const occurs = (spans: readonly TimeSpan[]) => boxesOf(axis, spans, 0, 0).length > 0;
  const shade = (word: string, colour: string): Look => ({ word, colour, pattern: 'solid' });
  return [
    ...(occurs(nights) ? [[shade('night', NIGHT), (box: Box) => sketch.rect(box, NIGHT, DAY)] as const] : []),
    ...(occurs(gaps)
      ? [
          [
            shade('nobody on shift', DAY),
            (box: Box) => {
              sketch.rect(box, DAY);
              unstaffed(sketch, box);
            },
          ] as const,
        ]
      : []),
  ];
}
