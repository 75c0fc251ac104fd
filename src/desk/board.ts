import { planNow } from '../bench/planning/standing.ts';
import { staffedTime } from '../bench/staffing.ts';
import { boardCard } from '../cards/board-card.ts';
import type { BenchView } from '../cards/brief-card.ts';
import { troubleWords } from '../cards/trouble-card.ts';
import type { Card } from '../chat/card.ts';
import type { Painter } from '../picture/painter.ts';
import { DAY } from '../trade/time/calendar.ts';
import { boardPicture, orNone } from './pictures.ts';

/** A picture shows no more of what is staffed than this, before and after now. */
const SHOWN_BEFORE = 2 * DAY;
const SHOWN_AFTER = 62 * DAY;

/** When somebody is on shift, as far as a picture may reach; null where shifts are not kept. */
export const staffedAround = ({ studio, now }: BenchView) => staffedTime(studio, now - SHOWN_BEFORE, now + SHOWN_AFTER);

/** What a picture of the bench shows beside it. */
export function besideOf(view: BenchView) {
  const { plans, troubles, world } = planNow(view.state, view.studio, view.now);
  return {
    // Where no shifts are kept, no plan knows when somebody is there.
    plans: world.staffed === null ? new Map() : plans,
    troubles: troubles.map((trouble) => troubleWords(trouble, view.studio, view.now)),
    staffed: staffedAround(view),
  };
}

/** The board in words, and as a picture of all that is planned. */
export async function shownBoard(view: BenchView, painter: Painter): Promise<Card> {
  return { ...boardCard(view), files: await orNone(boardPicture(view, besideOf(view), painter)) };
}
