import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Announce } from '../../src/bench/bench.ts';
import { StandingClock } from '../../src/bench/standing-clock.ts';
import { MINUTE } from '../../src/trade/time/calendar.ts';
import { Refusal } from '../../src/words/refusal.ts';
import { say } from '../../src/words/text.ts';
import { did, fixed, recoat, started, step, t } from '../support/given.ts';
import { Disk, openHouse } from '../support/house.ts';
import { studio } from '../support/studio.ts';

const quiet = studio({ duty: { always: [], byShift: {} } });
const history = [started(), did('seal', '08:30'), did('coat-1', '09:00')];

/** A bench at nine, and what it has announced as "kind at minutes past nine". */
async function bench() {
  const disk = new Disk();
  const clock = new StandingClock(t('09:00'));
  const told: string[] = [];
  const ids: string[] = [];
  const troubles: unknown[] = [];
  let down = 0;
  const announce: Announce = async (ping, { now, late }) => {
    if (down > 0) {
      down -= 1;
      throw new Error('the platform is down');
    }
    told.push(`${ping.kind} ${(now - t('09:00')) / MINUTE}${late ? ' late' : ''}`);
    ids.push(ping.id);
    return 'sent';
  };
  const start = () => openHouse(disk, clock, quiet, announce, (error) => troubles.push(error));
  const house = start();
  await house.bench('one').decide(() => history);
  return { disk, clock, told, ids, troubles, house, start, fail: (times: number) => (down = times) };
}

describe('a bench', () => {
  test('announces each ping at its own time', async () => {
    const { clock, told } = await bench();
    await clock.advanceTo(t('23:00'));
    expect(told).toEqual(['recoat-open 45', 'recoat-closing 150', 'recoat-missed 180']);
  });

  test('announces again under the same id what could not be recorded, and then never again', async () => {
    const { disk, clock, ids, told, troubles } = await bench();
    disk.failures = 1;
    await clock.advanceTo(t('10:00'));
    expect(told).toEqual(['recoat-open 45', 'recoat-open 45.5']);
    expect(new Set(ids).size).toBe(1);
    expect(troubles).toHaveLength(1);
    await clock.advanceTo(t('11:00'));
    expect(told).toHaveLength(2);
  });

  test('killed between the two, it does the same after the start', async () => {
    const { disk, clock, ids, told, house, start } = await bench();
    disk.failures = 1;
    await clock.advanceTo(t('09:45'));
    house.sleep();
    await clock.advanceTo(t('10:10'));
    expect(told).toEqual(['recoat-open 45']);
    const again = start();
    await again.wakeAll();
    await start().wakeAll();
    expect(told).toEqual(['recoat-open 45', 'recoat-open 70 late']);
    expect(new Set(ids).size).toBe(1);
  });

  test('down for hours, it tells each ping once, late and in order', async () => {
    const { clock, told, house, start } = await bench();
    house.sleep();
    await clock.advanceTo(t('13:00'));
    await start().wakeAll();
    expect(told).toEqual(['recoat-open 240 late', 'recoat-closing 240 late', 'recoat-missed 240 late']);
  });

  test('waits for a platform that is down, without losing anything or its order', async () => {
    const { clock, told, troubles, fail } = await bench();
    fail(5);
    await clock.advanceTo(t('12:30'));
    expect(told).toEqual(['recoat-open 47.5 late', 'recoat-closing 150', 'recoat-missed 180']);
    expect(troubles).toHaveLength(5);
  });

  test('a wake too many does no harm', async () => {
    const { clock, told, house, start } = await bench();
    await clock.advanceTo(t('09:45'));
    await Promise.all([house.wakeAll(), house.bench('one').wake(), house.wakeAll(), start().wakeAll()]);
    expect(told).toEqual(['recoat-open 45']);
  });

  test('a refusal stores nothing', async () => {
    const { disk, house } = await bench();
    const before = disk.size;
    const refused = await house.bench('one').decide(() => new Refusal('no', say`No.`));
    expect(refused).toBeInstanceOf(Refusal);
    await house.bench('two').decide(() => new Refusal('no', say`No.`));
    expect([disk.size, (await house.bench('one').log()).length]).toEqual([before, history.length]);
  });

  test('a write that fails is an error, and leaves everything as it was', async () => {
    const { disk, clock, told, house } = await bench();
    disk.failures = 1;
    await expect(house.bench('one').decide(() => [did('coat-2', '09:00')])).rejects.toThrow();
    expect(await house.bench('one').log()).toHaveLength(history.length);
    await clock.advanceTo(t('10:00'));
    expect(told).toEqual(['recoat-open 45']);
  });
});

test('a chain of coats rings at done plus its minutes, whenever each coat is done', async () => {
  const coat = fc.record({
    from: fc.integer({ min: 2, max: 90 }),
    window: fc.option(fc.integer({ min: 40, max: 300 })),
    share: fc.double({ min: 0, max: 0.999, noNaN: true }),
    told: fc.integer({ min: 0, max: 1 }),
  });
  await fc.assert(
    fc.asyncProperty(fc.array(coat, { minLength: 1, maxLength: 6 }), async (coats) => {
      const begun = t('08:00');
      const clock = new StandingClock(begun);
      const rung: [string, number][] = [];
      const house = openHouse(new Disk(), clock, quiet, async (ping, { now }) => {
        rung.push([`${ping.kind} ${ping.step}`, now]);
        return 'sent';
      });
      const steps = [
        ...coats.map(({ from, window }, index) => step(`c${index}`, recoat(from, window === null ? null : from + window))),
        step('end', fixed(5)),
      ];
      const now = () => ({ at: clock.now(), enteredAt: clock.now() });
      const bench = house.bench('one');
      await bench.decide(() => [{ ...started('08:00', { steps }), ...now() }]);
      const expected: [string, number][] = [];
      for (const [index, { from, window, share }] of coats.entries()) {
        const done = clock.now();
        await bench.decide(() => [{ ...did(`c${index}`, '08:00'), ...now() }]);
        // It is told in whole minutes. The next coat goes on somewhere in it; what would ring after that does not.
        const opens = Math.ceil(done / MINUTE + from) * MINUTE;
        const closes = window === null ? null : Math.floor(done / MINUTE + from + window) * MINUTE;
        const next = opens + Math.round(share * ((closes ?? opens + 300 * MINUTE) - opens));
        const name = index + 1 < coats.length ? `c${index + 1}` : 'end';
        const rings: [string, number][] = [[`recoat-open ${name}`, opens]];
        if (closes !== null) rings.push([`recoat-closing ${name}`, closes - Math.min(30 * MINUTE, (closes - opens) / 4)]);
        expected.push(...rings.filter(([, at]) => at <= next));
        await clock.advanceTo(next);
      }
      await bench.decide(() => [{ ...did('end', '08:00'), ...now() }]);
      await clock.advanceTo(clock.now() + 3000 * MINUTE);
      expect(rung).toEqual(expected);
    }),
    { numRuns: 60 },
  );
});
