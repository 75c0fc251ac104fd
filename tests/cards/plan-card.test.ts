import { describe, expect, test } from 'vitest';
import type { Cause } from '../../src/bench/planning/cause.ts';
import { type JobPlan, type PlannedTime, slackMinutes } from '../../src/bench/planning/plan.ts';
import { momentTyped } from '../../src/cards/as-typed.ts';
import { noPlanCard, planCard } from '../../src/cards/plan-card.ts';
import { coldLine } from '../../src/cards/plan-cold.ts';
import { causeData, causeText, changeLabel } from '../../src/cards/plan-trouble.ts';
import { plainText } from '../../src/chat/plain.ts';
import { cure, fixed, RUBBER, recoat, step, t } from '../support/given.ts';
import { studio } from '../support/studio.ts';

const read = (text: Parameters<typeof plainText>[0]) => plainText(text, { zone: 'Etc/UTC', now: t('08:00') });
const time = (id: string, startsAt: string, more: Partial<PlannedTime> = {}): PlannedTime => ({
  step: id,
  title: id,
  kind: 'coat',
  startsAt: t(startsAt),
  endsAt: t(startsAt) + 15 * 60_000,
  opensAt: t(startsAt),
  closesAt: null,
  latestAt: null,
  ...more,
});
const plan = (steps: readonly PlannedTime[], more: Partial<JobPlan> = {}): JobPlan => ({
  job: null,
  name: 'Owl',
  steps,
  readyAt: t('15:00'),
  readyBy: null,
  ...more,
});

describe('a temperature that a plan counts on and a material is not made for', () => {
  const made = { material: RUBBER, usable: { fromCelsius: 15, untilCelsius: 32 } };
  const planned = plan([time('a', '08:00'), time('b', '12:00')]);
  const coldFrom = (at: string, celsius: number, wait = recoat(45, 360)) => {
    const readings = [
      { at: t('07:00'), celsius: 23, seq: 1 },
      { at: t(at), celsius, seq: 2 },
    ];
    const conditions = { readings, expectations: [], paces: new Map<string, number>() };
    return coldLine(planned, [step('a', wait, made), step('b', cure(60))], conditions, studio()).map(read);
  };

  test('is told, too cold or too warm, and not at the ends of what it is made for', () => {
    const line = (celsius: number) =>
      expect.stringMatching(new RegExp(`^It counts on ${celsius} °C after a; Rubber is made for 15 (?:°C )?to 32 °C: touch it`));
    expect(coldFrom('09:00', 14)).toEqual([line(14)]);
    expect(coldFrom('09:00', 33)).toEqual([line(33)]);
    for (const celsius of [15, 32]) expect(coldFrom('09:00', celsius)).toEqual([]);
  });
  test('until the next step begins, and no longer', () => {
    expect(coldFrom('11:59', 9)).toHaveLength(1);
    expect(coldFrom('12:00', 9)).toEqual([]);
    expect(coldFrom('14:00', 9)).toEqual([]);
  });
  test('of no wait by the clock alone', () => expect(coldFrom('09:00', 9, fixed(45))).toEqual([]));
});

describe('the title of a plan', () => {
  const shown = (of: JobPlan, towards: 'early' | 'late') =>
    read(planCard({ plan: of, towards, reserveMinutes: 0, notes: [], buttons: [], files: [], studio: studio() }).title);
  test('leads with the last start only where it was sought', () => {
    const by = plan([time('a', '08:00')], { readyBy: t('16:00') });
    expect(shown(by, 'early')).toBe('Owl: start 08:00, ready 15:00');
    expect(shown(by, 'late')).toBe('Owl: start by 08:00 to be ready by 16:00');
    expect(shown({ ...by, readyBy: null }, 'late')).toBe('Owl: start 08:00, ready 15:00');
    expect(shown({ ...by, job: 'owl' }, 'early')).toBe('Owl: a at 08:00, ready 15:00');
    expect(shown({ ...by, steps: [] }, 'early')).toBe('Owl: ready 15:00');
  });
});

test('what is left is counted in whole minutes, and never less than none', () => {
  expect(slackMinutes(time('a', '08:00', { latestAt: t('08:01') + 59_999 }))).toBe(1);
  expect(slackMinutes(time('a', '08:00', { latestAt: t('07:50') }))).toBe(0);
  expect(slackMinutes(time('a', '08:00'))).toBeNull();
});

describe('no plan', () => {
  const cause: Cause = { kind: 'late', readyAt: t('12:15'), readyBy: t('12:00') };
  const shown = (changes: Parameters<typeof noPlanCard>[0]['changes']) => {
    const card = noPlanCard({
      name: 'Owl',
      step: { id: 'a', title: 'a' },
      cause,
      isStartNamed: true,
      changes,
      notes: [],
      buttons: [],
      studio: studio(),
      now: t('08:00'),
    });
    return [card.title, ...card.lines].map(read);
  };
  test('says what would do, or that nothing alone does', () => {
    expect(shown([{ kind: 'ready-by', at: t('12:15') }])).toEqual([
      'Owl cannot be ready by 12:00',
      'It can be ready no earlier than 12:15, 15 min after 12:00.',
      'Each of these alone makes it possible:',
      '· Ready by 12:15',
    ]);
    const none = shown([]);
    expect(none).toHaveLength(3);
    expect(none[2]).toContain('alone');
    expect(none[2]).not.toContain('Each of these');
  });
});

describe('in words', () => {
  const taken = (job: string) => ({ from: t('10:00'), until: t('11:00'), job, name: job, title: 'Wax' });
  const busy: Cause = {
    kind: 'busy',
    window: { from: t('10:00'), until: t('10:30') },
    by: ['owl', 'fox', 'owl', 'hen'].map(taken),
  };
  test('of many that are at work three are named; each job counts once', () => {
    expect(read(causeText('Coat', busy, studio()))).toMatch(
      /at work then: Wax of owl \(10:00\), Wax of fox \(10:00\) and Wax of owl \(10:00\)\.$/,
    );
    expect(causeData(busy, String)).toMatchObject({ jobs: ['owl', 'fox', 'hen'] });
  });
  test('where nobody has said how warm it is, nobody can tell whether that is warmer', () =>
    expect(changeLabel({ kind: 'room', celsius: 21, now: null }, studio(), t('08:00'))).toBe('Keep the room at 21 °C'));
  // Directive 2000/84/EC: in October clocks go back an hour at 01:00 UTC.
  test('a time that a clock shows twice is typed with its offset', () => {
    const berlin = (at: string) => momentTyped(Date.parse(at), 'Europe/Berlin');
    expect(berlin('2026-10-25T00:30Z')).toBe('2026-10-25T02:30+02:00');
    expect(berlin('2026-10-25T01:30Z')).toBe('2026-10-25T02:30+01:00');
    expect(berlin('2026-10-25T02:30Z')).toBe('2026-10-25 03:30');
  });
});
