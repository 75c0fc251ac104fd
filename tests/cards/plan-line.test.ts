import { describe, expect, test } from 'vitest';
import type { BenchEvent } from '../../src/bench/events.ts';
import type { Studio } from '../../src/bench/studio.ts';
import { planCloses } from '../../src/cards/plan-closing.ts';
import { planLine, toWait } from '../../src/cards/plan-line.ts';
import { plainText } from '../../src/chat/plain.ts';
import type { PlannedStep } from '../../src/job/events.ts';
import { cure, did, given, noted, poured, recoat, started, step, t } from '../support/given.ts';
import { hours, studio } from '../support/studio.ts';

/** A bench with one pair of hands from 08:00 until then, Monday to Friday. All times below are worked out by hand. */
const until = (end: string, more: Partial<Studio> = {}) =>
  studio({
    shifts: { hours: [hours(`08:00-${end}`)], days: [1, 2, 3, 4, 5] },
    duty: { always: ['ann'], byShift: {} },
    hands: { all: 1, byShift: {} },
    ...more,
  });
const steps = (first: PlannedStep['wait'], second: PlannedStep['wait']) => [step('a', first), step('b', second), step('c')];
/** `a` is done at 12:00, so `b` opens at 12:45 and closes at 15:00; `c` opens 45 minutes after 15 minutes of `b`. */
const RECOATS = steps(recoat(45, 180), recoat(45, 180));
const lion = (chain = RECOATS, done = '12:00', readyBy: number | null = null): BenchEvent[] => {
  const start = started('08:00', { steps: chain });
  return [
    start.type === 'JobStarted' && readyBy !== null ? { ...start, planned: { beginsAt: start.at, readyBy } } : start,
    did('a', done),
  ];
};
/** Hands that are at another job from then on, for so many minutes. */
const owl = (from: string, handsMinutes: number): BenchEvent[] => [
  started('08:00', { job: 'owl', steps: [step('cast', null, { handsMinutes })] }),
  poured('cup-1', 'cast', from, { job: 'owl', potLife: handsMinutes }),
];
const line = (events: readonly BenchEvent[], on: Studio, now?: number) => {
  const { state, job } = given(...events);
  return planLine(job, { state, studio: on, now: now ?? state.toldAt }).map((text) =>
    plainText(text, { zone: 'Etc/UTC', now: state.toldAt }),
  );
};
const closes = (events: readonly BenchEvent[], on: Studio) => {
  const { state } = given(...events);
  const found = planCloses('lion', { state, studio: on, now: state.toldAt });
  return found && { by: new Date(found.by).toISOString().slice(11, 16), why: plainText(found.why, { zone: 'Etc/UTC', now: 0 }) };
};

describe('by when the next step must begin so that the rest fits', () => {
  test('the last of a chain must begin 15 minutes before the shift ends, and the step before it an hour sooner', () => {
    expect(closes(lion(), until('16:00'))).toEqual({
      by: '14:45',
      why: expect.stringMatching(/^the rest does not fit\. c takes 15 min and can only begin .* the shift ends at /),
    });
    expect(line(lion(), until('16:00'))).toEqual([expect.stringMatching(/^Begin by 14:45: later, the rest does not fit\. c /)]);
  });

  test('a promise: 15 minutes of hands and an hour of cure before it', () => {
    const promised = lion([step('a', recoat(45, 360)), step('b', cure(60))], '12:00', Date.parse('2026-03-02T16:00Z'));
    expect(closes(promised, until('18:00'))).toEqual({ by: '14:45', why: 'it is not ready by Mon 2 Mar 2026 16:00.' });
  });

  test('not once that has passed', () => {
    const promised = lion([step('a', recoat(45, 360)), step('b', cure(60))], '12:00', Date.parse('2026-03-02T16:00Z'));
    expect(line(promised, until('18:00'), t('14:45'))).toEqual([expect.stringMatching(/^Begin by 14:45: /)]);
    expect(line(promised, until('18:00'), t('14:46'))).toEqual([]);
  });

  test('where the next window closes later by five minutes it is said, by less it is not', () => {
    expect(line(lion(), until('16:10'))).toEqual([expect.stringMatching(/^Begin by 14:55: /)]);
    expect(line(lion(), until('16:11'))).toEqual([]);
  });

  test('what is more than twelve hours off presses nobody', () => {
    const day = Date.parse('2026-03-03T00:00Z');
    const promised = (readyBy: number) => lion([step('a', cure(45)), step('b', cure(60))], '12:00', readyBy);
    const anyHour = until('24:00', { shifts: { hours: [hours('00:00-23:59')], days: [1, 2, 3, 4, 5, 6, 7] } });
    // It was told at 12:00; 75 minutes before 01:15 is midnight.
    expect(line(promised(day + 75 * 60_000), anyHour)).toEqual([expect.stringMatching(/^Begin by /)]);
    expect(line(promised(day + 76 * 60_000), anyHour)).toEqual([]);
  });
});

