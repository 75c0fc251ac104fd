import type { Pattern } from './palette.ts';
import type { Box } from './scene.ts';

/** Pixels between the strokes of a pattern. */
const STEP = 13;

type Stroke = readonly [number, number, number, number];

/** A slanted stroke through a box: where x + y, or x − y, is `c`; none where that only touches a corner. */
function slanted({ x, y, width, height }: Box, c: number, down: boolean): Stroke[] {
  const at = (px: number) => (down ? px - c : c - px);
  const [top, bottom] = [y, y + height];
  const [one, other] = down ? [c + top, c + bottom] : [c - bottom, c - top];
  const [from, until] = [Math.max(x, one), Math.min(x + width, other)];
  return until - from < 1 ? [] : [[from, at(from), until, at(until)]];
}

function slants(box: Box, down: boolean): Stroke[] {
  const first = down ? box.x - box.y - box.height : box.x + box.y;
  const strokes: Stroke[] = [];
  for (let c = first + STEP / 2; c < first + box.width + box.height; c += STEP) strokes.push(...slanted(box, c, down));
  return strokes;
}

function across({ x, y, width, height }: Box): Stroke[] {
  const strokes: Stroke[] = [];
  for (let at = y + STEP / 2; at < y + height; at += STEP * 0.7) strokes.push([x, at, x + width, at]);
  return strokes;
}

function upright({ x, y, width, height }: Box): Stroke[] {
  const strokes: Stroke[] = [];
  for (let at = x + STEP / 2; at < x + width; at += STEP * 0.7) strokes.push([at, y, at, y + height]);
  return strokes;
}

function thread({ x, y, width, height }: Box): Stroke[] {
  const strokes: Stroke[] = [];
  const middle = y + height / 2;
  for (let at = x; at < x + width; at += STEP) strokes.push([at, middle, Math.min(x + width, at + STEP * 0.6), middle]);
  return strokes;
}

function zigzag({ x, y, width, height }: Box): Stroke[] {
  const strokes: Stroke[] = [];
  const [high, low] = [y + height * 0.2, y + height * 0.8];
  let up = true;
  const step = STEP * 0.7;
  for (let px = x; px + step <= x + width; px += step, up = !up)
    strokes.push(up ? [px, low, px + step, high] : [px, high, px + step, low]);
  return strokes;
}

const struck = ({ x, y, width, height }: Box): Stroke[] => [
  [x, y, x + width, y + height],
  [x, y + height, x + width, y],
];

/** The strokes that fill a box with a pattern, none of them leaving it. */
export function strokesOf(pattern: Pattern, box: Box): readonly Stroke[] {
  switch (pattern) {
    case 'solid':
    case 'framed':
    case 'outline':
      return [];
    case 'hatch':
      return slants(box, false);
    case 'back-hatch':
      return slants(box, true);
    case 'cross':
      return [...slants(box, false), ...slants(box, true)];
    case 'thread':
      return thread(box);
    case 'level':
      return across(box);
    case 'upright':
      return upright(box);
    case 'struck':
      return struck(box);
    case 'zigzag':
      return zigzag(box);
  }
}
