import { describe, expect, test } from 'vitest';
import { snooze } from '../../src/bench/decide.ts';
import { type Ping, pingsOf } from '../../src/bench/pings.ts';
import type { Studio } from '../../src/bench/studio.ts';
import {
  closed,
  did,
  ended,
  given,
  held,
  noted,
  offered,
  poured,
  sent,
  snoozed,
  started,
  t,
  taken,
  undid,
  warmed,
} from '../support/given.ts';
import { hours, studio } from '../support/studio.ts';

const first = given(started(), did('seal', '08:30'), did('coat-1', '09:00'));
type History = typeof first;

const all = (history: History, now = '09:10', at: Studio = studio(), day = 0) => pingsOf(history.state, at, t(now, day));
const of = (kind: Ping['kind'], pings: Ping[]) => pings.filter((ping) => ping.kind === kind);
const one = (kind: Ping['kind'], pings: Ping[]): Ping => {
  const found = of(kind, pings);
  expect(found).toHaveLength(1);
  return found[0] as Ping;
};
const openPing = one('recoat-open', all(first));
const rung = first.and(sent(openPing, '09:45'));
/** What repeats that ping. */
const again = (history: History, now: string) => all(history, now).filter((ping) => ping.base === openPing.id);

test('earliest first', () => {
  const dues = all(
    first.and(poured('cup-1', null, '09:05'), started('09:06', { job: 'owl' }), did('seal', '09:07', { job: 'owl' })),
  ).map((ping) => ping.dueAt);
  expect(dues).toHaveLength(6);
  expect(dues).toEqual([...dues].sort((a, b) => a - b));
});

describe('a cup', () => {
  const cup = (potLife: number) => all(first.and(poured('cup-1', null, '09:05', { by: 'kim', potLife })));

  test.each([
    // A quarter of the pot life before its end, but one minute at least and five at most.
    [20, '09:20', '09:25'],
    [8, '09:11', '09:13'],
    [60, '10:00', '10:05'],
    [2, '09:06', '09:07'],
  ])('of %d min', (potLife, low, over) => {
    expect([one('pot-low', cup(potLife)).dueAt, one('pot-over', cup(potLife)).dueAt]).toEqual([t(low), t(over)]);
    expect(one('pot-low', cup(potLife))).toMatchObject({ to: ['kim'], cup: 'cup-1', job: null });
  });

  test('of a job: its holder hears too', () =>
    expect(one('pot-low', all(first.and(poured('cup-1', 'coat-2', '09:50', { by: 'kim' }))))).toMatchObject({
      to: ['dana', 'kim'],
      job: 'lion',
      step: 'coat-2',
    }));

  test('spent, discarded, undone, or used up by the step that is done: silent', () => {
    const history = first.and(poured('cup-1', 'coat-2', '09:50'));
    for (const event of [
      ended('cup-1', 'spent', '09:55'),
      ended('cup-1', 'discarded', '09:55'),
      undid(4, '09:55'),
      did('coat-2', '09:55'),
    ]) {
      const pings = all(history.and(event), '09:56');
      expect([...of('pot-low', pings), ...of('pot-over', pings)]).toEqual([]);
    }
  });

  test('a warm bench shortens it', () => {
    const speed = { law: { law: 'q10', q10: 2 }, referenceCelsius: 23 } as const;
    const history = given(warmed(33, '08:00'), { ...poured('cup-1', null, '09:00'), speed } as ReturnType<typeof poured>);
    expect(one('pot-over', pingsOf(history.state, studio(), t('09:00'))).dueAt).toBe(t('09:10'));
  });
});

describe('unanswered', () => {
  test('after the grace time it goes to everybody on duty', () => {
    expect(one('recoat-open', all(rung, '09:46'))).toMatchObject({
      id: `${openPing.id}/all`,
      base: openPing.id,
      dueAt: t('09:55'),
      to: ['dana', 'ann', 'bob'],
      why: 'unanswered',
    });
    expect(one('recoat-open', all(rung, '09:46', studio({ graceMinutes: 25 }))).dueAt).toBe(t('10:10'));
  });

  test.each([
    ['the step done', did('coat-2', '09:50')],
    ['the cup poured', poured('cup-1', 'coat-2', '09:50')],
    ['a note', noted('starting in five minutes', '09:50')],
    ['on hold', held('09:50')],
    ['closed', closed('09:50')],
    ['taken over', taken('kim', '09:50')],
  ])('not if it was answered: %s', (_, event) => expect(again(rung.and(event), '09:51')).toEqual([]));

  test('something told of another job is no answer', () =>
    expect(of('recoat-open', all(rung.and(started('09:50', { job: 'owl' })), '09:51'))).toHaveLength(1));
  test('nobody else on duty: nothing louder', () =>
    expect(of('recoat-open', all(rung, '09:46', studio({ duty: { always: ['dana'], byShift: {} } })))).toEqual([]));
  test('it goes to those on duty when it gets loud, not when it rang', () => {
    const at = studio({
      shifts: { hours: [hours('06:00-09:50'), hours('09:50-18:00')], days: [1, 2, 3, 4, 5] },
      duty: { always: [], byShift: { '06:00-09:50': ['ann'], '09:50-18:00': ['bob'] } },
    });
    expect(one('recoat-open', all(rung, '09:46', at)).to).toEqual(['dana', 'bob']);
  });
  test('once only', () => {
    const louder = one('recoat-open', all(rung, '09:46'));
    expect(of('recoat-open', all(rung.and(sent(louder, '09:55')), '12:00'))).toEqual([]);
  });
  test('not when what it says would be wrong by then', () => {
    const closing = one('recoat-closing', all(rung));
    const late = rung.and(sent(closing, '11:55'));
    expect(of('recoat-closing', all(late, '11:56'))).toEqual([]);
  });
});

