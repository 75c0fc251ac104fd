import { expect, test } from 'vitest';
import type { Announce } from '../../src/bench/bench.ts';
import { StandingClock } from '../../src/bench/standing-clock.ts';
import { MINUTE } from '../../src/trade/time/calendar.ts';
import { did, noted, poured, recoat, started, step, t } from '../support/given.ts';
import { Disk, openHouse } from '../support/house.ts';
import { studio } from '../support/studio.ts';

const COATS = [step('coat-1', recoat(45, 180)), step('coat-2', recoat(45, 180)), step('end')];
const HISTORY = [started('08:50', { steps: COATS }), did('coat-1', '09:00')];

/** A bench at nine whose announcements do what the test says. */
async function bench(announce: Announce) {
  const disk = new Disk();
  const clock = new StandingClock(t('09:00'));
  const house = openHouse(disk, clock, studio(), announce);
  await house.bench('one').decide(() => HISTORY);
  return { disk, clock, house, one: house.bench('one') };
}

test('nobody who asks something waits for a platform that takes its time', async () => {
  let arrive = () => {};
  const { clock, one } = await bench(
    () =>
      new Promise((resolve) => {
        arrive = () => resolve('sent');
      }),
  );
  const rung = clock.advanceTo(t('09:45'));
  await new Promise((resolve) => setImmediate(resolve));
  // The ping is on its way; the bench answers all the same.
  await one.decide(() => [noted('thin on the nose', '09:45')]);
  expect((await one.log()).map(({ type }) => type)).toEqual(['JobStarted', 'StepDone', 'NoteAdded']);
  arrive();
  await rung;
  expect((await one.log()).at(-1)).toMatchObject({ type: 'PingSent', kind: 'recoat-open' });
});

test('what was told while a ping was on its way is an answer to it, although it stands before it in the record', async () => {
  const kinds: string[] = [];
  const { clock, one } = await bench(async (ping) => {
    if (ping.why === 'due' && ping.kind === 'recoat-open') await one.decide(() => [noted('on it', '09:45')]);
    kinds.push(`${ping.kind} ${ping.why}`);
    return 'sent';
  });
  await clock.advanceTo(t('10:00'));
  expect(kinds).toEqual(['recoat-open due']);
  // Without it, everybody on duty would have been told after the grace time.
  const other: string[] = [];
  const quiet = await bench(async (ping) => {
    other.push(`${ping.kind} ${ping.why}`);
    return 'sent';
  });
  await quiet.clock.advanceTo(t('10:00'));
  expect(other).toEqual(['recoat-open due', 'recoat-open unanswered']);
});

test('a ping whose channel cannot be reached stays to be sent, and holds up no other', async () => {
  const told: string[] = [];
  let reachable = false;
  const { clock, one } = await bench(async (ping, { now, late }) => {
    told.push(`${ping.kind} ${(now - t('09:00')) / MINUTE}${late ? ' late' : ''}${reachable ? '' : ' held'}`);
    return reachable ? 'sent' : 'held';
  });
  await one.decide(() => [poured('cup-1', null, '09:40')]);
  await clock.advanceTo(t('10:01'));
  expect(told).toEqual([
    'recoat-open 45 held',
    'pot-low 55 held',
    'recoat-open 55 late held',
    'pot-low 60 late held',
    'pot-over 60 held',
    'recoat-open 60 late held',
  ]);
  reachable = true;
  told.length = 0;
  await one.wake();
  // All of them now, the pot life first, and none of them ever again.
  expect(told).toEqual(['pot-low 61 late', 'pot-over 61', 'recoat-open 61 late']);
  told.length = 0;
  await clock.advanceTo(t('10:05'));
  expect(told).toEqual([]);
});

test('rung by several at once, it sends each ping once, the most urgent first', async () => {
  const told: string[] = [];
  const { clock, house, one } = await bench(async (ping) => {
    await new Promise((resolve) => setImmediate(resolve));
    told.push(ping.kind);
    return 'sent';
  });
  await one.decide(() => [poured('cup-1', null, '09:25', { potLife: 20 })]);
  house.sleep();
  await clock.advanceTo(t('09:46'));
  await Promise.all([one.wake(), one.wake(), house.wakeAll(), one.wake()]);
  expect(told).toEqual(['pot-low', 'pot-over', 'recoat-open']);
});

test('what is forgotten rings no more, and leaves nothing on the disk but a name', async () => {
  const told: string[] = [];
  const { clock, house, one, disk } = await bench(async (ping) => {
    told.push(ping.kind);
    await house.forget();
    return 'sent';
  });
  await clock.advanceTo(t('09:45'));
  expect(told).toEqual(['recoat-open']);
  expect(await one.log()).toEqual([]);
  await clock.advanceTo(t('23:00'));
  expect(told).toHaveLength(1);
  expect([...disk.values()].join()).not.toContain('Lion head');
  // It may begin anew.
  await one.decide(() => HISTORY);
  expect((await one.log()).map(({ seq }) => seq)).toEqual([1, 2]);
});
