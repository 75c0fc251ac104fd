import type { JobPlan } from '../bench/planning/plan.ts';
import { type Beside, boardModel } from '../cards/board-view.ts';
import type { BenchView } from '../cards/brief-card.ts';
import { cureModel } from '../cards/cure-view.ts';
import { planModel } from '../cards/plan-view.ts';
import { temperatureModel } from '../cards/temperature-view.ts';
import type { CardFile } from '../chat/card.ts';
import { laidBoard } from '../picture/board.ts';
import { laidCure } from '../picture/cure.ts';
import { tidy } from '../picture/fit.ts';
import type { BoardPicture } from '../picture/models.ts';
import type { Painter } from '../picture/painter.ts';
import type { Scene } from '../picture/scene.ts';
import { svgOf } from '../picture/svg.ts';
import { laidTemperature } from '../picture/temperature.ts';

/** A chat platform takes no more characters of what is said of a picture. */
const MOST_ABOUT = 1000;

/** Every open job of a bench on one axis of time. */
export function boardPicture(view: BenchView, beside: Beside, painter: Painter): Promise<CardFile> {
  const model = boardModel(view, beside);
  return painted('board.png', aboutRows(model), laidBoard(model, painter.measure), painter);
}

/** The steps of one plan, begun or not, each at its time. */
export function planPicture(plan: JobPlan, view: BenchView, staffed: Beside['staffed'], painter: Painter): Promise<CardFile> {
  const model = planModel(plan, view, staffed);
  return painted('plan.png', aboutRows(model), laidBoard(model, painter.measure), painter);
}

/** The temperature record, and the waits that it moved. */
export function temperaturePicture(view: BenchView, painter: Painter): Promise<CardFile> {
  const model = temperatureModel(view);
  const about = aboutOf(model.title, [
    model.headline,
    ...(model.usable ? [model.usable.words] : []),
    ...model.moved.map(({ words }) => words),
  ]);
  return painted('temperature.png', about, laidTemperature(model, painter.measure), painter);
}

/** How much of each open wait is over. */
export function curePicture(view: BenchView, painter: Painter): Promise<CardFile> {
  const model = cureModel(view);
  const waits = model.waits.map(
    ({ name, words, sharePercent }) =>
      `${name}, ${sharePercent === null ? 'no clock can tell' : `${Math.floor(sharePercent)} %`}: ${words}`,
  );
  const about = aboutOf(model.title, waits.length > 0 ? waits : [model.headline]);
  return painted('waits.png', about, laidCure(model, painter.measure), painter);
}

async function painted(name: string, about: string, scene: Scene, painter: Painter): Promise<CardFile> {
  return { name, about, type: 'image/png', bytes: await painter.png(svgOf(scene, painter.measure)) };
}

const aboutRows = ({ title, headline, lines, rows, scale }: BoardPicture): string =>
  aboutOf(title, [
    // On a board, the headline is what the first row says.
    ...(rows.length === 0 || scale === 'even' ? [headline, ...lines] : []),
    ...rows.map(({ name, due, who }) => `${name}: ${due}${who === '' ? '' : `, with ${who}`}`),
  ]);

/** What a picture says, in as many whole sentences as may be said of it. */
function aboutOf(title: string, sentences: readonly string[]): string {
  const parts = [title, ...sentences].map((each) => tidy(each).replace(/\.$/, ''));
  let about = '';
  for (const [index, part] of parts.entries()) {
    const rest = `And ${parts.length - index} more.`;
    const longer = `${about}${part}. `;
    if (longer.length + rest.length > MOST_ABOUT) return index === 0 ? `${part.slice(0, MOST_ABOUT - 1)}…` : `${about}${rest}`;
    about = longer;
  }
  return about.trim();
}