describe('snoozed', () => {
  test('it rings again at the time asked for, and to nobody else meanwhile', () =>
    expect(of('recoat-open', all(rung.and(snoozed(openPing.id, '10:05', '09:50')), '09:51'))).toMatchObject([
      { base: openPing.id, dueAt: t('10:05'), to: ['dana'], why: 'snoozed' },
    ]));
  test('the last snooze counts, and rings once for its ping and for whoever put it off', () => {
    const twice = rung.and(snoozed(openPing.id, '10:05', '09:50'), snoozed(openPing.id, '10:20', '10:02'));
    const pings = of('recoat-open', all(twice, '10:07'));
    expect(pings.map((ping) => ping.dueAt)).toEqual([t('10:20')]);
    expect(
      of('recoat-open', all(twice.and(sent(pings[0] as Ping, '10:20')), '10:21')).filter((ping) => ping.why === 'snoozed'),
    ).toEqual([]);
  });
  test('the step done: silent', () =>
    expect(again(rung.and(snoozed(openPing.id, '10:05', '09:50'), did('coat-2', '10:00')), '10:01')).toEqual([]));
  test('never beyond the end of what it is about', () => {
    const said = { by: 'dana', at: t('11:50'), now: t('11:50') };
    first.when(() => snooze({ base: 'x', endsAt: t('12:00') }, 30, said)).yields({ type: 'PingSnoozed', until: t('11:58') });
    first.when(() => snooze({ base: 'x', endsAt: null }, 30, said)).yields({ until: t('12:20') });
    first.when(() => snooze({ base: 'x', endsAt: t('11:52') }, 30, said)).refuses('no-time-to-snooze');
  });
});

const shifts = studio({
  shifts: { hours: [hours('06:00-14:00'), hours('14:00-22:00')], days: [1, 2, 3, 4, 5] },
  duty: { always: [], byShift: { '06:00-14:00': ['ann'], '14:00-22:00': ['bob'] } },
});
/** Two are on duty in the morning, and neither of them in the afternoon. */
const relieved = { ...shifts, duty: { always: [], byShift: { '06:00-14:00': ['dana', 'kim'], '14:00-22:00': ['bob'] } } };
const digests = (history: History, now: string, at = shifts, day = 0) =>
  of('digest', all(history, now, at, day)).map((ping) => [ping.dueAt, ping.to]);

describe('the digest', () => {
  test('at the start of the shift, to those on duty then', () =>
    expect(digests(first, '09:10')).toEqual([[t('14:00'), ['bob']]]));
  test('only of jobs that were known before the shift began', () => {
    expect(digests(given(started('14:00')), '14:01')).toEqual([[t('06:00', 1), ['ann']]]);
    expect(digests(given(started('13:59')), '14:01').at(0)).toEqual([t('14:00'), ['bob']]);
  });
  test('late while its shift runs, never once it is over', () => {
    expect(digests(first, '21:59').at(0)).toEqual([t('14:00'), ['bob']]);
    expect(digests(first, '22:00').at(0)).toEqual([t('06:00', 1), ['ann']]);
  });
  test('once for each shift', () => {
    const ping = one('digest', all(first, '13:00', shifts));
    expect(digests(first.and(sent(ping, '14:00')), '14:01')).toEqual([[t('06:00', 1), ['ann']]]);
  });
  test('over the weekend to Monday', () => expect(digests(first, '23:00', shifts, 4).at(0)).toEqual([t('06:00', 7), ['ann']]));
  test('nobody on duty: to the holders', () =>
    expect(digests(first, '09:10', { ...shifts, duty: { always: [], byShift: {} } }).at(0)).toEqual([t('14:00'), ['dana']]));
  test('nothing to tell: no job, or none that goes on', () => {
    expect(digests(first.and(held('09:05')), '09:10')).toEqual([]);
    expect(digests(first.and(closed('09:05')), '09:10')).toEqual([]);
  });
  test('nothing of a shift that had begun when the shifts were set', () =>
    expect(digests(given(started('05:00')), '09:10', { ...shifts, shiftsSince: t('09:00') }).at(0)).toEqual([
      t('14:00'),
      ['bob'],
    ]));
  test('none on a holiday: the next is that of the day after, however long they last', () => {
    const closed = ['2026-03-03', '2026-03-04'];
    expect(digests(first, '22:00', { ...shifts, shifts: { ...shifts.shifts, closed } }).at(0)).toEqual([t('06:00', 3), ['ann']]);
    const weeks = Array.from({ length: 20 }, (_, day) => new Date(t('12:00', 1 + day)).toISOString().slice(0, 10));
    expect(digests(first, '22:00', { ...shifts, shifts: { ...shifts.shifts, closed: weeks } }).at(0)).toEqual([
      t('06:00', 21),
      ['ann'],
    ]);
  });
  test('without shifts none', () => expect(digests(first, '09:10', studio())).toEqual([]));
});

