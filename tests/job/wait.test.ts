import { describe, expect, test } from 'vitest';
import type { PlannedStep } from '../../src/job/events.ts';
import { outsideBetween, waitEnds } from '../../src/job/wait.ts';
import { MINUTE } from '../../src/trade/time/calendar.ts';
import { under } from '../support/conditions.ts';
import { cure, fixed, RUBBER, recoat, step, t } from '../support/given.ts';

const USABLE = { fromCelsius: 15, untilCelsius: 32 };
const of = (wait: PlannedStep['wait']) => step('a', wait, { material: RUBBER, usable: USABLE });
const ends = (wait: PlannedStep['wait'], ...args: Parameters<typeof under>) => waitEnds(of(wait), under(...args), t('09:00'));
const paced = (factor: number) => ({ paces: new Map([[RUBBER.id, factor]]) });
const COLD = { at: t('08:00'), celsius: 8 };

describe('what a studio has learned', () => {
  test('moves both ends of a recoat window, either way', () => {
    expect(ends(recoat(60, 120), [], paced(0.5))).toMatchObject({ opensAt: t('09:30'), closesAt: t('10:00') });
    expect(ends(recoat(60, 120), [], paced(2))).toMatchObject({ opensAt: t('11:00'), closesAt: t('13:00') });
  });
  test('lets nothing be taken out before its sheet’s time, only later', () => {
    expect(ends(cure(120), [], paced(0.5)).opensAt).toBe(t('11:00'));
    expect(ends(cure(120), [], paced(2)).opensAt).toBe(t('13:00'));
  });
  test('does not touch a fixed wait', () => {
    for (const factor of [0.5, 2])
      expect(ends(fixed(60, 120), [], paced(factor))).toMatchObject({ opensAt: t('10:00'), closesAt: t('11:00') });
  });
});

describe('a window is told in whole minutes, as people and plans go by them', () => {
  const begun = t('09:00') + 37_000;
  const told = (wait: PlannedStep['wait']) => waitEnds(of(wait), under(), begun);
  test('the first and the last inside of what was reckoned', () =>
    expect(told(recoat(60, 120))).toMatchObject({ opensAt: t('10:01'), closesAt: t('11:00') }));
  test('one that opens at once is open', () =>
    expect(told(recoat(0, 120))).toMatchObject({ opensAt: begun, closesAt: t('11:00') }));
  test('one that lies within a minute is left as it is', () =>
    expect(told(recoat(60, 60.2))).toMatchObject({ opensAt: begun + 60 * MINUTE, closesAt: begun + 60.2 * MINUTE }));
  test('one that has no end has none', () =>
    expect(told(recoat(60, null))).toMatchObject({ opensAt: t('10:01'), closesAt: null }));
});

describe('a temperature that the material is not made for', () => {
  test('takes the times of a cure and of a coat away, of a fixed wait it does not', () => {
    expect(ends(recoat(60, 120), [COLD]).outside).toEqual({ at: t('09:00'), celsius: 8 });
    expect(ends(cure(60), [COLD]).outside).toEqual({ at: t('09:00'), celsius: 8 });
    expect(ends(fixed(60, 120), [COLD])).toEqual({ opensAt: t('10:00'), closesAt: t('11:00'), outside: null });
  });

  test.each([
    // Open from 10:00 to 11:00, or from 10:00 on.
    ['while it cannot go on yet', recoat(60, 120), '09:30', true],
    ['while the window is open', recoat(60, 120), '10:30', true],
    ['after the window has closed', recoat(60, 120), '11:00', false],
    ['before a window without an end has opened', recoat(60, null), '09:30', true],
    ['after it has opened', recoat(60, null), '10:00', false],
    ['while it cures', cure(60), '09:30', true],
    ['once it is cured', cure(60), '10:00', false],
  ])('counts %s: %j, read at %s', (_, wait, clock, counts) => {
    const celsius = 8;
    const { outside } = ends(wait, [{ at: t(clock), celsius }]);
    expect(outside).toEqual(counts ? { at: t(clock), celsius } : null);
  });

  test('counts while it cures, and not in what is left of the last minute', () => {
    const cold = (minutes: number) => [
      { at: t('08:00'), celsius: 23 },
      { at: t('09:00') + minutes * MINUTE, celsius: 8 },
    ];
    expect(ends(cure(90.6), cold(90.5)).outside).not.toBeNull();
    expect(ends(cure(90.6), cold(90.7)).outside).toBeNull();
  });

  test.each([
    [14.9, true],
    [15, false],
    [32, false],
    [32.1, true],
  ])('is not what the sheet still names: of 15 to 32 °C, %d °C', (celsius, out) => {
    const found = outsideBetween(USABLE, under([{ at: t('08:00'), celsius }]), t('09:00'), t('10:00'));
    expect(found).toEqual(out ? { at: t('09:00'), celsius } : null);
  });

  test.each([
    [29, false],
    [30, true],
  ])('counts where it lasts half an hour: %d min', (minutes, counts) => {
    const open = { at: t('09:10'), celsius: 8 };
    const shut = { at: t('09:10') + minutes * 60_000, celsius: 20 };
    const found = outsideBetween(USABLE, under([open, shut]), t('09:00'), t('11:00'));
    expect(found).toEqual(counts ? { at: t('09:10'), celsius: 8 } : null);
  });

  test('is none where no limits are known', () => expect(outsideBetween(null, under([COLD]), t('09:00'), t('10:00'))).toBeNull());
});

test('without a wait the next step may go on at once', () =>
  expect(ends(null)).toEqual({ opensAt: t('09:00'), closesAt: null, outside: null }));
