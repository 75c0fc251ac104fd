import { describe, expect, it } from 'vitest';
import { pngPainter } from '../../src/adapters/png/painter.ts';
import type { BenchEvent } from '../../src/bench/events.ts';
import type { JobPlan } from '../../src/bench/planning/plan.ts';
import { type Beside, boardModel } from '../../src/cards/board-view.ts';
import type { BenchView } from '../../src/cards/brief-card.ts';
import { cureModel } from '../../src/cards/cure-view.ts';
import { nightsBetween } from '../../src/cards/nights.ts';
import { planModel } from '../../src/cards/plan-view.ts';
import { temperatureModel } from '../../src/cards/temperature-view.ts';
import { boardPicture, curePicture, orNone, planPicture, temperaturePicture } from '../../src/desk/pictures.ts';
import type { BoardPicture } from '../../src/picture/models.ts';
import { HOUR, MINUTE } from '../../src/trade/time/calendar.ts';
import { did, given, held, poured, RUBBER, recoat, STEPS, started, step, t, warmed } from '../support/given.ts';
import { studio } from '../support/studio.ts';

const view = (now: string, ...events: readonly BenchEvent[]): BenchView => ({
  state: given(...events).state,
  studio: studio(),
  now: t(now),
});
const beside = { staffed: null };
const coated: readonly BenchEvent[] = [started(), did('seal', '08:30'), did('coat-1', '09:00')];

/** Rubber that takes twice as long at ten kelvin less. */
const SLOW = { law: { law: 'q10' as const, q10: 2 }, referenceCelsius: 23 };
const USABLE = { fromCelsius: 15, untilCelsius: 32 };
const cold = [step('coat-1', recoat(60, 240, SLOW), { material: RUBBER, usable: USABLE }), step('coat-2')];

