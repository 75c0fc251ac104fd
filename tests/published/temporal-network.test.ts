import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { earliest, latest } from '../support/chains.ts';
import { under } from '../support/conditions.ts';
import type { GridAsk } from '../support/grid.ts';
import { type Between, minimalNetwork } from '../support/temporal-network.ts';

const between = (from: number, to: number, least: number, most = Number.POSITIVE_INFINITY): Between => ({
  from,
  to,
  least,
  most,
});
/** From the first point to every other. */
const domains = (points: number, constraints: readonly Between[]) => minimalNetwork(points, constraints)?.[0]?.slice(1) ?? null;

describe('simple temporal networks', () => {
  // A program after the constraint handling textbook, github.com/chansey97/chr_book, stn.pl.
  const [A, B, C] = [0, 1, 2];
  const ends = [between(A, B, 4, 7), between(A, C, 10, 13)];
  test('AB 4 to 7, BC 1 to 4, AC 10 to 13: B at 6 or 7, C at 10 or 11', () =>
    expect(domains(3, [...ends, between(B, C, 1, 4)])).toEqual([
      [6, 7],
      [10, 11],
    ]));
  test('with BC 1 to 2 nothing fits', () => expect(domains(3, [...ends, between(B, C, 1, 2)])).toBeNull());

  // The example of two men on their way to work, from memory: Dechter, Meiri and Pearl, "Temporal constraint networks" (1991).
  test('leaving home, arriving and the talk between', () =>
    expect(
      domains(5, [
        between(0, 1, 10, 20),
        between(1, 2, 30, 40),
        between(3, 2, 10, 20),
        between(3, 4, 40, 50),
        between(0, 4, 60, 70),
      ]),
    ).toEqual([
      [10, 20],
      [40, 50],
      [20, 30],
      [60, 70],
    ]));

  // Worked out by hand: the first man's way ends by 60, so that the second one's begins by 50, and with 5 minutes he is there by 55.
  test('the same with a way of 5 minutes at most for the second man: nothing fits', () =>
    expect(
      domains(5, [
        between(0, 1, 10, 20),
        between(1, 2, 30, 40),
        between(3, 2, 10, 20),
        between(3, 4, 0, 5),
        between(0, 4, 60, 70),
      ]),
    ).toBeNull());
});

describe('the planner on the same problems', () => {
  /** A at minute 0; C is the only one that takes hands, and they are there in the minutes in which C may be. */
  const chain = (mostToC: number): GridAsk => ({
    steps: [
      { handsMinutes: 0, wait: { fromMinutes: 4, untilMinutes: 7, speed: null } },
      { handsMinutes: 0, wait: { fromMinutes: 1, untilMinutes: mostToC, speed: null } },
      { handsMinutes: 1, wait: null },
    ],
    begin: { from: 0, until: 0 },
    staffed: [{ from: 10, until: 13 }],
    busy: [],
    readyBy: 100,
    conditions: under(),
  });
  test('AB 4 to 7, BC 1 to 4, AC 10 to 13: from 0, 6, 10 to 0, 7, 11', () => {
    expect(earliest(chain(4))).toMatchObject({ starts: [0, 6, 10] });
    expect(latest(chain(4))).toMatchObject({ starts: [0, 7, 11] });
  });
  test('with BC 1 to 2 it is the last that cannot be reached', () => {
    expect(earliest(chain(2))).toMatchObject({ why: 'no-start', step: 2 });
    expect(latest(chain(2))).toMatchObject({ why: 'no-start', step: 2 });
  });

  test('any chain of waits in one long shift: the ends of the minimal network', () => {
    const least = fc.integer({ min: 0, max: 300 });
    const wait = fc.record({ least, width: fc.oneof(fc.integer({ min: 0, max: 120 }), fc.constant(Number.POSITIVE_INFINITY)) });
    const steps = fc.array(fc.record({ hands: fc.integer({ min: 0, max: 90 }), wait }), { minLength: 1, maxLength: 7 });
    const [seen, fits] = [{ all: 0 }, { all: 0 }];
    fc.assert(
      fc.property(
        steps,
        fc.record({ from: fc.integer({ min: 0, max: 500 }), width: fc.integer({ min: 0, max: 500 }) }),
        fc.record({ from: fc.integer({ min: 0, max: 600 }), long: fc.integer({ min: 1, max: 2500 }) }),
        fc.integer({ min: 0, max: 3000 }),
        (chained, begin, shift, readyBy) => {
          const ask: GridAsk = {
            steps: chained.map(({ hands, wait: { least: fromMinutes, width } }) => ({
              handsMinutes: hands,
              wait: { fromMinutes, untilMinutes: width === Number.POSITIVE_INFINITY ? null : fromMinutes + width, speed: null },
            })),
            begin: { from: begin.from, until: begin.from + begin.width },
            staffed: [{ from: shift.from, until: shift.from + shift.long - 1 }],
            busy: [],
            readyBy,
            conditions: under(),
          };
          // Point 0 is the epoch, point i + 1 the start of step i.
          const last = chained.length;
          const constraints = chained.flatMap(({ hands, wait: { least: after, width } }, index) => [
            ...(hands > 0 ? [between(0, index + 1, shift.from, shift.from + shift.long - hands)] : []),
            index + 1 < last
              ? between(index + 1, index + 2, hands + after, hands + after + width)
              : between(0, index + 1, 0, readyBy - hands - after),
          ]);
          const expected = domains(last + 1, [between(0, 1, begin.from, begin.from + begin.width), ...constraints]);
          seen.all += 1;
          if (expected === null) {
            expect(earliest(ask)).toHaveProperty('step');
            expect(latest(ask)).toHaveProperty('step');
            return;
          }
          fits.all += 1;
          expect(earliest(ask)).toMatchObject({ starts: expected.map(([least]) => least) });
          expect(latest(ask)).toMatchObject({ starts: expected.map(([, most]) => most) });
        },
      ),
      { numRuns: 2000 },
    );
    expect(fits.all / seen.all).toBeGreaterThan(0.2);
    expect(fits.all / seen.all).toBeLessThan(0.8);
  });
});

