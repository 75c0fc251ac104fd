import { describe, expect, it } from 'vitest';
import type { BenchEvent } from '../../src/bench/events.ts';
import type { JobPlan, PlannedTime } from '../../src/bench/planning/plan.ts';
import { type Beside, boardModel } from '../../src/cards/board-view.ts';
import { nightsBetween } from '../../src/cards/nights.ts';
import { planModel } from '../../src/cards/plan-view.ts';
import type { BoardPicture } from '../../src/picture/models.ts';
import { HOUR, MINUTE } from '../../src/trade/time/calendar.ts';
import { did, ended, given, held, poured, started, t, warmed } from '../support/given.ts';
import { studio } from '../support/studio.ts';
import { beside, coated, cold, view } from './benches.ts';

const NEXT: PlannedTime = {
  step: 'coat-2',
  title: 'coat-2',
  kind: 'coat',
  startsAt: t('11:00'),
  endsAt: t('11:15'),
  opensAt: t('09:45'),
  closesAt: t('12:00'),
  latestAt: t('11:40'),
};

describe('a board', () => {
  const rowAt = (now: string, ...events: readonly BenchEvent[]) => boardModel(view(now, ...events), beside).rows[0];

  it.each([
    ['hands', 'coat-2 at 09:45 (in 35 min), by 12:00', rowAt('09:10', ...coated)],
    ['go', 'coat-2 now, by 12:00', rowAt('10:00', ...coated)],
    ['missed', 'coat-2 missed its window, decide', rowAt('12:30', ...coated)],
    ['begun', 'coat-2 at work, cup-1 good until 10:10', rowAt('09:55', ...coated, poured('cup-1', 'coat-2', '09:50'))],
    ['held', 'on hold: no material', rowAt('09:10', ...coated, held('09:05'))],
    [
      'touch',
      'touch it at 11:00, before coat-2',
      rowAt('10:00', started('08:00', { steps: cold }), warmed(13, '08:30'), did('coat-1', '09:00')),
    ],
  ])('shows and says that a job is %s', (state, due, row) => {
    expect(row?.due).toBe(due);
    expect(row?.state).toBe(state);
    expect(row?.bars.map(({ what }) => what)).toContain(state);
  });

  it('shows what is done, what comes and the waits between, none over another', () => {
    const row = rowAt('09:10', ...coated);
    const bars = row?.bars ?? [];
    expect(bars.map(({ what, title }) => title || what)).toEqual([
      'seal',
      'wait',
      'coat-1',
      'wait',
      'coat-2',
      'wait',
      'coat-3',
      'wait',
      'trim',
      'wax',
    ]);
    expect(bars[4]).toMatchObject({ from: t('09:45'), until: t('10:00'), what: 'hands' });
    for (const [index, bar] of bars.entries()) expect(bar.from).toBeGreaterThanOrEqual(bars[index - 1]?.until ?? 0);
    expect(row?.window).toMatchObject({ from: t('09:45'), until: t('12:00'), what: 'window' });
  });

  it('shows planned times where there is a plan', () => {
    const planned: JobPlan = {
      job: 'lion',
      name: 'Lion head',
      steps: [NEXT],
      readyAt: t('12:00'),
      readyBy: null,
    };
    const row = boardModel(view('09:10', ...coated), { ...beside, plans: new Map([['lion', planned]]) }).rows[0];
    expect(row?.due).toBe('coat-2 at 11:00 (in 1 h 50 min), by 11:40');
    expect(row?.bars.at(-1)).toMatchObject({ from: t('11:00'), until: t('11:15'), what: 'hands', title: 'coat-2' });
    expect(row?.bars.filter(({ what }) => what === 'done')).toHaveLength(2);
    // It could begin at 09:45, and does not: nothing is to be done now.
    const later = boardModel(view('10:00', ...coated), { ...beside, plans: new Map([['lion', planned]]) }).rows[0];
    expect(later).toMatchObject({ due: 'coat-2 at 11:00 (in 1 h), by 11:40', state: 'hands' });

    const tight = { ...planned, steps: planned.steps.map((each) => ({ ...each, latestAt: each.startsAt })) };
    expect(boardModel(view('09:10', ...coated), { ...beside, plans: new Map([['lion', tight]]) }).rows[0]?.due).toBe(
      'coat-2 at 11:00 (in 1 h 50 min), no time to spare',
    );
    expect(planModel(tight, view('09:10', ...coated), null).rows[0]?.due).toBe('11:00, no time to spare');

    const model = planModel(planned, view('09:10', ...coated), null);
    expect(model).toMatchObject({ headline: 'coat-2 at 11:00, ready 12:00', trouble: '', marks: [] });
    const wanted = (time: string) => planModel({ ...planned, readyBy: t(time) }, view('09:10', ...coated), null);
    expect(wanted('13:00')).toMatchObject({ trouble: '', marks: [{ at: t('13:00'), word: 'wanted' }] });
    expect(wanted('11:30')).toMatchObject({ trouble: 'Wanted by 11:30: 30 min too late', lines: [] });
    expect(model.title).toBe('Plan, Mon 2 Mar, 09:10: Lion head');
    expect(planModel({ ...planned, job: null }, view('09:10', ...coated), null).headline).toBe('Start 11:00, ready 12:00');
    expect(model.rows).toMatchObject([
      { name: 'coat-2', due: '11:00, by 11:40', window: { from: t('09:45'), until: t('12:00') } },
    ]);
  });

  describe('with what does not fit', () => {
    const shift = [{ from: t('08:00'), until: t('12:00') }];
    const trouble = (step: string) => ({ job: 'lion', step, words: `${step} does not fit` });
    const boardWith = (more: Partial<Beside>, now = '09:10') => boardModel(view(now, ...coated), { ...beside, ...more });
    const looks = (model: BoardPicture) =>
      model.rows[0]?.bars.flatMap(({ what, title }) => (title === '' ? [] : [[title, what]]));

    it('says what is due, and marks the step; nothing after it looks planned', () => {
      const model = boardWith({ staffed: shift, troubles: [trouble('coat-3')] });
      expect(model).toMatchObject({ headline: 'Lion head: coat-2 at 09:45 (in 35 min), by 12:00', trouble: '' });
      expect(model.rows[0]).toMatchObject({ state: 'hands', trouble: 'coat-3 does not fit' });
      expect(looks(model)).toEqual([
        ['seal', 'done'],
        ['coat-1', 'done'],
        ['coat-2', 'hands'],
        ['coat-3', 'unfit'],
        ['trim', 'earliest'],
        ['wax', 'earliest'],
      ]);
    });

    it('says no earliest time of a step that finds no place', () => {
      const model = boardWith({ staffed: shift, troubles: [trouble('coat-2')] });
      expect(model.headline).toBe('Lion head: coat-2 does not fit');
      expect(model.rows[0]).toMatchObject({ due: '', state: 'unfit', trouble: 'coat-2 does not fit' });
    });

    it('names the first of several jobs with a trouble beneath the headline', () => {
      const events = [...coated, started('08:00', { job: 'vase' })];
      const model = boardModel(view('09:10', ...events), { ...beside, troubles: [trouble('coat-3')] });
      expect(model.trouble).toBe('Lion head: coat-3 does not fit');
      // Of the first job the headline says what is due, and only where nothing is, what is wrong.
      const first = [...events, held('09:05', { job: 'vase' })];
      const troubleOf = (step: string) => boardModel(view('09:10', ...first), { ...beside, troubles: [trouble(step)] }).trouble;
      expect(troubleOf('coat-3')).toBe('Lion head: coat-3 does not fit');
      expect(troubleOf('coat-2')).toBe('');
    });

    it('draws as earliest what lies where nobody is on shift, and all after it', () => {
      const until = (time: string) => boardWith({ staffed: [{ from: t('08:00'), until: t(time) }] });
      expect(looks(until('10:05'))?.slice(2)).toEqual([
        ['coat-2', 'hands'],
        ['coat-3', 'earliest'],
        ['trim', 'earliest'],
        ['wax', 'earliest'],
      ]);
      expect(looks(boardWith({}))?.map(([, what]) => what)).not.toContain('earliest');
      // In pieces, beside and over each other; to the minute at which the step ends, and with a gap.
      const pieces = (...spans: [string, string][]) =>
        looks(boardWith({ staffed: spans.map(([from, until]) => ({ from: t(from), until: t(until) })) }))?.[2];
      expect(pieces(['09:50', '10:00'], ['08:00', '09:50'], ['08:10', '09:00'])).toEqual(['coat-2', 'hands']);
      expect(pieces(['08:00', '09:50'], ['09:51', '10:05'])).toEqual(['coat-2', 'earliest']);
      expect(pieces(['08:00', '09:59'])).toEqual(['coat-2', 'earliest']);
    });
  });

  it('says how long the cups at work are good: of those still good the first, else the last that was', () => {
    const due = (now: string, ...cups: readonly BenchEvent[]) => rowAt(now, ...coated, ...cups)?.due;
    const first = poured('cup-1', 'coat-2', '09:50', { potLife: 20 });
    const second = poured('cup-2', 'coat-2', '09:55', { potLife: 30 });
    expect(due('10:00', first, second)).toBe('coat-2 at work, cup-1 good until 10:10');
    expect(due('10:15', first, second)).toBe('coat-2 at work, cup-2 good until 10:25');
    expect(due('10:30', first, second)).toBe('coat-2 at work, cup-2 over since 10:25');
    expect(due('10:00', first, ended('cup-1', 'spent', '09:58'))).not.toContain('cup');
    expect(due('10:00', { ...first, usable: { fromCelsius: 15, untilCelsius: 32 } } as BenchEvent, warmed(13, '09:55'))).toBe(
      'coat-2 at work, look at cup-1',
    );
  });

  it('begins anew what was begun and left, when the cup is over', () => {
    const bars = rowAt('11:00', ...coated, poured('cup-1', 'coat-2', '09:50'))?.bars ?? [];
    expect(bars.find(({ title }) => title === 'coat-2')).toMatchObject({ from: t('11:00'), until: t('11:15'), what: 'go' });
    for (const [index, bar] of bars.entries()) expect(bar.from).toBeGreaterThanOrEqual(bars[index - 1]?.until ?? 0);
  });

  it('says how far off what is next is, unless that is hours off', () => {
    const due = (at: string) => {
      const planned = { ...NEXT, startsAt: t(at), endsAt: t(at) + 15 * MINUTE };
      const plans = new Map([['lion', { job: 'lion', name: 'Lion head', steps: [planned], readyAt: t('12:00'), readyBy: null }]]);
      return boardModel(view('09:10', ...coated), { ...beside, plans }).rows[0]?.due;
    };
    expect(due('11:10')).toBe('coat-2 at 11:10 (in 2 h), by 11:40');
    expect(due('11:11')).toBe('coat-2 at 11:11, by 11:40');
  });

  it('draws as planned nothing that comes after a missed window', () => {
    const looks = rowAt('12:30', ...coated)?.bars.flatMap(({ what, title }) => (title === '' ? [] : [[title, what]]));
    expect(looks?.slice(2)).toEqual([
      ['coat-2', 'missed'],
      ['coat-3', 'earliest'],
      ['trim', 'earliest'],
      ['wax', 'earliest'],
    ]);
  });

  it('names nobody by a bare number, and others as it is told', () => {
    const who = (by: string, names?: (id: string) => string | undefined) =>
      boardModel(view('09:10', started('08:00', { by })), { ...beside, ...(names && { names }) }).rows[0]?.who;
    expect(who('dana')).toBe('dana');
    expect(who('80351110224678912')).toBe('');
    expect(who('80351110224678912', () => 'Dana')).toBe('Dana');
  });

  it('says where nothing is going on', () => {
    expect(boardModel(view('09:10'), beside)).toMatchObject({ headline: 'Nothing is going on here', rows: [] });
  });
});

describe('nights', () => {
  it('are what is not from seven to seven', () => {
    const { state } = given();
    expect(nightsBetween(state, studio(), { from: t('06:00'), until: t('08:00', 1) })).toEqual([
      { from: t('06:00'), until: t('07:00') },
      { from: t('19:00'), until: t('07:00', 1) },
    ]);
  });

  // Central European clocks go forward on 29 March 2026 (Directive 2000/84/EC): that night is an hour shorter.
  it('are an hour shorter when the clock goes forward', () => {
    const from = Date.parse('2026-03-28T12:00Z');
    const [night] = nightsBetween(given().state, studio({ zone: 'Europe/Berlin' }), { from, until: from + 24 * HOUR });
    expect((night?.until ?? 0) - (night?.from ?? 0)).toBe(11 * HOUR);
  });
});