describe('a board', () => {
  const rowAt = (now: string, ...events: readonly BenchEvent[]) => boardModel(view(now, ...events), beside).rows[0];

  it.each([
    ['hands', 'coat-2 at 09:45 (in 35 min), by 12:00', rowAt('09:10', ...coated)],
    ['go', 'coat-2 now, by 12:00', rowAt('10:00', ...coated)],
    ['missed', 'coat-2 missed its window, decide', rowAt('12:30', ...coated)],
    ['begun', 'coat-2 at work, by 12:00', rowAt('09:55', ...coated, poured('cup-1', 'coat-2', '09:50'))],
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
      steps: [
        {
          step: 'coat-2',
          title: 'coat-2',
          kind: 'coat',
          startsAt: t('11:00'),
          endsAt: t('11:15'),
          opensAt: t('09:45'),
          closesAt: t('12:00'),
          latestAt: t('11:40'),
        },
      ],
      readyAt: t('12:00'),
      readyBy: null,
    };
    const row = boardModel(view('09:10', ...coated), { ...beside, plans: new Map([['lion', planned]]) }).rows[0];
    expect(row?.due).toBe('coat-2 at 11:00 (in 1 h 50 min), by 12:00');
    expect(row?.bars.at(-1)).toMatchObject({ from: t('11:00'), until: t('11:15'), what: 'hands', title: 'coat-2' });
    expect(row?.bars.filter(({ what }) => what === 'done')).toHaveLength(2);
    // It could begin at 09:45, and does not: nothing is to be done now.
    const later = boardModel(view('10:00', ...coated), { ...beside, plans: new Map([['lion', planned]]) }).rows[0];
    expect(later).toMatchObject({ due: 'coat-2 at 11:00, by 12:00', state: 'hands' });

    const model = planModel(planned, view('09:10', ...coated), null);
    expect(model).toMatchObject({ headline: 'Ready 12:00', trouble: '', marks: [] });
    const wanted = (time: string) => planModel({ ...planned, readyBy: t(time) }, view('09:10', ...coated), null);
    expect(wanted('13:00')).toMatchObject({ trouble: '', marks: [{ at: t('13:00'), word: 'promised' }] });
    expect(wanted('11:30')).toMatchObject({ trouble: 'Wanted by 11:30: 30 min too late', lines: [] });
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
    });
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

describe('waits', () => {
  // Arithmetic: 30 min at the reference temperature, then 30 min at half the speed, are 45 of 60 min.
  it('are over by as much as the temperature let them', () => {
    const events = [
      started('08:00', { steps: cold.map((each) => ({ ...each, usable: null })) }),
      warmed(23, '08:00'),
      did('coat-1', '09:00'),
      warmed(13, '09:30'),
    ];
    const wait = cureModel(view('10:00', ...events)).waits[0];
    expect(wait?.sharePercent).toBeCloseTo(75, 6);
    expect(wait).toMatchObject({ name: 'Lion head: coat-1', state: 'hands' });
  });

  it('go on first, then those that are over', () => {
    const events = [...coated, started('08:00', { job: 'vase' }), did('seal', '09:40', { job: 'vase' })];
    expect(cureModel(view('09:50', ...events)).waits.map(({ sharePercent }) => sharePercent === 100)).toEqual([false, true]);
  });

  it('are over when the window is open, and untold where no clock can tell', () => {
    expect(cureModel(view('10:00', ...coated)).waits[0]?.sharePercent).toBe(100);
    const events = [started('08:00', { steps: cold }), warmed(13, '08:30'), did('coat-1', '09:00')];
    expect(cureModel(view('10:00', ...events)).waits[0]).toMatchObject({ sharePercent: null, state: 'touch' });
    expect(cureModel(view('10:00'))).toMatchObject({ headline: 'Nothing is curing here', waits: [] });
  });
});

describe('a temperature record', () => {
  const steps = cold.map((each) => ({ ...each, usable: each.id === 'coat-1' ? { fromCelsius: 5, untilCelsius: 32 } : null }));
  const events = [started('08:00', { steps }), warmed(23, '08:00'), did('coat-1', '09:00'), warmed(13, '09:30')];

  it('shows what was read, and which waits the last reading moved', () => {
    const model = temperatureModel(view('09:40', ...events));
    expect(model.readings).toEqual([
      { at: t('08:00'), degrees: 23 },
      { at: t('09:30'), degrees: 13 },
    ]);
    expect(model.headline).toBe('13 °C, read at 09:30');
    // Half of the hour was gone; the other half takes twice as long.
    expect(model.moved).toMatchObject([
      { was: t('10:00'), is: t('10:30'), words: 'Lion head: coat-2 opens at 10:30, 30 min later' },
    ]);
    expect(model.usable).toMatchObject({ from: 5, until: 32 });
    expect(model.course.map(({ degrees, read }) => [degrees, read])).toEqual([
      [23, true],
      [13, true],
    ]);
  });

  it('is in the studio’s units', () => {
    const customary = { ...view('09:40', ...events), studio: studio({ units: 'customary' }) };
    const model = temperatureModel(customary);
    expect(model.unit).toBe('°F');
    expect(model.readings.map(({ degrees }) => Math.round(degrees * 10) / 10)).toEqual([73.4, 55.4]);
  });

  it('can be empty', () => {
    expect(temperatureModel(view('09:40'))).toMatchObject({
      headline: 'No temperature is logged',
      course: [],
      moved: [],
      usable: null,
    });
  });
});

describe('a picture as a file', () => {
  const painter = pngPainter();
  const PNG_SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

  it('says in words what it shows', async () => {
    const bench = view('09:10', ...coated, warmed(21, '08:00'));
    const plan: JobPlan = {
      job: null,
      name: 'Heron',
      steps: [
        {
          step: 'a',
          title: 'Seal',
          kind: 'prepare',
          startsAt: t('10:00'),
          endsAt: t('10:20'),
          opensAt: t('10:00'),
          closesAt: null,
          latestAt: null,
        },
      ],
      readyAt: t('11:00'),
      readyBy: null,
    };
    const files = await Promise.all([
      boardPicture(bench, beside, painter),
      planPicture(plan, bench, null, painter),
      temperaturePicture(bench, painter),
      curePicture(bench, painter),
    ]);
    expect(files.map(({ name, about }) => [name, about])).toEqual([
      ['board.png', 'Board, Mon 2 Mar, 09:10. Lion head: coat-2 at 09:45 (in 35 min), by 12:00, with dana.'],
      ['plan.png', 'Plan: Heron. Ready 11:00. Seal: 10:00.'],
      ['temperature.png', 'Temperature, Mon 2 Mar, 09:10. 21 °C, read at 08:00.'],
      ['waits.png', 'Waits, Mon 2 Mar, 09:10. Lion head: coat-1, 22 %: coat-2 at 09:45 (in 35 min), by 12:00.'],
    ]);
    for (const { bytes, type } of files) {
      expect([...bytes.slice(0, 8)]).toEqual(PNG_SIGNATURE);
      expect(type).toBe('image/png');
    }
  });

  it('says how many there are that it cannot say in a thousand characters', async () => {
    const many = Array.from({ length: 30 }, (_, index) => started('08:00', { job: `job-${index}`, steps: STEPS }));
    const { about } = await boardPicture(view('09:10', ...many), beside, painter);
    expect(about.length).toBeLessThanOrEqual(1000);
    const left = Number(/And (\d+) more\.$/.exec(about)?.[1]);
    expect(about.split('Lion head').length - 1 + left).toBe(30);
  });

  it('is left out where it cannot be painted, and somebody is told why', async () => {
    const told: unknown[] = [];
    const error = new Error('no more memory');
    const trouble = (each: unknown) => void told.push(each);
    const rejecting = { ...painter, png: () => Promise.reject(error), trouble };
    const unmeasured = {
      ...painter,
      measure: () => {
        throw error;
      },
      trouble,
    };
    const bench = view('09:10', ...coated, warmed(21, '08:00'));
    for (const broken of [rejecting, unmeasured, { ...rejecting, trouble: undefined }].map(({ trouble, ...rest }) =>
      trouble ? { ...rest, trouble } : rest,
    )) {
      expect(await orNone(boardPicture(bench, beside, broken))).toEqual([]);
      expect(await orNone(temperaturePicture(bench, broken))).toEqual([]);
    }
    expect(told).toEqual([error, error, error, error]);
    expect(await orNone(boardPicture(bench, beside, painter))).toHaveLength(1);
  });

  it('is painted well within a second', async () => {
    const from = performance.now();
    await boardPicture(view('09:10', ...coated), beside, painter);
    // A machine that does other things at once takes longer; measured alone it is a tenth of this.
    expect(performance.now() - from).toBeLessThan(MINUTE / 60);
  });
});
