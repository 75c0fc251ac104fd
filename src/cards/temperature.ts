import type { BenchState } from '../bench/fold.ts';
import type { Studio } from '../bench/studio.ts';
import { temperatureText } from '../trade/measures/format.ts';
import { hoursText } from '../trade/time/calendar.ts';
import type { Expectation } from '../trade/time/conditions.ts';
import { plain, say, type Text } from '../words/text.ts';

/** What is expected of the days and nights to come; null where nothing is. */
function expectation({ expectations }: BenchState): Expectation | null {
  const last = expectations.at(-1);
  return last && (last.dayCelsius !== null || last.nightCelsius !== null) ? last : null;
}

/** "Expected: 21 °C by day (07:00-19:00), 14 °C by night". */
export function expectedText(state: BenchState, { units }: Studio): Text | null {
  const expected = expectation(state);
  if (expected === null) return null;
  const shown = (celsius: number | null) => plain(celsius === null ? 'as read last' : temperatureText(celsius, units));
  return say`Expected: ${shown(expected.dayCelsius)} by day (${plain(hoursText(expected.day))}), ${shown(expected.nightCelsius)} by night`;
}

export function expectedData(state: BenchState) {
  const expected = expectation(state);
  if (expected === null) return null;
  const { dayCelsius, nightCelsius, day } = expected;
  return { dayCelsius, nightCelsius, dayHours: hoursText(day) };
}
