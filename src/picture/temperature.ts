import { type Axis, axisOf, xOf } from './axis.ts';
import type { TemperaturePicture, TimeSpan } from './models.ts';
import type { Measure } from './painter.ts';
import { BLUISH_GREEN, DAY, GRID, type Look, ORANGE, PANEL, QUIET_TEXT, SKY_BLUE, TEXT } from './palette.ts';
import type { Box, Scene } from './scene.ts';
import { BODY, heightOf, MARGIN, Sketch, SMALL, WIDTH } from './sketch.ts';
import { axisLine, ground, nowLine } from './strip.ts';

const HOUR = 3_600_000;
const CHART = 340;
/** Room for the degrees at the left. */
const SCALE = 92;
const STRIP = 40;
/** Degrees between the labels of the scale. */
const STEPS = [1, 2, 5, 10, 20, 50];
const MOST_LABELS = 6;
/** More readings than these would run together. */
const MOST_LARGE = 40;
/** More moved waits than these are said in words. */
const MOST_MOVED = 8;

/** Where everything of a temperature record lies: how warm it was and will be, and below it what that moved. */
export function laidTemperature(picture: TemperaturePicture, measure: Measure): Scene {
  const sketch = new Sketch(measure);
  sketch.head(picture.title, picture.headline);
  const { now, zone } = picture;
  const axis = axisOf(spanOf(picture), now, MARGIN + SCALE, WIDTH - MARGIN, false);
  if (picture.course.length > 0) {
    chart(sketch, axis, picture);
    axisLine(sketch, axis, zone, now);
    sketch.y += 8;
  }
  const shown = picture.moved.slice(0, MOST_MOVED);
  for (const move of shown) movedWait(sketch, axis, picture, move);
  const more = picture.moved.length - shown.length;
  if (more > 0) sketch.lines(`and ${more} more moved`, BODY, 1);
  sketch.legend(entriesOf(sketch, picture, shown));
  return sketch.scene();
}

function spanOf({ now, course, moved }: TemperaturePicture): TimeSpan {
  const ends = moved.flatMap(({ was, is }) => [was ?? now, is ?? now]);
  return {
    from: Math.min(now - HOUR, ...course.map(({ from }) => from)),
    until: Math.max(now + HOUR, ...course.map(({ until }) => until), ...ends.map((end) => end + HOUR)),
  };
}

function chart(sketch: Sketch, axis: Axis, { now, zone, unit, readings, course, usable, nights }: TemperaturePicture): void {
  const top = sketch.y + 8;
  const bottom = top + CHART;
  const all = [...course, ...readings].map(({ degrees }) => degrees);
  const low = Math.floor(Math.min(...all, usable?.from ?? Number.POSITIVE_INFINITY)) - 1;
  const high = Math.ceil(Math.max(...all, usable?.until ?? Number.NEGATIVE_INFINITY)) + 1;
  const yOf = (degrees: number) => bottom - ((degrees - low) / (high - low)) * CHART;
  ground(sketch, axis, zone, { nights, unstaffed: [] }, top, CHART);
  const step = STEPS.find((each) => (high - low) / each <= MOST_LABELS) ?? 100;
  for (let degrees = Math.ceil(low / step) * step; degrees <= high; degrees += step) {
    const y = yOf(degrees);
    sketch.line(
      [
        [MARGIN + SCALE, y],
        [WIDTH - MARGIN, y],
      ],
      GRID,
      1,
    );
    const words = degrees + step > high ? `${degrees} ${unit}` : String(degrees);
    const width = sketch.measure(words, SMALL, false);
    sketch.text(words, { x: MARGIN + SCALE - 16 - width, y: y - heightOf(SMALL) / 2, size: SMALL, colour: QUIET_TEXT });
  }
  if (usable)
    for (const degrees of [usable.from, usable.until])
      sketch.line(
        [
          [MARGIN + SCALE, yOf(degrees)],
          [WIDTH - MARGIN, yOf(degrees)],
        ],
        BLUISH_GREEN,
        4,
      );
  nowLine(sketch, axis, now, top, CHART);
  for (const [index, { from, until, degrees, read }] of course.entries()) {
    const before = course[index - 1];
    const [left, right, y] = [xOf(axis, from), xOf(axis, until), yOf(degrees)];
    if (before && before.until === from)
      sketch.line(
        [
          [left, yOf(before.degrees)],
          [left, y],
        ],
        SKY_BLUE,
        3,
      );
    sketch.line(
      [
        [left, y],
        [right, y],
      ],
      SKY_BLUE,
      6,
      !read,
    );
  }
  for (const { at, degrees } of readings)
    sketch.shapes.push(dotAt(xOf(axis, at), yOf(degrees), readings.length > MOST_LARGE ? 4 : 8));
  sketch.y = bottom + 6;
}

const dotAt = (x: number, y: number, radius = 8) => ({ as: 'dot', x, y, radius, fill: PANEL, edge: TEXT }) as const;

function movedWait(
  sketch: Sketch,
  axis: Axis,
  { zone, now, nights }: TemperaturePicture,
  move: TemperaturePicture['moved'][number],
): void {
  sketch.lines(move.words, BODY, 2);
  const top = sketch.y + 4;
  ground(sketch, axis, zone, { nights, unstaffed: [] }, top, STRIP);
  nowLine(sketch, axis, now, top, STRIP);
  arrow(sketch, axis, move, top + STRIP / 2);
  sketch.y = top + STRIP + 18;
}

/** From an empty ring, when it was, to a full one, when it is. */
function arrow(sketch: Sketch, axis: Axis, { was, is }: { was: number | null; is: number | null }, y: number): void {
  if (was !== null && is !== null)
    sketch.line(
      [
        [xOf(axis, was), y],
        [xOf(axis, is), y],
      ],
      ORANGE,
      4,
    );
  if (was !== null) ring(sketch, xOf(axis, was), y, PANEL);
  if (is !== null) ring(sketch, xOf(axis, is), y, ORANGE);
}

const ring = (sketch: Sketch, x: number, y: number, fill: string) =>
  sketch.shapes.push({ as: 'dot', x, y, radius: 10, fill, edge: ORANGE });

type Entry = readonly [Look, (box: Box) => void];

function entriesOf(
  sketch: Sketch,
  { course, readings, usable }: TemperaturePicture,
  moved: TemperaturePicture['moved'],
): Entry[] {
  const entry = (occurs: boolean, word: string, draw: (box: Box, middle: number) => void): Entry[] =>
    occurs ? [[{ word, colour: DAY, pattern: 'solid' }, (box) => draw(box, box.y + box.height / 2)]] : [];
  const level = (box: Box, y: number, colour: string, width: number, dashed = false) =>
    sketch.line(
      [
        [box.x, y],
        [box.x + box.width, y],
      ],
      colour,
      width,
      dashed,
    );
  return [
    ...entry(readings.length > 0, 'read', (box, y) => {
      level(box, y, SKY_BLUE, 6);
      sketch.shapes.push(dotAt(box.x + box.width / 2, y));
    }),
    ...entry(
      course.some(({ read }) => !read),
      'expected',
      (box, y) => level(box, y, SKY_BLUE, 6, true),
    ),
    ...entry(usable !== null, usable?.words ?? '', (box, y) => level(box, y, BLUISH_GREEN, 4)),
    ...entry(
      moved.some(({ was }) => was !== null),
      'was',
      (box, y) => ring(sketch, box.x + box.width / 2, y, PANEL),
    ),
    ...entry(
      moved.some(({ is }) => is !== null),
      'is now',
      (box, y) => ring(sketch, box.x + box.width / 2, y, ORANGE),
    ),
  ];
}
