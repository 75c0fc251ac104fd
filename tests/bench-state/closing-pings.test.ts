import { describe, expect, test } from 'vitest';
import type { BenchEvent } from '../../src/bench/events.ts';
import { type Ping, pingsOf } from '../../src/bench/pings.ts';
import type { Studio } from '../../src/bench/studio.ts';
import { did, given, noted, poured, recoat, sent, started, step, t } from '../support/given.ts';
import { hours, studio } from '../support/studio.ts';

/** One pair of hands, from 08:00 until then; ann and bob are on duty. All times below are worked out by hand. */
const until = (end: string, more: Partial<Studio> = {}) =>
  studio({
    shifts: { hours: [hours(`08:00-${end}`)], days: [1, 2, 3, 4, 5] },
    hands: { all: 1, byShift: {} },
    ...more,
  });
/** `b` opens at 12:45 and closes at 15:00; it takes 15 minutes, and 45 later `c` takes 15 more. */
const CHAIN = [step('a', recoat(45, 180)), step('b', recoat(45, 180)), step('c')];
const lion = (...more: BenchEvent[]) => given(started('08:00', { steps: CHAIN }), did('a', '12:00'), ...more);
const pings = (history: ReturnType<typeof lion>, on: Studio): Ping[] => pingsOf(history.state, on, t('12:00'));
const closing = (history: ReturnType<typeof lion>, on: Studio) =>
  pings(history, on)
    .filter(({ kind }) => kind === 'plan-closing')
    .map(({ dueAt }) => dueAt);

describe('a next step that must begin sooner than its window closes', () => {
  test.each([
    // By 14:45, two hours after it opens: of a quarter of that no more than half an hour.
    ['16:00', t('14:15')],
    // By 13:45: a quarter of an hour.
    ['15:00', t('13:30')],
    // By 12:50: five minutes at least, so at once; by 12:49 nobody could act upon it.
    ['14:05', t('12:45')],
    ['14:04', undefined],
    // By 14:55, five minutes before its own window; a minute later, that rings for both.
    ['16:10', t('14:25')],
    ['16:11', undefined],
  ])('with a shift until %s', (end, due) => expect(closing(lion(), until(end))).toEqual(due === undefined ? [] : [due]));

  test('what was told last counts as the opening: half an hour before, a quarter of it', () => {
    expect(closing(lion(noted('thin', '14:15')), until('16:00'))).toEqual([t('14:37') + 30_000]);
    expect(closing(lion(noted('thin', '14:40')), until('16:00'))).toEqual([t('14:40')]);
    expect(closing(lion(noted('thin', '14:41')), until('16:00'))).toEqual([]);
  });

  test('unanswered it rings louder as long as it can still be begun', () => {
    const [ping] = pings(lion(), until('16:00')).filter(({ kind }) => kind === 'plan-closing') as [Ping];
    expect(ping).toMatchObject({ job: 'lion', step: 'b', until: t('14:45'), to: ['dana'] });
    const again = (at: string, graceMinutes: number) =>
      pings(lion(sent(ping, at)), until('16:00', { graceMinutes })).filter(
        ({ base, why }) => base === ping.id && why === 'unanswered',
      );
    expect(again('14:15', 29).map(({ dueAt, to }) => [dueAt, to])).toEqual([[t('14:44'), ['dana', 'ann', 'bob']]]);
    expect(again('14:15', 30)).toEqual([]);
  });
});

describe('a job that was started as planned', () => {
  /** Hands are at the owl until 14:40, so `b`, open from 12:45 on, is planned for then. */
  const owl: BenchEvent[] = [
    started('08:00', { job: 'owl', steps: [step('cast', null, { handsMinutes: 150 })] }),
    poured('cup-1', 'cast', '12:10', { job: 'owl', potLife: 150 }),
  ];
  const head = (planned: boolean): BenchEvent => {
    const start = started('08:00', { steps: CHAIN });
    return start.type === 'JobStarted' && planned ? { ...start, planned: { beginsAt: start.at, readyBy: null } } : start;
  };
  const due = (planned: boolean, on: Studio) =>
    Object.fromEntries(
      pings(given(head(planned), did('a', '12:00'), ...owl), on)
        .filter(({ job }) => job === 'lion')
        .map(({ kind, dueAt }) => [kind, dueAt]),
    );
  const untold = { 'recoat-closing': t('14:30'), 'recoat-missed': t('15:00') };

  test('rings when its step is planned; that its window closes, it rings all the same', () => {
    expect(due(true, until('23:00'))).toEqual({ 'recoat-open': t('14:40'), ...untold });
    expect(due(false, until('23:00'))).toEqual({ 'recoat-open': t('12:45'), ...untold });
  });
  test('where no shifts are kept it rings when it could begin', () => {
    const anyTime = until('23:00', { shifts: { hours: [], days: [1, 2, 3, 4, 5, 6, 7] } });
    expect(due(true, anyTime)).toEqual({ 'recoat-open': t('12:45'), ...untold });
  });
});
