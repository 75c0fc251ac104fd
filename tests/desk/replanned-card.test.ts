import { describe, expect, test } from 'vitest';
import type { BenchEvent } from '../../src/bench/events.ts';
import type { Studio } from '../../src/bench/studio.ts';
import { type Card, card } from '../../src/chat/card.ts';
import { plainText } from '../../src/chat/plain.ts';
import { replanned } from '../../src/desk/replanning.ts';
import type { PlannedStep } from '../../src/job/events.ts';
import { say } from '../../src/words/text.ts';
import { cure, did, ended, given, noted, poured, recoat, started, step, t } from '../support/given.ts';
import { hours, studio } from '../support/studio.ts';

/** One pair of hands from 08:00 until 16:00. All times below are worked out by hand. */
const ONE = studio({
  shifts: { hours: [hours('08:00-16:00')], days: [1, 2, 3, 4, 5] },
  duty: { always: ['ann'], byShift: {} },
  hands: { all: 1, byShift: {} },
});
const TWO: Studio = { ...ONE, hands: { all: 2, byShift: {} } };
const job = (id: string, steps: readonly PlannedStep[], at = '08:00', readyBy: number | null = null): BenchEvent => {
  const start = started(at, { job: id, steps });
  if (start.type !== 'JobStarted') throw new Error('a job starts');
  return { ...start, name: id, planned: readyBy === null ? null : { beginsAt: start.at, readyBy } };
};
/** `b`, of 15 minutes, opens at 12:45, and then it is ready. */
const open = (id: string, most = 180): BenchEvent[] => [
  job(id, [step('a', recoat(45, most)), step('b')]),
  did('a', '12:00', { job: id }),
];
/** Hands that are at it from 12:10 on. */
const busy = (handsMinutes: number, id = 'owl'): BenchEvent[] => [
  job(id, [step('cast', null, { handsMinutes })]),
  poured(`cup-${id}`, 'cast', '12:10', { job: id, potLife: handsMinutes }),
];
const stateOf = (...events: BenchEvent[]) => given(...events).state;
interface Said {
  readonly shown?: Card;
  /** The studio afterwards. */
  readonly to?: Studio;
  readonly now?: string;
}
const answer = (
  before: BenchEvent[],
  more: BenchEvent[],
  { shown = card(say`Done.`, [], {}), to = ONE, now = '12:10' }: Said = {},
): Card => {
  const state = stateOf(...before);
  const next = more.length === 0 ? state : stateOf(...before, ...more);
  return replanned(shown, { state, studio: ONE }, { state: next, studio: to }, t(now));
};
const words = ({ lines }: Card) => lines.map((line) => plainText(line, { zone: 'Etc/UTC', now: t('12:10') }));

describe('when it is ready', () => {
  test('is told where the hands are others, by a quarter of an hour or more', () => {
    const lion = (until: number) => words(answer([...open('lion'), ...busy(until)], [], { to: TWO }));
    expect(lion(50)).toEqual(['As planned lion is ready 13:00, no longer 13:15.']);
    expect(lion(49)).toEqual([]);
  });
  test('is told where another temperature is expected', () => {
    const speed = { law: { law: 'q10' as const, q10: 2 }, referenceCelsius: 23 };
    const curing = [job('lion', [step('a', cure(60, speed)), step('b')]), did('a', '12:00')];
    const cool: BenchEvent = {
      version: 1,
      at: t('12:00'),
      enteredAt: t('12:00'),
      by: 'ann',
      type: 'TemperatureExpected',
      dayCelsius: 13,
      nightCelsius: 13,
      day: hours('07:00-19:00'),
      zone: 'Etc/UTC',
    };
    expect(words(answer(curing, [cool]))).toEqual(['As planned lion is ready 14:15, no longer 13:15.']);
  });
  test('is not told where another job alone has moved it', () =>
    expect(words(answer([...open('lion'), ...busy(50)], [ended('cup-owl', 'discarded', '12:10', { job: 'owl' })]))).toEqual([]));
  test('is told of a job that has gone on, and of one that was only written about it is not', () => {
    const two = [job('lion', [step('a', recoat(45, 180)), step('b')])];
    expect(words(answer(two, [did('a', '12:00')]))).toEqual(['As planned it is ready 13:00.']);
    expect(words(answer([...two, did('a', '12:00')], [noted('thin', '12:05')]))).toEqual([]);
  });
  test('of many jobs three are told', () => {
    const many = ['lion', 'fox', 'hen', 'cat'].flatMap((id) => open(id, 300));
    expect(words(answer([...busy(50), ...many], [], { to: { ...ONE, hands: { all: 5, byShift: {} } } }))).toHaveLength(3);
  });
  test('is not told beside a promise that it breaks', () => {
    const slow = [job('lion', [step('a', cure(45)), step('b'), step('c', cure(120))], '08:00', t('14:20')), did('a', '11:00')];
    const broken = words(answer(slow, [did('b', '12:05')]));
    expect(broken[0]).toBe('lion is ready 14:25, and was to be ready by 14:20.');
  });
});

