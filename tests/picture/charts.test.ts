import { describe, expect, it } from 'vitest';
import { pngPainter } from '../../src/adapters/png/painter.ts';
import type { JobPlan } from '../../src/bench/planning/plan.ts';
import { cureModel } from '../../src/cards/cure-view.ts';
import { temperatureModel } from '../../src/cards/temperature-view.ts';
import { boardPicture, curePicture, orNone, planPicture, temperaturePicture } from '../../src/desk/pictures.ts';
import { MINUTE } from '../../src/trade/time/calendar.ts';
import { did, STEPS, started, t, warmed } from '../support/given.ts';
import { studio } from '../support/studio.ts';
import { beside, coated, cold, view } from './benches.ts';

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

  it('are told of by their own clocks, whatever is planned', () => {
    const words = (now: string) => cureModel(view(now, ...coated)).waits[0]?.words;
    expect(words('09:10')).toBe('coat-2 from 09:45 (in 35 min), by 12:00');
    expect(words('10:00')).toBe('coat-2 can go on, by 12:00');
    expect(words('12:30')).toBe('coat-2 missed its window, decide');
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

  it('leaves out what was moved and has come since', () => {
    expect(temperatureModel(view('10:29', ...events)).moved).toHaveLength(1);
    expect(temperatureModel(view('10:31', ...events)).moved).toEqual([]);
  });

  it('says first that it is too cold, or too warm, for what is at work', () => {
    const at = (celsius: number) =>
      temperatureModel(view('09:40', started('08:00', { steps }), warmed(celsius, '09:00'))).headline;
    expect(at(4.5)).toBe('4.5 °C, read at 09:00: too cold, check by touch');
    expect(at(5)).toBe('5 °C, read at 09:00');
    expect(at(32)).toBe('32 °C, read at 09:00');
    expect(at(33)).toBe('33 °C, read at 09:00: too warm, check by touch');
    // Where nothing is at work, nothing is too cold.
    expect(temperatureModel(view('09:40', warmed(4.5, '09:00'))).headline).toBe('4.5 °C, read at 09:00');
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
      ['plan.png', 'Plan, Mon 2 Mar, 09:10: Heron. Start 10:00, ready 11:00. Seal: 10:00.'],
      ['temperature.png', 'Temperature, Mon 2 Mar, 09:10. 21 °C, read at 08:00.'],
      ['waits.png', 'Waits, Mon 2 Mar, 09:10. Lion head: coat-1, 22 %: coat-2 from 09:45 (in 35 min), by 12:00.'],
    ]);
    for (const { bytes, type } of files) {
      expect([...bytes.slice(0, 8)]).toEqual(PNG_SIGNATURE);
      expect(type).toBe('image/png');
    }
  });

  it('says who has it beside what is due, and then what does not fit', async () => {
    const about = async (step: string) => {
      const troubles = [{ job: 'lion', step, words: `${step} does not fit.` }];
      return (await boardPicture(view('09:10', ...coated), { ...beside, troubles }, painter)).about;
    };
    expect(await about('coat-3')).toMatch(/coat-2 at 09:45 \(in 35 min\), by 12:00, with dana; coat-3 does not fit\.$/);
    expect(await about('coat-2')).toMatch(/Lion head: coat-2 does not fit, with dana\.$/);
  });

  it('says what the materials at work are made for', async () => {
    const bench = view('09:10', started('08:00', { steps: cold }), warmed(21, '08:00'));
    expect((await temperaturePicture(bench, painter)).about).toContain('. What is at work is made for 15 to 32 °C.');
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
