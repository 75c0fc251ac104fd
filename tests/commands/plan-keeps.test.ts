import { expect, test } from 'vitest';
import { code, example, labels, roomEach } from '../support/room.ts';
import { NEW, planOf, SHIFTS, startsOf, troublesOf } from './plans.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);
const SHORT = '/shift set hours:08:00-12:00 days:mon-fri';

test('a plan that counts on one more person is kept with that person, once', async () => {
  const plan = await last(SHORT, `/job start name:Owl ${NEW}`, '/plan job:owl extra:today 12:00-20:00');
  const kept = await last('[Keep this plan]');
  expect(kept?.text).toContain('One more person is planned from 12:00 until 20:00.');
  expect(startsOf(await last('/plan job:owl'))).toEqual(startsOf(plan));
  expect((await last('/shift show'))?.text).toContain('Extra hours: 12:00 to 20:00 (1 pair of hands).');
  const again = await last('/plan job:owl extra:today 12:00-20:00', '[Keep this plan]', '[Keep this plan]');
  expect(code(again)).toBe('nothing-to-change');
  expect((await last('/shift show'))?.text).toContain('Extra hours: 12:00 to 20:00 (1 pair of hands).');
});

test('one pressed late, and again, moves no start and asks for nobody else', async () => {
  await here.type(SHORT, `/job start name:Owl ${NEW} start:9:00`, '/plan job:owl extra:today 12:00-20:00', '+65m');
  await here.type('[Keep this plan]', '+20m');
  expect(code(await last('[Keep this plan]'))).toBe('nothing-to-change');
  expect((await last('/shift show'))?.text).toContain('Extra hours: 12:00 to 20:00 (1 pair of hands).');
});

test('a plan that counts on a warmer room is kept with that room', async () => {
  const plan = await last(SHORT, `/job start name:Owl ${NEW}`, '/plan job:owl room:30');
  expect(plan?.text).toContain('a room at 30 °C');
  const kept = await last('[Keep this plan]');
  expect(kept?.text).toContain('expected at 30 °C, day and night');
  expect(startsOf(await last('/plan job:owl'))).toEqual(startsOf(plan));
  expect(code(await last('/job plan job:owl room:30'))).toBe('nothing-to-change');
});

test('a job under way keeps the person and the room of its plan, too', async () => {
  const plan = await last(SHORT, `/job start name:Owl ${NEW}`, '/done job:owl', '/plan job:owl extra:tue 12:00-13:00 room:25 C');
  const kept = await last('[Keep this plan]');
  expect(kept?.title).toContain('Owl is planned with one more person and the room at 25 °C');
  expect(startsOf(await last('/plan job:owl'))).toEqual(startsOf(plan));
  const twice = await last('/job plan job:owl extra:tue 12:00-13:00');
  expect(code(twice)).toBe('nothing-to-change');
  expect((await last(example(twice)))?.text).toContain('2 pairs of hands');
});

test('pressed again after the room was told otherwise, it brings the room back, and no second person', async () => {
  const plan = '/plan job:owl extra:tue 12:00-13:00 room:25 C';
  await here.type(
    SHORT,
    `/job start name:Owl ${NEW}`,
    '/done job:owl',
    plan,
    '[Keep this plan]',
    '/temp expect day:20 C night:15 C',
  );
  const again = await last(plan, '[Keep this plan]');
  expect(again?.text).toContain('expected at 25 °C');
  expect((await last('/shift show'))?.text).toContain('Tue 12:00 to Tue 13:00 (1 pair of hands).');
});

test('an offered person makes a promise, and it is kept: nothing is broken at once', async () => {
  await here.type('/shift set hours:06:00-14:00 days:mon-fri', '/shift hands count:1', `/job start name:Owl ${NEW}`);
  const offer = await last('/plan job:owl ready-by:wed 7:00');
  const [person = ''] = labels(offer).filter((label) => label.startsWith('One person'));
  const plan = await last(`[${person}]`);
  const kept = await last('[Keep this plan]');
  expect(kept?.title).toContain('Owl is to be ready by Wed 07:00');
  expect(troublesOf(kept)).toEqual([]);
  const shown = await last('/plan job:owl');
  expect(troublesOf(shown)).toEqual([]);
  expect(startsOf(shown)['seal']).toBe(startsOf(plan)['seal']);
  expect(planOf(shown)?.readyAt).toBe('2026-03-04T07:00:00+01:00');
});

