import fc from 'fast-check';
import { DateTime } from 'luxon';
import type { BenchEvent } from '../../src/bench/events.ts';
import type { BenchState } from '../../src/bench/fold.ts';
import type { Studio } from '../../src/bench/studio.ts';
import type { PlannedStep } from '../../src/job/events.ts';
import { type Hours, hoursText, MINUTE } from '../../src/trade/time/calendar.ts';
import type { Speed } from '../../src/trade/time/cure.ts';
import { cure, fixed, given, RUBBER, recoat, step } from '../support/given.ts';
import { studio } from '../support/studio.ts';

/** Around noon, by Berlin's clock, of an ordinary Monday and of the days before its two nights with a change of the clocks. */
const DATES = ['2026-03-02T11:00Z', '2026-03-28T11:00Z', '2026-10-24T10:00Z'].map((date) => Date.parse(date));
export const ZONE = 'Europe/Berlin';
/** The studio is closed from then on, so that all minutes can be looked at. */
export const DAYS_STAFFED = 4;

export interface Bench {
  readonly now: number;
  readonly studio: Studio;
  /** By job, in the order of their start. */
  readonly jobs: readonly (readonly BenchEvent[])[];
  readonly told: readonly BenchEvent[];
}

export const stateOf = ({ jobs, told }: Pick<Bench, 'jobs' | 'told'>): BenchState => given(...told, ...jobs.flat()).state;

const between = (min: number, max: number) => fc.integer({ min, max });
const hours = (from: number, until: number): Hours => ({ fromMinute: from * 60, untilMinute: (until % 24) * 60 });
const PATTERNS: readonly (readonly Hours[])[] = [
  [hours(8, 16)],
  [hours(6, 14), hours(14, 22)],
  [hours(6, 15), hours(13, 22)],
  [hours(22, 6)],
  [hours(7, 12), hours(13, 17)],
  [hours(0, 24)],
];

const isoOn = (at: number, days: number) => DateTime.fromMillis(at, { zone: ZONE }).plus({ days }).toISODate() ?? '';
const CLOSED_DAYS = 100;

const toldHours = (longest: number, maxLength = 2) =>
  fc.array(fc.record({ from: between(-300, 4000), long: between(1, longest), hands: between(1, 2) }), { maxLength });
const toldAfter = (now: number, { from, long, hands }: { from: number; long: number; hands: number }) => {
  const begins = Math.floor(now / MINUTE) + from;
  return { from: begins * MINUTE, until: (begins + long) * MINUTE, hands };
};

const studios = (now: number): fc.Arbitrary<Studio> =>
  fc
    .record({
      pattern: fc.oneof({ weight: 8, arbitrary: fc.constantFrom(...PATTERNS) }, { weight: 1, arbitrary: fc.constant([]) }),
      all: fc.constantFrom(null, 1, 1, 2, 3),
      first: fc.constantFrom(null, null, 1, 2),
      always: fc.constantFrom([], ['ann'], ['ann', 'bob']),
      holiday: fc.constantFrom(null, null, 0, 1),
      extras: toldHours(300),
      missing: fc.oneof({ weight: 2, arbitrary: toldHours(600, 0) }, { weight: 1, arbitrary: toldHours(600) }),
    })
    .map(({ pattern, all, first, always, holiday, extras, missing }) => {
      const closed = Array.from({ length: CLOSED_DAYS }, (_, day) => isoOn(now, day + DAYS_STAFFED));
      const [shift] = pattern;
      return studio({
        zone: ZONE,
        shifts: {
          hours: pattern,
          days: [1, 2, 3, 4, 5, 6, 7],
          closed: [...(holiday === null ? [] : [isoOn(now, holiday)]), ...closed],
        },
        duty: { always, byShift: {} },
        hands: { all, byShift: shift && first !== null ? { [hoursText(shift)]: first } : {} },
        extras: extras.map((told) => toldAfter(now, told)),
        missing: missing.map((told) => toldAfter(now, told)),
      });
    });

const SPEED: Speed = { law: { law: 'q10', q10: 2 }, referenceCelsius: 23 };
const USABLE = { fromCelsius: 15, untilCelsius: 32 };
const speeds = fc.constantFrom(null, SPEED, SPEED);
const waits: fc.Arbitrary<PlannedStep['wait']> = fc.oneof(
  { weight: 1, arbitrary: fc.constant(null) },
  { weight: 2, arbitrary: between(0, 90).map((from) => fixed(from)) },
  {
    weight: 8,
    arbitrary: fc
      .record({ from: between(0, 200), width: fc.oneof(between(0, 20), between(20, 60), between(60, 300)), speed: speeds })
      .map(({ from, width, speed }) => recoat(from, from + width, speed)),
  },
  { weight: 2, arbitrary: fc.record({ from: between(60, 1000), speed: speeds }).map(({ from, speed }) => cure(from, speed)) },
);
export const chains: fc.Arbitrary<PlannedStep[]> = fc
  .array(fc.record({ handsMinutes: fc.oneof(between(1, 60), fc.constantFrom(0, 7.5)), wait: waits }), {
    minLength: 1,
    maxLength: 5,
  })
  .map((list) =>
    list.map(({ handsMinutes, wait }, index) =>
      step(`step-${index + 1}`, wait, {
        handsMinutes,
        ...(wait === null || wait.kind === 'fixed' ? {} : { material: RUBBER, usable: USABLE }),
      }),
    ),
  );

const stamp = (at: number, now: number) => ({ version: 1 as const, at, enteredAt: Math.min(at, now), by: 'dana' });

