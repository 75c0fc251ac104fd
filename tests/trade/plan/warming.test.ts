import { expect, test } from 'vitest';
import { MINUTE } from '../../../src/trade/time/calendar.ts';
import { earliest, latest } from '../../support/chains.ts';
import { under } from '../../support/conditions.ts';
import type { GridAsk } from '../../support/grid.ts';

// Worked out by hand. Twice as fast from minute 100 on: what is begun at minute m, 0 to 100, opens at 110 + m/2 and stays open
// for 0.35 minutes; so after an even m there is one whole minute, and after an odd one none.
const warming = (longest: number, readyBy: number | null): GridAsk => ({
  steps: [
    { handsMinutes: 0, wait: { fromMinutes: 0, untilMinutes: longest, speed: null } },
    {
      handsMinutes: 0,
      wait: { fromMinutes: 120, untilMinutes: 120.7, speed: { law: { law: 'q10', q10: 2 }, referenceCelsius: 23 } },
    },
    { handsMinutes: 0, wait: null },
  ],
  begin: { from: 0, until: 60 },
  staffed: null,
  busy: [],
  readyBy,
  conditions: under([
    { at: 0, celsius: 23 },
    { at: 100 * MINUTE, celsius: 33 },
  ]),
});

test.each([40, 41, 42])('within %d minutes, a window of a third of a minute allows few starts, and none may slip', (longest) => {
  expect(earliest(warming(longest, null))).toMatchObject({ starts: [0, 0, 110], latest: [60, 0, 110], readyAt: 110 });
  expect(latest(warming(longest, 130))).toMatchObject({ starts: [40, 40, 130], latest: [40, 40, 130] });
});
