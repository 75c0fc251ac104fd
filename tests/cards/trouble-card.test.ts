import { describe, expect, test } from 'vitest';
import type { BenchEvent } from '../../src/bench/events.ts';
import { planBench, type Trouble } from '../../src/bench/planning/plan-bench.ts';
import type { Studio } from '../../src/bench/studio.ts';
import { shortTroubles, tellTroubles, troubleWords } from '../../src/cards/trouble-card.ts';
import { plainText } from '../../src/chat/plain.ts';
import type { PlannedStep } from '../../src/job/events.ts';
import { cure, did, given, recoat, started, step, t } from '../support/given.ts';
import { hours, studio } from '../support/studio.ts';

/** One pair of hands from 08:00 until 16:00, Monday to Friday. All times below are worked out by hand. */
const works = (more: Partial<Studio> = {}) =>
  studio({
    shifts: { hours: [hours('08:00-16:00')], days: [1, 2, 3, 4, 5] },
    duty: { always: ['ann'], byShift: {} },
    hands: { all: 1, byShift: {} },
    ...more,
  });
type Planned = { readonly beginsAt: number; readonly readyBy: number | null };
const job = (id: string, steps: readonly PlannedStep[], planned: Planned | null = null): BenchEvent => {
  const start = started('08:00', { job: id, steps });
  return start.type === 'JobStarted' ? { ...start, name: id, planned } : start;
};
/** Its next step, of 15 minutes, may begin so many minutes after 12:00 and then alone. */
const just = (id: string, minutes: number): BenchEvent[] => [
  job(id, [step('a', recoat(minutes, minutes)), step('b')]),
  did('a', '12:00', { job: id }),
];
const read = (text: Parameters<typeof plainText>[0]) => plainText(text, { zone: 'Etc/UTC', now: t('12:00') });
const troublesOf = (at: string, on: Studio, ...events: BenchEvent[]) => planBench(given(...events).state, on, t(at)).troubles;
const told = (at: string, on: Studio, ...events: BenchEvent[]) => {
  const plan = planBench(given(...events).state, on, t(at));
  const { lines, ways } = tellTroubles(plan.troubles, plan, on, t(at));
  return { lines: lines.map(read), ways };
};

describe('what was planned and does not fit', () => {
  test('a promise: by the start that was planned it is broken, and a later end is offered by the minute', () => {
    // 15 minutes and two hours from 10:00 on.
    const { lines, ways } = told(
      '08:05',
      works(),
      job('owl', [step('a', cure(120))], { beginsAt: t('10:00'), readyBy: t('12:00') }),
    );
    expect(lines[0]).toBe('Begun as it was planned, owl is ready 12:15, and was to be ready by 12:00.');
    expect(ways).toContainEqual({
      label: 'Ready by 12:15',
      command: 'job plan',
      options: { job: 'owl', 'ready-by': '2026-03-02 12:15' },
    });
    // Once it has begun no plan is spoken of.
    const begun = [
      job('owl', [step('a'), step('b', cure(120))], { beginsAt: t('08:00'), readyBy: t('12:00') }),
      did('a', '10:00', { job: 'owl' }),
    ];
    expect(told('10:00', works(), ...begun).lines[0]).toBe('owl is ready 12:15, and was to be ready by 12:00.');
  });
  test('a step longer than any shift', () => {
    const ten = job('owl', [step('a', null, { handsMinutes: 600 })], { beginsAt: t('10:00'), readyBy: null });
    expect(told('08:05', works(), ten).lines[0]).toBe('owl does not fit as it was planned.');
  });
});

