import { describe, expect, test } from 'vitest';
import { hasOpened, isMissed, needsTouch, nextWindow, timesOf, windowOf } from '../../src/job/window.ts';
import { under } from '../support/conditions.ts';
import { cure, decided, did, ended, fixed, given, poured, recoat, STEPS, started, step, t, touched } from '../support/given.ts';

const first = given(started(), did('seal', '08:30'), did('coat-1', '09:00'));
const open = (history: typeof first, record: { at: number; celsius: number }[] = []) => nextWindow(history.job, under(record));

describe('window', () => {
  test('the first step may begin when the job does', () =>
    expect(open(given(started()))).toEqual({ opensAt: t('08:00'), closesAt: null, why: 'start', seq: 0, outside: null }));
  test('a wait opens and closes it', () =>
    expect(open(first)).toEqual({ opensAt: t('09:45'), closesAt: t('12:00'), why: 'wait', seq: 3, outside: null }));
  test('no wait: open as soon as the step before is done', () =>
    expect(open(given(started('08:00', { steps: STEPS.slice(4) }), did('trim', '08:20')))).toMatchObject({
      opensAt: t('08:20'),
      closesAt: null,
    }));
  test('a later step has none yet, and after the last there is none', () => {
    expect(windowOf(first.job, 3, under())).toBeNull();
    expect(open(given(started('08:00', { steps: STEPS.slice(5) }), did('wax', '08:20')))).toBeNull();
  });
  test('an entry made late counts from when it happened', () =>
    expect(open(given(started(), did('seal', '08:30', { entered: '09:30' })))).toMatchObject({ opensAt: t('08:45') }));

  test.each([
    // In whole minutes a quarter of the wait, but 5 minutes at least and an hour at most; never past the end of the window.
    [recoat(45, 180), '09:50', t('10:02')],
    [recoat(8, 60), '09:10', t('09:15')],
    [cure(960), '07:00', t('08:00'), 1],
    [recoat(45, 180), '11:57', t('12:00')],
    [recoat(45, 180), '09:10', t('09:45')],
  ])('after "not yet" the next look: %j touched at %s', (wait, at, opensAt, day = 0) => {
    const job = given(
      started('08:00', { steps: [step('a', wait), step('b')] }),
      did('a', '09:00'),
      touched('a', 'not-yet', at, { day }),
    );
    expect(open(job)).toMatchObject({ opensAt: opensAt + (day ? 86_400_000 : 0), why: 'not-yet', seq: 3 });
  });
  test('the last touch counts', () =>
    expect(open(first.and(touched('coat-1', 'not-yet', '09:40'), touched('coat-1', 'ready', '09:42')))).toMatchObject({
      opensAt: t('09:42'),
      closesAt: t('12:00'),
      why: 'touched-ready',
    }));
  test('"ready" late in the window does not open it later', () =>
    expect(open(first.and(touched('coat-1', 'ready', '11:00')))?.opensAt).toBe(t('09:45')));
  test('a decision opens it without an end', () =>
    expect(open(first.and(decided('coat-2', 'abrade', '13:00')))).toEqual({
      opensAt: t('13:00'),
      closesAt: null,
      why: 'decided',
      seq: 4,
      outside: null,
    }));
  test('cold holds a window back and keeps it open longer; a fixed wait does not care', () => {
    const speed = { law: { law: 'q10', q10: 2 } as const, referenceCelsius: 23 };
    const job = (wait: (typeof STEPS)[0]['wait']) =>
      given(started('08:00', { steps: [step('a', wait), step('b')] }), did('a', '09:00'));
    const cold = [{ at: t('07:00'), celsius: 13 }];
    expect(open(job(recoat(45, 90, speed)), cold)).toMatchObject({ opensAt: t('10:30'), closesAt: t('12:00') });
    expect(open(job(fixed(45)), cold)?.opensAt).toBe(t('09:45'));
  });
});

