import { describe, expect, test } from 'vitest';
import type { Announce } from '../../src/bench/bench.ts';
import type { BenchEvent } from '../../src/bench/events.ts';
import { StandingClock } from '../../src/bench/standing-clock.ts';
import { MINUTE } from '../../src/trade/time/calendar.ts';
import { cure, did, RUBBER, recoat, started, step, t, touched, undid } from '../support/given.ts';
import { Disk, openHouse } from '../support/house.ts';
import { studio } from '../support/studio.ts';

const STEPS = [
  step('coat-1', recoat(60, 180), { material: RUBBER }),
  step('coat-2', cure(600), { material: RUBBER }),
  step('trim'),
];
/** A coat done at nine; the next one after an hour, says its sheet. */
const COAT = [started('08:00', { steps: STEPS }), did('coat-1', '09:00')];
/** Found ready after 36 minutes: 0.6 of the time, believed by a quarter. */
const EARLY = touched('coat-1', 'ready', '09:36');
const FACTOR = 0.6 ** 0.25;

function world() {
  const disk = new Disk();
  const clock = new StandingClock(t('09:00'));
  const rung: string[] = [];
  const troubles: unknown[] = [];
  const announce: Announce = async ({ kind }, { channel, now }) => {
    rung.push(`${channel} ${kind} ${Math.round((now - t('09:00')) / MINUTE)}`);
    return 'sent';
  };
  const open = () =>
    openHouse(disk, clock, studio({ duty: { always: [], byShift: {} } }), announce, (error) => troubles.push(error));
  const house = open();
  const tell = (channel: string, ...events: BenchEvent[]) => house.bench(channel).decide(() => events);
  const paces = async () => Object.fromEntries((await house.studio()).paces);
  return { disk, clock, rung, troubles, open, house, tell, paces };
}

const rubber = (factor: number, checks: number) => ({ [RUBBER.id]: { factor: expect.closeTo(factor, 9), checks } });

describe('what one bench has learned', () => {
  test('moves the timers of the others', async () => {
    const { clock, rung, house, tell } = world();
    await tell('one', ...COAT);
    await tell('two', ...COAT);
    await clock.advanceTo(t('09:36'));
    await tell('one', EARLY);
    await house.followed();
    await clock.advanceTo(t('10:30'));
    expect(rung).toEqual([`two recoat-open ${Math.round(60 * FACTOR)}`]);
  });

  test('is known after a start, before anybody has asked for that bench', async () => {
    const { tell, open } = world();
    await tell('one', ...COAT, EARLY);
    expect(Object.fromEntries((await open().studio()).paces)).toEqual(rubber(FACTOR, 1));
  });

  test('is unlearned with the check, also while the others are still being read', async () => {
    const { disk, tell, open, paces } = world();
    await tell('one', ...COAT, EARLY);
    await tell('two', ...COAT);
    const again = open();
    const reading = again.studio();
    await again.bench('one').decide(() => [undid(3, '09:40')]);
    await reading;
    expect((await again.studio()).paces.size).toBe(0);
    expect(await paces()).toEqual(rubber(FACTOR, 1));
    expect(disk.size).toBeGreaterThan(0);
  });

  test('does not count from before a reset, and counts again after it', async () => {
    const { house, tell, paces } = world();
    await tell('one', ...COAT, EARLY);
    const reset = { version: 1 as const, type: 'PaceReset' as const, at: t('09:40'), by: 'dana', materials: [RUBBER.id] };
    await house.changeStudio(() => [reset]);
    expect(await paces()).toEqual({});
    await tell('two', ...COAT, touched('coat-1', 'ready', '09:45'));
    expect(await paces()).toEqual(rubber(0.75 ** 0.25, 1));
  });

  test('is forgotten with the studio', async () => {
    const { house, tell, paces } = world();
    await tell('one', ...COAT, EARLY);
    await house.forget();
    expect(await paces()).toEqual({});
  });

  test('a coat that was scrapped and one that took its place are two', async () => {
    const { tell, paces } = world();
    await tell('one', ...COAT, EARLY, undid(2, '09:50'), did('coat-1', '10:00'), touched('coat-1', 'ready', '10:36'));
    expect(await paces()).toEqual(rubber(FACTOR, 1));
  });

  test('a bench that cannot be read keeps nobody from the others', async () => {
    const { disk, tell, open, troubles } = world();
    await tell('one', ...COAT, EARLY);
    await tell('two', ...COAT);
    for (const key of [...disk.keys()])
      if (key.includes('bench:two:')) disk.set(key, String(disk.get(key)).replace('JobStarted', 'JobBroken'));
    const again = open();
    expect(Object.fromEntries((await again.studio()).paces)).toEqual(rubber(FACTOR, 1));
    expect(troubles).toHaveLength(1);
  });

  test('two processes on one folder: a bench that is asked again knows what the other has told', async () => {
    const { tell, open } = world();
    await tell('one', ...COAT);
    const other = open();
    await other.studio();
    await tell('one', EARLY);
    await other.bench('one').state();
    expect(Object.fromEntries((await other.studio()).paces)).toEqual(rubber(FACTOR, 1));
  });

  test('makes no mould come out before its sheet’s time, and later where it cures slower', async () => {
    const { clock, rung, tell } = world();
    await tell('one', ...COAT, EARLY, did('coat-2', '09:40'));
    await clock.advanceTo(t('23:00'));
    expect(rung).toEqual(['one cure-done 640']);
  });
});
