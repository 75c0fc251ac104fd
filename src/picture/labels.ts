import { fitted } from './fit.ts';
import { heightOf, type Sketch, SMALL } from './sketch.ts';

export interface Label {
  readonly words: string;
  /** The left edge of the bar that it belongs to. */
  readonly left: number;
  /** Smaller ones are placed first. */
  readonly rank: number;
}

const APART = 18;
/** The widest that a label may be. */
const MOST_WIDTH = 400;
/** Of bars that begin within so many pixels, only one is named: which one a second label meant could not be told. */
const CLUSTER = 48;

/**
 * Puts labels beneath their bars, each beginning where its bar does, on the first line where it stands clear of the others; left
 * out where there is none. `lefts`: where all bars begin. Gives how many lines were taken.
 */
export function placeLabels(
  sketch: Sketch,
  labels: readonly Label[],
  lefts: readonly number[],
  right: number,
  most: number,
): number {
  const lines: { left: number; right: number }[][] = Array.from({ length: most }, () => []);
  const named: number[] = [];
  for (const { words: whole, left } of [...labels].sort((a, b) => a.rank - b.rank)) {
    if (named.some((other) => Math.abs(other - left) < CLUSTER)) continue;
    const words = fitted(whole, MOST_WIDTH, SMALL, false, sketch.measure);
    const width = sketch.measure(words, SMALL, false);
    const x = Math.min(left, right - width);
    // Pushed aside by the edge, it must not begin beneath another bar.
    if (x < left && lefts.some((other) => other < left && other > x - CLUSTER)) continue;
    const line = lines.findIndex((taken) => taken.every((each) => x >= each.right + APART || each.left >= x + width + APART));
    if (line === -1) continue;
    named.push(left);
    lines[line]?.push({ left: x, right: x + width });
    sketch.text(words, { x, y: sketch.y + line * heightOf(SMALL), size: SMALL, most: width + 1 });
  }
  return lines.filter((taken) => taken.length > 0).length;
}