describe('the critical path', () => {
  /** Activities by name: how long each takes, and which come before it. Earliest and latest starts for the shortest whole. */
  function startsOf(activities: Readonly<Record<string, readonly [long: number, ...before: string[]]>>) {
    const names = Object.keys(activities);
    const point = (name: string) => names.indexOf(name) + 1;
    const end = names.length + 1;
    const all = Object.entries(activities).flatMap(([name, [long, ...before]]) => [
      between(0, point(name), 0),
      between(point(name), end, long),
      ...before.map((other) => between(point(other), point(name), (activities[other] as readonly [number])[0])),
    ]);
    const whole = minimalNetwork(end + 1, all)?.[0]?.[end]?.[0] as number;
    const network = minimalNetwork(end + 1, [...all, between(0, end, whole, whole)]);
    return { whole, starts: Object.fromEntries(names.map((name) => [name, network?.[0]?.[point(name)]])) };
  }

  // F. S. Hillier and G. J. Lieberman, "Introduction to Operations Research", the contractor's project, from memory.
  test('a building of fourteen activities takes 44 weeks', () =>
    expect(
      startsOf({
        A: [2],
        B: [4, 'A'],
        C: [10, 'B'],
        D: [6, 'C'],
        E: [4, 'C'],
        F: [5, 'E'],
        G: [7, 'D'],
        H: [9, 'E', 'G'],
        I: [7, 'C'],
        J: [8, 'F', 'I'],
        K: [4, 'J'],
        L: [5, 'J'],
        M: [2, 'H'],
        N: [6, 'K', 'L'],
      }),
    ).toEqual({
      whole: 44,
      starts: {
        A: [0, 0],
        B: [2, 2],
        C: [6, 6],
        D: [16, 20],
        E: [16, 16],
        F: [20, 20],
        G: [22, 26],
        H: [29, 33],
        I: [16, 18],
        J: [25, 25],
        K: [33, 34],
        L: [33, 33],
        M: [38, 42],
        N: [38, 38],
      },
    }));

  // The encyclopaedia article "Program evaluation and review technique" (Wikipedia), its example of seven activities, from memory.
  test('seven activities take 19.51 days; here in hundredths of a day', () =>
    expect(
      startsOf({
        a: [400],
        b: [533],
        c: [517, 'a'],
        d: [633, 'a'],
        e: [517, 'b', 'c'],
        f: [450, 'd'],
        g: [517, 'e'],
      }),
    ).toEqual({
      whole: 1951,
      starts: { a: [0, 0], b: [0, 384], c: [400, 400], d: [400, 868], e: [917, 917], f: [1033, 1501], g: [1434, 1434] },
    }));
});