test('another room or more hands alone move no planned start', async () => {
  await here.type('/shift set hours:08:00-16:00 days:mon-fri', `/job start name:Owl ${NEW} start:tue 8:00`);
  expect(startsOf(await last('/plan job:owl room:25 C'))['seal']).toBe('03 08:00');
  expect(startsOf(await last('/plan job:owl extra:today 17:00-19:00'))['seal']).toBe('03 08:00');
});

test('an undo of a start takes the room back that was told along with it', async () => {
  await here.type(SHIFTS, '/temp expect day:20 C night:15 C', `/plan name:Owl ${NEW} start:9:00 room:25 C`, '[Start this plan]');
  expect((await last('/temp show'))?.text).toContain('25');
  await here.type('/undo');
  const shown = (await last('/temp show'))?.text;
  expect(shown).toContain('15 °C');
  expect(shown).not.toContain('25');
});

test('an undo of a start says who is still planned for it, and takes that back with one tap', async () => {
  const extra = 'extra:today 16:00-20:00';
  const plan = `/plan name:Owl ${NEW} start:9:00 ${extra}`;
  const undone = await last(SHIFTS, plan, '[Start this plan]', '/undo');
  expect(undone?.text).toContain('One more person is still planned from 16:00 until 20:00.');
  expect(labels(undone)).toEqual(['Nobody more at 16:00']);
  expect((await last('[Nobody more at 16:00]'))?.text).not.toContain('Extra hours:');
  // Where another job asked for somebody in the same hours, that one stays.
  await here.type(plan, '[Start this plan]', plan.replace('Owl', 'Fox').replace('9:00', '12:00'), '[Start this plan]');
  expect((await last('/shift show'))?.text).toContain('16:00 to 20:00 (2 pairs of hands)');
  await here.type('/undo', '[One person fewer at 16:00]');
  expect((await last('/shift show'))?.text).toContain('16:00 to 20:00 (1 pair of hands)');
});

test('each of two jobs that share an hour is asked about its own, in whatever order they go', async () => {
  const extra = 'extra:today 16:00-20:00';
  await here.type(SHIFTS, `/job start name:Owl ${NEW} start:9:00 ${extra}`, `/job start name:Fox ${NEW} start:12:00 ${extra}`);
  const owl = await last('/undo job:owl');
  expect(owl?.text).toContain('One more person is still planned from 16:00 until 20:00.');
  expect(labels(owl)).toContain('One person fewer at 16:00');
  expect((await last('[One person fewer at 16:00]'))?.text).toContain('Extra hours: 16:00 to 20:00 (1 pair of hands).');
  expect(labels(await last('/undo job:fox'))).toContain('Nobody more at 16:00');
});

test('an undo of more hands for a job under way says that they stay, and takes the room back with them', async () => {
  await here.type(SHORT, '/temp expect day:20 C night:15 C', `/job start name:Owl ${NEW}`, '/done job:owl');
  await here.type('/plan job:owl extra:tue 12:00-13:00 room:25 C', '[Keep this plan]');
  const undone = await last('/undo');
  expect(undone?.title).toBe('Taken back: Owl, the hands asked for');
  expect(undone?.text).toContain('One more person is still planned from Tue 12:00 until Tue 13:00.');
  expect((await last('/temp show'))?.text).not.toContain('25 °C');
  expect((await last('[Nobody more at Tue 12:00]'))?.text).not.toContain('Extra hours');
  expect((await last('/board'))?.text).toContain('Seal and release');
});

test('hours that are over are left alone', async () => {
  const undone = await last(SHIFTS, `/job start name:Owl ${NEW} start:9:00 extra:today 16:00-20:00`, '+13h', '/undo job:owl');
  expect(undone?.text).not.toContain('still planned');
});

test('an undo says nothing of hands that were told by themselves', async () => {
  const undone = await last(SHIFTS, '/shift extra on:today hours:16-20', '+1m', `/job start name:Owl ${NEW}`, '/undo');
  expect(undone?.text).not.toContain('still planned');
});
