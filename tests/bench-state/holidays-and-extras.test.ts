import { describe, expect, test } from 'vitest';
import { withHolidays, withHours, withoutHours } from '../../src/bench/studio-staffing.ts';
import { t } from '../support/given.ts';
import { studio } from '../support/studio.ts';

/** Monday, 2 March 2026. */
const NOW = t('09:00');

describe('holidays', () => {
  const set = (add: string[], drop: string[] = []) => withHolidays(studio(), { at: NOW, add, drop });
  test('are kept for a year and a day, and then forgotten', () =>
    // From 1 March 2025 to 1 March 2026 are 365 days.
    expect(set(['2025-02-28', '2025-03-01']).shifts.closed).toEqual(['2025-03-01']));
  test('of yesterday taken back: its night shift may run still, and of its start nothing is told', () => {
    const since = (date: string) => set([date], [date]).shiftsSince;
    expect([since('2026-02-28'), since('2026-03-01'), since('2026-03-02'), since('2026-03-03')]).toEqual([0, NOW, NOW, 0]);
  });
});

describe('extra hours', () => {
  const at = (from: string, until: string, day = 0) => ({ from: t(from, day), until: t(until, day) });
  const of = (...extras: { from: number; until: number }[]) => studio({ extras: extras.map((each) => ({ ...each, hands: 1 })) });
  const starts = ({ extras }: ReturnType<typeof of>) => extras.map(({ from }) => from);

  test('taken back for a time are all that begin in it, its end not counted', () => {
    const three = of(at('08:00', '09:00'), at('09:00', '10:00'), at('12:00', '13:00'));
    expect(starts(withoutHours(three, 'extras', { at: NOW, ...at('08:00', '12:00') }))).toEqual([t('12:00')]);
    expect(starts(withoutHours(three, 'extras', { at: NOW, ...at('08:01', '12:01') }))).toEqual([t('08:00')]);
  });
  test('taken back exactly are those alone that begin and end so', () => {
    const two = of(at('08:00', '09:00'), at('08:00', '10:00'), at('07:00', '09:00'));
    const left = withoutHours(two, 'extras', { at: NOW, ...at('08:00', '09:00'), exactly: true });
    expect(left.extras.map(({ from, until }) => [from, until])).toEqual([
      [t('08:00'), t('10:00')],
      [t('07:00'), t('09:00')],
    ]);
  });
  test('that begin at the same time and end at another stand beside each other', () => {
    const both = withHours(of(at('08:00', '09:00')), 'extras', { at: NOW, ...at('08:00', '10:00'), hands: 2 });
    expect(both.extras.map(({ hands }) => hands)).toEqual([1, 2]);
  });
  test('over for a week they are forgotten, and not a minute sooner', () => {
    const old = of(at('08:00', '09:00', -7), at('08:01', '09:01', -7));
    expect(starts(withoutHours(old, 'extras', { at: NOW, ...at('20:00', '21:00') }))).toEqual([t('08:01', -7)]);
  });
});