describe('missed', () => {
  test('the last moment still counts, the next one does not', () => {
    expect([isMissed(first.job, under(), t('12:00')), isMissed(first.job, under(), t('12:00') + 1)]).toEqual([false, true]);
  });
  test('a cup poured in time holds it, until its pot life and the hands-on time are over', () => {
    const { job } = first.and(poured('cup-1', 'coat-2', '12:00'));
    expect([isMissed(job, under(), t('12:35')), isMissed(job, under(), t('12:36'))]).toEqual([false, true]);
  });
  test('an early cup, spent or forgotten, holds nothing', () => {
    const { job } = first.and(poured('cup-1', 'coat-2', '09:50'));
    expect(isMissed(job, under(), t('12:01'))).toBe(true);
  });
  test('a cup that was thrown away holds nothing; the one poured in its place does', () => {
    const thrown = first.and(poured('cup-1', 'coat-2', '11:40'), ended('cup-1', 'discarded', '11:45'));
    expect(thrown.job.steps[2]?.poured).toEqual([]);
    expect(isMissed(thrown.job, under(), t('12:01'))).toBe(true);
    const two = first.and(
      poured('cup-1', 'coat-2', '11:40'),
      poured('cup-2', 'coat-2', '11:50'),
      ended('cup-1', 'discarded', '11:55'),
    );
    expect(two.job.steps[2]?.poured).toEqual([{ at: t('11:50'), until: t('12:25') }]);
    const spent = first.and(poured('cup-1', 'coat-2', '11:40'), ended('cup-1', 'spent', '11:45'));
    expect(spent.job.steps[2]?.poured).toHaveLength(1);
  });
});

describe('a window of which no clock can tell', () => {
  const usable = { fromCelsius: 15, untilCelsius: 32 };
  const coats = [step('a', recoat(45, 180), { usable }), step('b')];
  const cold = under([{ at: t('07:00'), celsius: 8 }]);
  const coat = given(started('08:00', { steps: coats }), did('a', '09:00'));
  const seen = (history: typeof coat, clock: string) => {
    const window = nextWindow(history.job, cold);
    if (window === null) throw new Error('no window');
    return {
      why: window.why,
      touch: needsTouch(window),
      opened: hasOpened(window, t(clock)),
      missed: isMissed(history.job, cold, t(clock)),
      ...timesOf(window),
    };
  };
  const untold = { opensAt: null, closesAt: null };

  test('waits for a finger, and is never missed by the clock', () => {
    expect(seen(coat, '11:00')).toEqual({ why: 'wait', touch: true, opened: false, missed: false, ...untold });
    expect(seen(coat, '23:00')).toMatchObject({ opened: false, missed: false });
    expect(seen(coat.and(touched('a', 'not-yet', '10:00')), '23:00')).toEqual({
      ...{ why: 'not-yet', touch: true, opened: false, missed: false },
      ...untold,
    });
  });
  test('opens where a finger found it ready, and has no end that could be missed', () =>
    expect(seen(coat.and(touched('a', 'ready', '10:00')), '23:00')).toEqual({
      ...{ why: 'touched-ready', touch: false, opened: true, missed: false },
      ...{ opensAt: expect.any(Number), closesAt: null },
    }));
  test('opens where a finger came after its sheet’s time, until the next look is due', () => {
    const late = coat.and(touched('a', 'ready', '12:30'));
    // A quarter of 45 minutes, which is 11 min 15 s: its last whole minute.
    const until = t('12:41');
    expect(seen(late, '12:35')).toEqual({
      ...{ why: 'touched-late', touch: false, opened: true, missed: false },
      ...{ opensAt: t('09:45'), closesAt: until },
    });
    expect(seen(late, '12:41').missed).toBe(false);
    expect(seen(late, '12:42').missed).toBe(true);
  });
  test('is over where a finger found it past', () => {
    expect(seen(coat.and(touched('a', 'past', '11:00')), '11:00')).toMatchObject({
      ...{ why: 'touched-past', touch: false, missed: true },
      closesAt: t('11:00'),
    });
  });
  test('is open once somebody decided', () =>
    expect(seen(coat.and(touched('a', 'past', '11:00'), decided('b', 'abrade', '11:10')), '23:00')).toMatchObject({
      ...{ why: 'decided', touch: false, opened: true, missed: false, closesAt: null },
    }));
});