describe('a job that is entered', () => {
  const entered = (minutes: number) => words(answer(busy(minutes), [job('lion', [step('a')], '12:10')]));
  test('is told when it is ready; that it waits for hands, its own card says', () => {
    expect(entered(6)).toEqual(['As planned it is ready 12:31.']);
    expect(entered(5)).toEqual(['As planned it is ready 12:30.']);
  });
});

describe('what does not fit any more', () => {
  /** `b` has to begin at 12:45, when the owl’s hands are at it. */
  const lion = open('lion', 45);
  test('is said anew where another job is in the way', () => {
    const clash = [job('fox', [step('cast', null, { handsMinutes: 60 })]), ...lion, ...busy(60)];
    const gone = ended('cup-owl', 'spent', '12:20', { job: 'owl' });
    const next = [did('cast', '12:20', { job: 'owl' }), poured('cup-fox', 'cast', '12:20', { job: 'fox', potLife: 60 })];
    // Of the job that is told about it is said again, in few words; of another it is not.
    expect(words(answer(clash, [noted('thin', '12:20')], { now: '12:20' }))).toEqual([
      'Still: no hands for b of lion, beside owl.',
    ]);
    expect(words(answer(clash, [noted('thin', '12:20', { job: 'fox' })], { now: '12:20' }))).toEqual([]);
    expect(words(answer(clash, [gone, ...next], { now: '12:20' })).join(' ')).toContain('b of lion clashes with fox');
  });
  test('keeps the buttons of its card but the last, which makes room for what would do', () => {
    const own = ['One', 'Two', 'Three'].map((label) => ({ label, command: 'board', options: {} }));
    const shown = card(say`Done.`, [say`First.`], { buttons: own, tone: 'late', data: { job: 'owl' } });
    const late = answer([...lion, job('owl', [step('cast', null, { handsMinutes: 60 })])], [busy(60)[1] as BenchEvent], {
      shown,
    });
    expect(late.buttons.map(({ label }) => label)).toEqual(['One', 'Two', expect.stringMatching(/person/)]);
    expect([late.tone, words(late)[0]]).toEqual(['late', 'First.']);
    expect(late.data).toMatchObject({ job: 'owl', troubles: [{ job: 'lion', step: 'b' }] });
    expect(answer(lion, [...busy(60)], { shown: { ...shown, tone: 'go' } }).tone).toBe('soon');
  });
  test('fits again where the hands are free again, and that is said once', () =>
    expect(
      words(answer([...lion, ...busy(60)], [ended('cup-owl', 'discarded', '12:20', { job: 'owl' })], { now: '12:20' })),
    ).toEqual(['lion fits again: b 12:45, ready 13:00.']));
  test('is in time again where there are more hands, and no other line says when it is ready', () => {
    const promised = [job('lion', [step('a', recoat(45, 180)), step('b')], '08:00', t('13:00')), did('a', '12:00')];
    expect(words(answer([...promised, ...busy(50)], [], { to: TWO }))).toEqual(['lion is in time again: ready 13:00.']);
  });
  test('nothing is added where nothing was told', () => {
    const shown = card(say`Done.`, [], {});
    expect(answer([...lion, ...busy(60)], [], { shown })).toBe(shown);
  });
});
