import type { CurePicture } from './models.ts';
import type { Measure } from './painter.ts';
import { LOOKS, PANEL } from './palette.ts';
import type { Scene } from './scene.ts';
import { BODY, heightOf, INNER, MARGIN, Sketch, SMALL } from './sketch.ts';

const BAR = 46;
/** More waits than these nobody reads on a telephone. */
const MOST_WAITS = 12;

/** Where everything of the open waits lies: each a bar that fills as it goes on. */
export function laidCure({ title, headline, waits }: CurePicture, measure: Measure): Scene {
  const sketch = new Sketch(measure);
  sketch.head(title, headline);
  const shown = waits.slice(0, MOST_WAITS);
  for (const [row, wait] of shown.entries()) {
    sketch.lines(wait.name, BODY, 1, { bold: true });
    sketch.lines(wait.words, BODY, 2);
    sketch.y += 4;
    progress(sketch, wait, row);
    sketch.y += BAR + 22;
  }
  if (waits.length > shown.length) sketch.lines(`and ${waits.length - shown.length} more`, BODY, 1);
  return sketch.scene();
}

function progress(sketch: Sketch, { sharePercent, state }: CurePicture['waits'][number], row: number): void {
  const look = LOOKS[state];
  const whole = { x: MARGIN, y: sketch.y, width: INNER, height: BAR };
  if (sharePercent === null) {
    sketch.look(whole, look);
    sketch.inside('no clock can tell', whole, look);
    sketch.bars.push({ ...whole, row, lane: 'steps', what: state, from: 0, until: 100 });
    return;
  }
  const share = Math.min(100, Math.max(0, sharePercent));
  const gone = { ...whole, width: (INNER * share) / 100 };
  sketch.rect(whole, PANEL, look.colour);
  sketch.look(gone, look);
  sketch.bars.push({ ...gone, row, lane: 'steps', what: state, from: 0, until: share });
  const words = `${Math.floor(share)} %`;
  if (sketch.inside(words, gone, look)) return;
  const y = sketch.y + (BAR - heightOf(SMALL)) / 2;
  sketch.text(words, { x: gone.x + gone.width + 12, y, size: SMALL, within: whole });
}
