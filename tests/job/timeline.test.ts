import { describe, expect, test } from 'vitest';
import { timelineOf } from '../../src/job/timeline.ts';
import { under } from '../support/conditions.ts';
import {
  closed,
  cure,
  decided,
  did,
  fixed,
  given,
  held,
  poured,
  recoat,
  STEPS,
  started,
  step,
  t,
  touched,
} from '../support/given.ts';

const first = given(started(), did('seal', '08:30'), did('coat-1', '09:00'));
const at = (history: typeof first, clock: string, day = 0) => timelineOf(history.job, under(), t(clock, day));
const states = (history: typeof first, clock: string) => at(history, clock).map((entry) => entry.state);

describe('timeline', () => {
  test('each step once, in order', () =>
    expect(at(first, '09:10').map((entry) => entry.step)).toEqual(STEPS.map((each) => each.id)));

  test.each([
    ['09:10', first, 'waiting'],
    ['09:45', first, 'open'],
    ['12:00', first, 'open'],
    ['12:01', first, 'missed'],
    ['10:00', first.and(poured('cup-1', 'coat-2', '09:50')), 'begun'],
    ['12:30', first.and(poured('cup-1', 'coat-2', '11:55')), 'begun'],
    ['12:30', first.and(poured('cup-1', 'coat-2', '09:50')), 'missed'],
    ['12:30', first.and(poured('cup-1', 'coat-2', '12:10')), 'missed'],
    ['10:00', first.and(touched('coat-1', 'past', '10:00')), 'missed'],
    ['09:50', first.and(touched('coat-1', 'not-yet', '09:45')), 'waiting'],
    ['09:20', first.and(touched('coat-1', 'ready', '09:20')), 'open'],
    ['13:00', first.and(decided('coat-2', 'abrade', '13:00')), 'open'],
  ])('at %s', (clock, history, state) =>
    expect(states(history, clock)).toEqual(['done', 'done', state, 'later', 'later', 'later']),
  );

  test('on hold, closed', () => {
    expect(states(first.and(held('09:10')), '09:20')).toEqual(['done', 'done', 'held', 'held', 'held', 'held']);
    expect(states(first.and(closed('09:10')), '09:20')).toEqual(['done', 'done', 'dropped', 'dropped', 'dropped', 'dropped']);
  });

  test('what is done was worked at for its hands-on minutes, or since its cup was poured', () => {
    expect(at(first, '09:10')[1]).toMatchObject({ startsAt: t('08:45'), endsAt: t('09:00'), opensAt: null, closesAt: null });
    const cup = first.and(poured('cup-1', 'coat-2', '09:50'), did('coat-2', '10:15'));
    expect(at(cup, '10:20')[2]).toMatchObject({ startsAt: t('09:50'), endsAt: t('10:15') });
  });

  test('what is to come is put as early as it can be', () => {
    const [, , second, third, trim, wax] = at(first, '09:10');
    expect(second).toMatchObject({ startsAt: t('09:45'), endsAt: t('10:00'), opensAt: t('09:45'), closesAt: t('12:00') });
    expect(third).toMatchObject({ startsAt: t('10:45'), endsAt: t('11:00'), opensAt: t('10:45'), closesAt: t('13:00') });
    expect(trim).toMatchObject({ startsAt: t('03:00', 1), opensAt: t('03:00', 1), closesAt: null });
    expect(wax).toMatchObject({ startsAt: t('03:15', 1) });
  });

  test('late, everything moves along with the time that it is', () =>
    expect(at(first, '11:00').slice(2, 4)).toMatchObject([{ startsAt: t('11:00') }, { startsAt: t('12:00') }]));

  test('never a start before now, nor an end before its start', () => {
    for (const clock of ['08:00', '09:10', '11:00', '12:01', '23:00'])
      for (const entry of at(first, clock))
        if (entry.state !== 'done') {
          expect(entry.startsAt).toBeGreaterThanOrEqual(t(clock));
          expect(entry.endsAt).toBeGreaterThanOrEqual(entry.startsAt ?? 0);
        }
  });

  describe('behind a wait of which no clock can tell', () => {
    const usable = { fromCelsius: 15, untilCelsius: 32 };
    const steps = [
      step('seal', fixed(15)),
      step('a', recoat(45, 180), { usable }),
      step('b', recoat(45, 180), { usable }),
      step('c', cure(60)),
      step('d'),
    ];
    const cold = under([{ at: t('07:00'), celsius: 8 }]);
    const times = (history: typeof first, clock: string) =>
      timelineOf(history.job, cold, t(clock))
        .filter(({ state }) => state !== 'done')
        .map(({ step: id, state, startsAt, endsAt, opensAt, closesAt }) => [id, state, startsAt, endsAt, opensAt, closesAt]);
    const untold = [null, null, null, null];

    test('the next step has no times, nor has any later one', () =>
      expect(times(given(started('08:00', { steps }), did('seal', '08:00'), did('a', '08:30')), '09:00')).toEqual([
        ['b', 'touch', ...untold],
        ['c', 'later', ...untold],
        ['d', 'later', ...untold],
      ]));
    test('the steps after one that can go on have none', () =>
      expect(times(given(started('08:00', { steps }), did('seal', '08:00')), '09:00')).toEqual([
        ['a', 'open', t('09:00'), t('09:15'), t('08:15'), null],
        ['b', 'later', ...untold],
        ['c', 'later', ...untold],
        ['d', 'later', ...untold],
      ]));
  });
});