describe('two at the same minute', () => {
  const both = (minutes: number) => [...just('owl', minutes), ...just('fox', minutes)];
  test('without shifts: one pair of hands more than are on duty', () => {
    const anyTime = (more: Partial<Studio>) => works({ shifts: { hours: [], days: [1, 2, 3, 4, 5, 6, 7] }, ...more });
    const way = (count: string) => [{ label: 'One more pair of hands', command: 'shift hands', options: { count } }];
    expect(told('12:00', anyTime({}), ...both(45)).ways).toEqual(way('2'));
    expect(told('12:00', anyTime({ hands: { all: null, byShift: {} } }), ...both(45)).ways).toEqual(way('2'));
    const two = { hands: { all: null, byShift: {} }, duty: { always: ['ann', 'bob'], byShift: {} } };
    expect(told('12:00', anyTime(two), ...both(45), ...just('hen', 45)).ways).toEqual(way('3'));
  });
  test('where somebody comes for that very time already, one more than that', () => {
    const extras = [{ from: t('16:00'), until: t('16:15'), hands: 1 }];
    expect(told('12:00', works({ extras }), ...both(240)).ways).toEqual([
      expect.objectContaining({ command: 'shift extra', options: { on: '2026-03-02', hours: '16:00-16:15', hands: '2' } }),
    ]);
    expect(told('12:00', works(), ...just('owl', 240)).ways).toEqual([
      expect.objectContaining({ command: 'shift extra', options: { on: '2026-03-02', hours: '16:00-16:15', hands: '1' } }),
    ]);
  });
});

test('hands that another job takes at once are offered to that one alone', () => {
  // Both begin at 16:00 or never, and one more pair of hands does for one of them.
  const events = [...just('owl', 240), ...just('fox', 240)];
  const plan = planBench(given(...events).state, works(), t('12:00'));
  const { data, ways } = tellTroubles(plan.troubles, plan, works(), t('12:00'));
  const kinds = (data as { job: string; changes: { kind: string }[] }[]).map(({ job: id, changes }) => [
    id,
    ...changes.map(({ kind }) => kind),
  ]);
  expect(kinds).toHaveLength(2);
  expect(kinds).toContainEqual(['owl', 'hands']);
  expect(kinds).toContainEqual(['fox']);
  expect(ways).toHaveLength(1);
});

describe('in few words', () => {
  const many = ['owl', 'fox', 'hen', 'cat'].flatMap((id) => just(id, 300));
  test('three troubles are told, of more the first three', () => {
    const troubles = troublesOf('12:00', works(), ...many);
    expect(troubles).toHaveLength(4);
    expect(shortTroubles(troubles, works())).toHaveLength(3);
    expect(shortTroubles(troubles.slice(0, 2), works()).map(read)).toEqual([
      expect.stringMatching(/^b of owl does not fit any more\. b can only begin at 17:00, and nobody is on shift/),
      expect.stringMatching(/^b of fox /),
    ]);
  });
  test('three jobs that are in the way are named', () => {
    const [trouble] = troublesOf('12:00', works(), ...many) as [Trouble];
    const clash = ['hen', 'cat', 'dog', 'elk'].map((name) => ({ job: name, name }));
    expect(shortTroubles([{ ...trouble, clash }], works()).map(read)[0]).toMatch(/^b of owl clashes with hen, cat and dog: /);
  });
  test.each([
    [
      { kind: 'nobody', window: { from: 0, until: 0 }, goneAt: null, backAt: t('16:00') },
      'b does not fit: nobody on shift until 16:00',
    ],
    [{ kind: 'nobody', window: { from: 0, until: 0 }, goneAt: null, backAt: null }, 'b does not fit: nobody on shift'],
    [{ kind: 'busy', window: { from: 0, until: 0 }, by: [] }, 'b does not fit: all hands are at work'],
    [
      { kind: 'too-long', window: { from: 0, until: 0 }, handsMinutes: 9, goneAt: t('16:00') },
      'b does not fit: the shift ends at 16:00',
    ],
    [{ kind: 'outside', celsius: 9, after: null }, 'b cannot be told: too cold or too warm'],
  ] as const)('%j in a picture', (cause, words) => {
    const [trouble] = troublesOf('12:00', works(), ...many) as [Trouble];
    expect(troubleWords({ ...trouble, cause }, works(), t('12:00'))).toEqual({ job: 'owl', step: 'b', words });
  });
});
