import type { BenchEvent } from '../bench/events.ts';
import type { BenchState, NumberedEvent } from '../bench/fold.ts';
import type { HandsBetween, Studio } from '../bench/studio.ts';
import { hoursOptions, offOptions } from '../cards/as-typed.ts';
import { wallText } from '../cards/wall-text.ts';
import { temperatureText } from '../trade/measures/format.ts';
import { USUAL_DAY } from '../trade/time/conditions.ts';
import { isRefusal, type Refusal, type Way } from '../words/refusal.ts';
import { clock, plain, say, type Text } from '../words/text.ts';
import type { Desk } from './desk.ts';
import type { PlanAsk } from './plan-options.ts';

/** What a plan counts on beside the shifts and the room as it is. */
type Counted = Pick<PlanAsk, 'extras' | 'roomCelsius'>;

/** Tells the studio of the hands that a plan counts on; gives what the bench is to be told of the room. */
export async function toldAlong(desk: Desk, { extras, roomCelsius }: Counted): Promise<BenchEvent[] | Refusal> {
  // One more than there are already in the very same hours.
  const fresh = extras.map((extra) => ({ ...extra, hands: handsIn(desk.studio, extra) + extra.hands }));
  if (fresh.length > 0) {
    const studio = await desk.house.changeStudio(() =>
      fresh.map((extra) => ({ version: 1, type: 'ExtraHoursSet', at: desk.now, by: desk.who, ...extra })),
    );
    if (isRefusal(studio)) return studio;
  }
  if (roomCelsius === null) return [];
  return [
    {
      version: 1,
      at: desk.now,
      enteredAt: desk.now,
      by: desk.who,
      type: 'TemperatureExpected',
      dayCelsius: roomCelsius,
      nightCelsius: roomCelsius,
      day: (await desk.bench.state()).expectations.at(-1)?.day ?? USUAL_DAY,
      zone: desk.studio.zone,
    },
  ];
}

const handsIn = ({ extras }: Studio, { from, until }: HandsBetween): number =>
  extras.find((each) => each.from === from && each.until === until)?.hands ?? 0;

/** Without the hands that were told before, as by a button that was pressed already. */
export const withUntold = <T extends Counted>(studio: Studio, counted: T): T => ({
  ...counted,
  extras: counted.extras.filter((extra) => handsIn(studio, extra) < extra.hands),
});

/** What an entry that was taken back leaves behind, and how to take that back, too: hands belong to the studio, not to a bench. */
export function stillPlanned(
  { studio, now }: Pick<Desk, 'studio' | 'now'>,
  undone: NumberedEvent,
): { lines: Text[]; ways: Way[] } {
  const asked = 'extras' in undone ? undone.extras : [];
  const left = asked.filter((extra) => extra.until > now && handsIn(studio, extra) > 0);
  return {
    lines: left.map(({ from, until }) => say`One more person is still planned from ${clock(from)} until ${clock(until)}.`),
    ways: left.map((extra) => {
      const hands = handsIn(studio, extra) - 1;
      const at = wallText(extra.from, studio.zone, now);
      return hands > 0
        ? {
            label: `One person fewer at ${at}`,
            command: 'shift extra',
            options: { ...hoursOptions(extra, studio.zone, now), hands: String(hands) },
          }
        : { label: `Nobody more at ${at}`, command: 'shift extra', options: offOptions(extra, studio.zone, now) };
    }),
  };
}

/** Whether all of it was told before, as by a button that was pressed already. */
export function isCountedOn(studio: Studio, { expectations }: BenchState, { extras, roomCelsius }: Counted): boolean {
  const last = expectations.at(-1);
  const isRoom = roomCelsius === null || (last?.dayCelsius === roomCelsius && last.nightCelsius === roomCelsius);
  return isRoom && extras.every((extra) => handsIn(studio, extra) >= extra.hands);
}

/** What was told along with a job, so that nobody wonders later. */
export function countedOn({ studio }: Desk, { extras, roomCelsius }: Counted): Text[] {
  const room =
    roomCelsius === null
      ? []
      : [
          say`From now on the bench is expected at ${plain(temperatureText(roomCelsius, studio.units))}, day and night: heat the room, and log what the thermometer shows.`,
        ];
  const extra = extras.map(({ from, until }) => say`One more person is planned from ${clock(from)} until ${clock(until)}.`);
  return [...extra, ...room];
}