/** A job at some place of its chain: so many steps done, a cup perhaps poured for the next one, or put on hold. */
const jobEvents = (now: number, id: string): fc.Arbitrary<readonly BenchEvent[]> =>
  fc
    .record({
      steps: chains,
      /** How long before now each step was done, the last one last. */
      ago: fc.array(between(0, 400), { maxLength: 4 }),
      seconds: between(0, 59),
      cup: fc.option(between(0, 30), { freq: 5 }),
      held: fc.constantFrom(false, false, false, false, false, false, false, true),
      touch: fc.option(fc.constantFrom('ready' as const, 'not-yet' as const, 'past' as const), { freq: 5 }),
      planned: fc.option(fc.record({ begins: between(0, 1500), readyBy: fc.option(between(100, 5000), { freq: 2 }) }), {
        freq: 2,
      }),
    })
    .map(({ steps: laid, ago, seconds, cup, held, touch, planned }): readonly BenchEvent[] => {
      const gone = ago.slice(0, laid.length - 1).sort((a, b) => b - a);
      const at = (minutes: number) => now - minutes * MINUTE - seconds * 1000;
      const begun = at((gone[0] ?? 0) + 30);
      const of = (when: number) => ({ ...stamp(when, now), job: id });
      const next = laid[gone.length];
      const last = laid[gone.length - 1];
      return [
        {
          ...of(begun),
          type: 'JobStarted',
          name: id,
          recipe: { id: 'example', name: 'An example', version: null },
          steps: [...laid],
          areaSquareMetres: null,
          volumeLitres: null,
          surface: null,
          holder: 'dana',
          planned:
            planned === null
              ? null
              : {
                  beginsAt: gone.length > 0 ? begun : now + planned.begins * MINUTE,
                  readyBy: planned.readyBy === null ? null : now + planned.readyBy * MINUTE,
                },
          extras: [],
        },
        ...gone.map(
          (minutes, index): BenchEvent => ({
            ...of(at(minutes)),
            type: 'StepDone',
            step: `step-${index + 1}`,
            note: null,
            offPlan: null,
          }),
        ),
        ...(touch !== null && last?.wait?.kind === 'recoat'
          ? [{ ...of(now), type: 'TackChecked' as const, step: last.id, result: touch }]
          : []),
        ...(cup !== null && next && cup <= (gone.at(-1) ?? 30)
          ? [
              {
                ...stamp(now - cup * MINUTE, now),
                type: 'CupStarted' as const,
                cup: `cup-${id}`,
                material: RUBBER,
                grams: 200,
                potLifeMinutes: 20,
                speed: null,
                usable: null,
                job: id,
                step: next.id,
              },
            ]
          : []),
        ...(held ? [{ ...of(now), type: 'JobHeld' as const, reason: null }] : []),
      ];
    });

const temperatures = (now: number): fc.Arbitrary<BenchEvent[]> =>
  fc
    .record({
      reads: fc.array(fc.record({ ago: between(0, 900), celsius: fc.oneof(between(16, 31), between(16, 31), between(10, 35)) }), {
        maxLength: 3,
      }),
      expected: fc.option(fc.record({ day: between(15, 30), night: between(8, 24), ago: between(0, 600) })),
    })
    .map(({ reads, expected }) => [
      ...reads
        .sort((a, b) => b.ago - a.ago)
        .map(({ ago, celsius }) => ({
          ...stamp(now - ago * MINUTE, now),
          type: 'TemperatureRead' as const,
          celsius,
          humidityPercent: null,
        })),
      ...(expected === null
        ? []
        : [
            {
              ...stamp(now - expected.ago * MINUTE, now),
              type: 'TemperatureExpected' as const,
              dayCelsius: expected.day,
              nightCelsius: expected.night,
              day: hours(7, 19),
              zone: ZONE,
            },
          ]),
    ]);

/** One pair of hands, and jobs whose windows are about to open and to close. */
export const crowded: fc.Arbitrary<Bench> = fc.constantFrom(...DATES).chain((now) =>
  fc.record({
    now: fc.constant(now),
    studio: studios(now).map((each) => ({ ...each, hands: { all: 1, byShift: {} }, extras: [], missing: [] })),
    jobs: fc.tuple(
      ...[1, 2, 3].map((number) =>
        fc
          .record({ ago: between(0, 40), from: between(0, 60), width: between(0, 15), hands: between(10, 50), more: chains })
          .map(({ ago, from, width, hands, more }): readonly BenchEvent[] => {
            const job = `job-${number}`;
            const laid = [step('first', recoat(from, from + width)), ...more.map((each) => ({ ...each, handsMinutes: hands }))];
            const began = { ...stamp(now - (ago + 20) * MINUTE, now), job };
            return [
              {
                ...began,
                type: 'JobStarted',
                name: job,
                recipe: { id: 'example', name: 'An example', version: null },
                steps: laid,
                areaSquareMetres: null,
                volumeLitres: null,
                surface: null,
                holder: 'dana',
                planned: null,
                extras: [],
              },
              { ...stamp(now - ago * MINUTE, now), job, type: 'StepDone', step: 'first', note: null, offPlan: null },
            ];
          }),
      ),
    ),
    told: fc.constant([]),
  }),
);

export const benches = (most = 6): fc.Arbitrary<Bench> =>
  fc
    .record({ date: fc.constantFrom(...DATES), after: between(-12 * 60, 20 * 60), milliseconds: fc.constantFrom(0, 20_500) })
    .chain(({ date, after, milliseconds }) => {
      const now = date + after * MINUTE + milliseconds;
      return fc.record({
        now: fc.constant(now),
        studio: studios(now),
        jobs: fc
          .integer({ min: Math.min(1, most), max: most })
          .chain((count) => fc.tuple(...Array.from({ length: count }, (_, index) => jobEvents(now, `job-${index + 1}`)))),
        told: temperatures(now),
      });
    });
