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

/** The picture for a card, or none where it cannot be painted: nobody shall lose an answer for that. */
export const orNone = (picture: Promise<CardFile>): Promise<readonly CardFile[]> =>
  picture.then(
    (file) => [file],
    () => [],
  );

/** Every open job of a bench on one axis of time. */
export const boardPicture = (view: BenchView, beside: Beside, painter: Painter): Promise<CardFile> =>
  painted('board.png', painter, () => {
    const model = boardModel(view, beside);
    return { about: aboutRows(model), scene: laidBoard(model, painter.measure) };
  });

/** The steps of one plan, begun or not, each at its time. */
export const planPicture = (plan: JobPlan, view: BenchView, staffed: Beside['staffed'], painter: Painter): Promise<CardFile> =>
  painted('plan.png', painter, () => {
    const model = planModel(plan, view, staffed);
    return { about: aboutRows(model), scene: laidBoard(model, painter.measure) };
  });

/** The temperature record, and the waits that it moved. */
export const temperaturePicture = (view: BenchView, painter: Painter): Promise<CardFile> =>
  painted('temperature.png', painter, () => {
    const model = temperatureModel(view);
    const { title, headline, usable, moved } = model;
    const sentences = [headline, ...(usable ? [`What is at work is ${usable.words}`] : []), ...moved.map(({ words }) => words)];
    return { about: aboutOf(title, sentences), scene: laidTemperature(model, painter.measure) };
  });

/** How much of each open wait is over. */
export const curePicture = (view: BenchView, painter: Painter): Promise<CardFile> =>
  painted('waits.png', painter, () => {
    const model = cureModel(view);
    const waits = model.waits.map(
      ({ name, words, sharePercent }) =>
        `${name}, ${sharePercent === null ? 'no clock can tell' : `${Math.floor(sharePercent)} %`}: ${words}`,
    );
    const about = aboutOf(model.title, waits.length > 0 ? waits : [model.headline]);
    return { about, scene: laidCure(model, painter.measure) };
  });

/** Tells of what cannot be painted, and rejects. */
async function painted(name: string, painter: Painter, draw: () => { about: string; scene: Scene }): Promise<CardFile> {
  try {
    const { about, scene } = draw();
    return { name, about, type: 'image/png', bytes: await painter.png(svgOf(scene, painter.measure)) };
  } catch (error) {
    painter.trouble?.(error);
    throw error;
  }
}

const aboutRows = ({ title, headline, lines, trouble: first, rows, scale }: BoardPicture): string =>
  aboutOf(title, [
    // On a board, the headline is what the first row says.
    ...(rows.length === 0 || scale === 'even' ? [headline, ...lines, ...(first === '' ? [] : [first])] : []),
    ...rows.map(({ name, due, who, trouble: its }) => {
      const trouble = its.replace(/\.$/, '');
      const holder = who === '' ? '' : `, with ${who}`;
      const words = due === '' ? [`${trouble}${holder}`] : [`${due}${holder}`, ...(trouble === '' ? [] : [trouble])];
      return `${name}: ${words.join('; ')}`;
    }),
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