describe('that the next step is to wait', () => {
  test('for hands, where that is five minutes or more', () => {
    expect(line([...lion(), ...owl('12:05', 45)], until('18:00'))).toEqual(['As planned: 12:50, when a pair of hands is free.']);
    expect(line([...lion(), ...owl('12:05', 44)], until('18:00'))).toEqual([]);
  });

  test('from when it was told on, not from when the window opened', () => {
    const busy = [...lion(), ...owl('12:30', 30)];
    expect(line(busy, until('18:00'))).toEqual(['As planned: 13:00, when a pair of hands is free.']);
    expect(line([...busy, noted('thin at the ear', '12:57')], until('18:00'))).toEqual([]);
  });

  test('as it is now: what was to begin before and was not is told no more', () => {
    const busy = [...lion(), ...owl('12:05', 45)];
    expect(line(busy, until('18:00'), t('12:49'))).toEqual([]);
    expect(line(busy, until('18:00'), t('13:10'))).toEqual([]);
  });

  test('for somebody to come', () =>
    expect(line(lion(steps(recoat(45, 1440), null), '15:30'), until('16:00'))).toEqual([
      'As planned: Tue 08:00, when somebody is there.',
    ]));

  test('so that the rest fits: begun at 14:45, what follows 17 hours later at most is at 08:00', () =>
    expect(line(lion(steps(recoat(45, 360), recoat(960, 1020))), until('16:00'))).toEqual([
      'As planned: 14:45. Begun sooner, the rest does not fit: c can only begin between Tue 05:00 and Tue 07:59, and nobody is on shift from 16:00 until Tue 08:00.',
    ]));

  test('and whether what follows would find no place, or it is only hands that are wanted', () => {
    const later = (events: readonly BenchEvent[], on: Studio) => {
      const { state, job } = given(...events);
      const found = toWait(job, { state, studio: on, now: state.toldAt });
      return found && [new Date(found.at).toISOString().slice(11, 16), found.breaks];
    };
    expect(later(lion(steps(recoat(45, 360), recoat(960, 1020))), until('16:00'))).toEqual(['14:45', true]);
    expect(later([...lion(), ...owl('12:05', 45)], until('18:00'))).toEqual(['12:50', false]);
    expect(later(lion(), until('18:00'))).toBeNull();
  });

  test('from when it was to begin on, though hands are free before', () => {
    const planned = (id: string, beginsAt: string, handsMinutes: number): BenchEvent => {
      const start = started('08:00', { job: id, steps: [step('a', null, { handsMinutes })] });
      return start.type === 'JobStarted'
        ? { ...start, planned: { beginsAt: Date.parse(`2026-03-02T${beginsAt}Z`), readyBy: null } }
        : start;
    };
    expect(line([planned('owl', '09:45', 45), planned('lion', '10:00', 15)], until('16:00'))).toEqual([
      'As planned: 10:30, when a pair of hands is free.',
    ]);
  });

  test('not where no shifts are kept', () => {
    const anyTime = until('16:00', { shifts: { hours: [], days: [1, 2, 3, 4, 5, 6, 7] } });
    expect(line([...lion(), ...owl('12:05', 60)], anyTime)).toEqual([]);
  });
});