describe('quiet hours', () => {
  const quiet = { ...shifts, quiet: hours('13:30-15:00') };
  test('hold back the digest; the prompt comes before them', () => {
    expect(digests(first, '09:10', quiet)).toEqual([[t('15:00'), ['bob']]]);
    const night = { ...shifts, quiet: hours('22:00-07:00') };
    expect(digests(first, '23:00', night).at(0)).toEqual([t('07:00', 1), ['ann']]);
    const waiting = given(started(), did('seal', '08:30'), did('coat-1', '13:30'));
    const prompt = one('handover', all(waiting, '13:40', { ...relieved, quiet: hours('13:30-13:50') }));
    expect(prompt.dueAt).toBe(t('13:30'));
  });
  test('never a pot life or a window', () => {
    const busy = given(started(), did('seal', '08:30'), did('coat-1', '11:05'), poured('cup-1', null, '13:20'));
    const pings = all(busy, '13:21', quiet);
    expect(one('pot-over', pings).dueAt).toBe(t('13:40'));
    expect(one('recoat-closing', pings).dueAt).toBe(t('13:35'));
    expect(one('recoat-missed', pings).dueAt).toBe(t('14:05'));
  });
});

describe('the end of the shift', () => {
  const prompts = (history: History, now: string, at: Studio = relieved) =>
    all(history, now, at)
      .filter((ping) => ping.id.startsWith('shift-end'))
      .map((ping) => [ping.dueAt, ping.to]);
  const waiting = given(started(), did('seal', '08:30'), did('coat-1', '13:00'));

  test('asks the holder to hand over what opens in the next shift, a quarter of an hour before', () => {
    expect(prompts(waiting, '13:10')).toEqual([[t('13:45'), ['dana']]]);
    expect(prompts(waiting, '14:00')).toEqual([]);
  });
  test.each([
    ['who stays for the next shift', { '06:00-14:00': ['dana'], '14:00-22:00': ['bob', 'dana'] }, 0],
    ['who comes only with the next shift', { '06:00-14:00': ['kim'], '14:00-22:00': ['dana'] }, 0],
    ['who was on no list at all, where nobody is', {}, 1],
  ])('to a holder %s', (_, byShift, count) =>
    expect(prompts(waiting, '13:10', { ...shifts, duty: { always: [], byShift } })).toHaveLength(count),
  );
  test('not for a shift that a holiday leaves out', () => {
    const closed = [new Date(t('12:00')).toISOString().slice(0, 10)];
    expect(prompts(waiting, '13:10', { ...relieved, shifts: { ...relieved.shifts, closed } })).toEqual([]);
  });
  test('not for a window that is over by then', () => expect(prompts(first, '09:10')).toEqual([]));
  test('not for what was offered already, but for everything else', () => {
    const offer = waiting.and(offered(['bob'], '13:20'));
    expect(prompts(offer, '13:21')).toEqual([]);
    const other = offer.and(started('09:00', { job: 'owl', by: 'kim' }), did('seal', '13:25', { job: 'owl' }));
    expect(prompts(other, '13:30')).toEqual([[t('13:45'), ['kim']]]);
  });
  test('an offer whose jobs are all closed stands in nobody’s way', () => {
    const dead = waiting.and(
      started('13:01', { job: 'owl' }),
      offered(['bob'], '13:05', { jobs: ['owl'] }),
      closed('13:06', { job: 'owl' }),
    );
    expect(prompts(dead, '13:10')).toEqual([[t('13:45'), ['dana']]]);
  });
});
