import { type Axis, dayOf, type Tick, ticksOf, xOf } from './axis.ts';
import type { BoardPicture, TimeSpan } from './models.ts';
import { DAY, GRID, NIGHT, NOW, QUIET_TEXT, RAIL, TEXT } from './palette.ts';
import type { Box } from './scene.ts';
import { heightOf, type Sketch, SMALL } from './sketch.ts';

/** Between two labels of the axis, in pixels. */
const APART = 9;

export interface Shades {
  readonly nights: readonly TimeSpan[];
  /** When nobody is on shift. */
  readonly unstaffed: readonly TimeSpan[];
}

/** Between the lines of two days, in pixels. */
const LEAST_DAY = 12;

/** What is narrower than this is left out: in an axis of weeks, nights would only be flicker. */
const LEAST_SHADE = 30;

/** The stretches of the axis that these spans take, as boxes of one strip; none of spans that are narrow there. */
export function boxesOf(axis: Axis, spans: readonly TimeSpan[], y: number, height: number): Box[] {
  return axis.parts.flatMap((part) =>
    spans
      .filter((span) => ((span.until - span.from) / (part.until - part.from)) * (part.right - part.left) >= LEAST_SHADE)
      .map((span) => ({ from: Math.max(span.from, part.from), until: Math.min(span.until, part.until) }))
      .filter((span) => span.until > span.from)
      .map((span) => {
        const at = (when: number) => part.left + ((when - part.from) / (part.until - part.from)) * (part.right - part.left);
        return { x: at(span.from), y, width: at(span.until) - at(span.from), height };
      }),
  );
}

/** The ground that bars lie on: by day, at night, with nobody on shift, and fine lines at the hours or days. */
export function ground(sketch: Sketch, axis: Axis, zone: string, shades: Shades, y: number, height: number): void {
  for (const box of boxesOf(axis, [axis], y, height)) sketch.rect(box, DAY);
  for (const box of boxesOf(axis, shades.nights, y, height)) sketch.rect(box, NIGHT);
  for (const box of boxesOf(axis, shades.unstaffed, y, height)) unstaffed(sketch, box);
  for (const part of axis.parts)
    for (const { at } of linesOf(part, zone, tickWidth(sketch) + APART))
      upright(sketch, part.left + ((at - part.from) / (part.until - part.from)) * (part.right - part.left), y, height, GRID, 1);
}

/** Where the labels stand; where those are days apart, at each day, as long as these stand clear of each other. */
function linesOf(part: Axis['parts'][number], zone: string, apart: number): Tick[] {
  const labelled = ticksOf(part, zone, apart);
  return labelled.every(({ day }) => day) ? ticksOf(part, zone, LEAST_DAY).filter(({ day }) => day) : labelled;
}

/** Rails above and beneath: they are seen beside the bars that lie on it. */
export function unstaffed(sketch: Sketch, { x, y, width, height }: Box): void {
  for (const rail of [y, y + height - 6])
    sketch.shapes.push({
      as: 'pattern',
      box: { x: x - 2, y: rail - 2, width: width + 4, height: 10 },
      pattern: 'upright',
      colour: RAIL,
    });
}

const upright = (sketch: Sketch, x: number, y: number, height: number, colour: string, width: number, dashed = false) =>
  sketch.line(
    [
      [x, y],
      [x, y + height],
    ],
    colour,
    width,
    dashed,
  );

export function nowLine(sketch: Sketch, axis: Axis, now: number, y: number, height: number): void {
  if (now >= axis.from && now <= axis.until) upright(sketch, xOf(axis, now), y - 3, height + 6, NOW, 4);
}

/** An instant that somebody named. */
export function markLine(sketch: Sketch, axis: Axis, at: number, y: number, height: number): void {
  if (at >= axis.from && at <= axis.until) upright(sketch, xOf(axis, at), y - 3, height + 6, NOW, 4, true);
}

const tickWidth = ({ measure }: Sketch) => Math.max(measure('00:00', SMALL, false), measure('Wed 30', SMALL, true));

/** One line of labels: now first, then marks, days and hours, as many as stand clear of each other. */
export function axisLine(sketch: Sketch, axis: Axis, zone: string, now: number, marks: BoardPicture['marks'] = []): void {
  const { measure, y } = sketch;
  const [left, right] = [axis.parts[0]?.left ?? 0, axis.parts.at(-1)?.right ?? 0];
  const taken: { left: number; right: number }[] = [];
  const put = (label: string, x: number, bold: boolean, colour: string) => {
    const width = measure(label, SMALL, bold);
    const from = Math.min(Math.max(left, x - width / 2), right - width);
    if (taken.some((each) => from < each.right + APART && each.left < from + width + APART)) return;
    taken.push({ left: from, right: from + width });
    sketch.text(label, { x: from, y, size: SMALL, bold, colour });
  };
  if (now >= axis.from && now <= axis.until) put('now', xOf(axis, now), true, TEXT);
  for (const { at, word } of marks) if (at >= axis.from && at <= axis.until) put(word, xOf(axis, at), true, TEXT);
  const ticks = axis.parts.flatMap((part) =>
    ticksOf(part, zone, tickWidth(sketch) + APART).map((tick) => ({
      ...tick,
      x: part.left + ((tick.at - part.from) / (part.until - part.from)) * (part.right - part.left),
    })),
  );
  for (const { label, x } of ticks.filter(({ day }) => day)) put(label, x, true, QUIET_TEXT);
  // Without now on it, the axis would not say on which day it begins.
  if (now < axis.from || now > axis.until) put(dayOf(axis.from, zone), left, true, QUIET_TEXT);
  for (const { label, x } of ticks.filter(({ day }) => !day)) put(label, x, false, QUIET_TEXT);
  sketch.y += heightOf(SMALL) + 4;
}
