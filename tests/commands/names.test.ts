import { expect, test } from 'vitest';
import { code, example, labels, roomEach } from '../support/room.ts';
import { NEW } from './plans.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);
const start = (...names: string[]) => here.type(...names.map((name) => `/job start name:${name} ${NEW}`));

test.each(['Größe', 'größe', 'grosse', 'GROSSE', 'Grösse'])('job:%s is the job Größe', async (typed) => {
  await start('Größe', 'Bär');
  expect((await last(`/job show job:${typed}`))?.title).toContain('Größe: 0 of 11');
  expect((await last('/job show job:Bär'))?.title).toContain('Bär: 0 of 11');
});

test('of two names that differ by an accent, the one that was typed is meant', async () => {
  await start('Bar');
  await here.type('/job close job:bar');
  await start('Bär');
  expect((await last('/job show job:Bär'))?.title).toContain('Bär: 0 of 11');
});

test('a recipe is found without its accents, and its id ends with a word', async () => {
  await here.type(
    '/recipe copy recipe:skin-paste name:Löwe',
    '/recipe copy recipe:skin-paste name:Übermäßig lange Bezeichnung einer Form',
  );
  expect((await last('/recipe show recipe:lowe'))?.title).toContain('Löwe');
  expect((await last('/recipe show recipe:löwe'))?.title).toContain('Löwe');
  expect((await last('/recipe list'))?.text).toContain('ubermassig-lange-bezeichnung-einer');
});

test.each([
  ['bear', ['bear left paw']],
  ['paw', ['bear left paw']],
  ['lionhead', ['Lion head', 'Lion']],
  ['lio', ['Lion', 'Lion head']],
  ['saint-francis right', ['Saint Francis, right hand']],
  ['Löwe', ['Löwe, dünn']],
])('/done job:%s offers %j', async (typed, expected) => {
  await start('Lion', 'bear left paw', 'Lion head', 'Saint Francis, right hand', 'Löwe, dünn');
  const refused = await last(`/done job:${typed} note:fine`);
  expect(code(refused)).toBe('unknown-job');
  expect(labels(refused)).toEqual(expected);
  const done = await last(`[${expected[0]}]`);
  expect(done?.title).toContain(`${expected[0]}: Seal and release the model done`);
});

test('where nothing is like it, no job on hold is offered', async () => {
  await start('Lion', 'Owl');
  await here.type('/job hold job:lion');
  expect(example(await last('/done job:zebra'))).toBe('/done job:owl');
  await here.type('/job hold job:owl');
  expect(example(await last('/job note text:fine job:zebra'))).toBe('/job list');
});

test('a job that has ended is offered where no open one is like it', async () => {
  await start('Lion', 'Owl');
  await here.type('/job close job:lion');
  expect(example(await last('/job show job:lyon'))).toBe('/job show job:lion');
});
