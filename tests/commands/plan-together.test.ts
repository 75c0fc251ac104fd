import { expect, test } from 'vitest';
import { labels, roomEach } from '../support/room.ts';
import { NEW, planOf, SHIFTS, startsOf, troublesOf } from './plans.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);
const PLASTER = 'skin:brush-silicone-platinum shell:casting-plaster';

test('jobs that go on as they were planned keep their promises', async () => {
  await here.type('/shift set hours:06:00-14:00 days:daily', '/shift hands count:1', '/temp log value:19 C');
  await here.type(`/job start name:J0 start:"2026-03-04 09:06" ready-by:"in 4 days" ${PLASTER}`);
  await here.type(`/job start name:J1 start:"2026-03-03 08:45" ready-by:"in 4 days" ${NEW}`);
  expect(troublesOf(await last(`/job start name:J2 start:"2026-03-02 08:00" ${NEW}`, '/plan'))).toEqual([]);
  expect(troublesOf(await last('+30m', '/done job:j2', '/plan'))).toEqual([]);
  expect(troublesOf(await last('+30m', '/done job:j2', '/plan'))).toEqual([]);
});

test('a new job that fits around the others moves none of them when it is started', async () => {
  await here.type('/shift set hours:08:00-17:00 days:daily', '/shift hands count:1', '/temp log value:19 C');
  await here.type(`/job start name:J0 ${PLASTER}`);
  const readyAt = async () => planOf(await last('/plan job:j0'))?.readyAt;
  const before = await readyAt();
  expect((await last(`/plan name:New ${PLASTER} ready-by:"in 2 days"`))?.text).toContain('Planned around the other job');
  await here.type('[Start this plan]');
  expect(await readyAt()).toBe(before);
});

test('whoever was left out goes to the front alone, where that does for all', async () => {
  await here.type('/shift set hours:06:00-14:00, 14:00-22:00 days:daily', '/shift hands count:1', '/temp log value:21 C');
  const block = 'recipe:block-pour skin:pour-urethane';
  await here.type(`/job start name:J0 ${block}`, `/job start name:J1 start:"2026-03-02 09:00" ${NEW}`);
  const ready = async () => planOf(await last('/plan job:j0'))?.readyAt;
  const before = await ready();
  await here.type(`/plan name:New ${block}`, '[Start this plan]');
  expect(await ready()).toBe(before);
});

test('others make way for a promise, too, and for a start that is now', async () => {
  await here.type(SHIFTS, '/shift hands count:1', `/job start name:Owl ${NEW}`);
  const promised = await last(`/plan name:Fox ${NEW} ready-by:wed 9:45`);
  expect(promised?.text).toContain('Owl makes way');
  expect(planOf(promised)?.readyAt).toContain('04T09:20');
  const now = await last(`/plan name:Fox ${NEW} start:now`);
  expect(startsOf(now)['seal']).toBe('02 08:00');
  await here.type('[Start this plan]');
  expect(startsOf(await last('/plan job:fox'))['seal']).toBe('02 08:00');
});

test('where no start does, the cause is what is wrong with all of them, and nobody stays for nine hours', async () => {
  await here.type('/shift set hours:06:00-14:00 days:daily', '/recipe copy recipe:skin-paste name:Long');
  await here.type('/recipe step recipe:long step:shell hands:9 h');
  const refused = await last('/plan name:Owl recipe:long skin:brush-urethane shell:shell-paste start:tomorrow 6:00');
  expect(refused?.text).toContain('takes 9 h and can only begin');
  expect(refused?.text).not.toMatch(/all hands are at work/);
  for (const label of labels(refused)) expect(label).not.toMatch(/One more person/);
});

test('where no order of whole jobs serves, two give way to each other in turns', async () => {
  await here.type(SHIFTS, '/shift hands count:1', `/plan name:Lion ${NEW} start:8:00 ready-by:wed 10:00`, '[Start this plan]');
  const shown = await last('/done job:lion', '+45m', '/done job:lion', `/plan name:Foot ${NEW} start:9:30`);
  expect(shown?.title).toBe('Foot: start 09:30, ready Wed 10:40');
  expect(shown?.text).toContain('Lion makes way: Second coat at 10:00, ready Wed 09:20');
  expect(shown?.text).not.toContain('Planned around');
  await here.type('[Start this plan]');
  // By hand: Lion's coats at 10, 11 and 12, Foot's a quarter past from 10:15; on Tuesday Lion first, for its promise.
  const starts = [startsOf(await last('/plan job:lion')), startsOf(await last('/plan job:foot'))];
  expect(starts.map((each) => [each['coat-2'], each['trim']])).toEqual([
    ['02 10:00', '03 08:00'],
    ['02 11:15', '03 09:45'],
  ]);
});

test('that another job waits a day because of this one is said where it comes about', async () => {
  await here.type('/shift set hours:06:00-14:00 days:mon-fri', '/shift hands count:1', '+until 12:00');
  await here.type(`/plan name:Lion ${NEW} area:0.4 m2 start:now extra:today 14:00-16:00`, '[Start this plan]');
  await here.type(`/job start name:Bear ${NEW} area:0.1 m2`, '/done job:bear', '+30m', '/done job:lion', '+10m');
  const poured = await last('/mix job:bear', '[Cup poured]');
  expect(poured?.text).toContain('As planned Lion is ready Thu 07:20, no longer Wed 07:20.');
});
