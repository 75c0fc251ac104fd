import { expect, test } from 'vitest';
import { labels, roomEach } from '../support/room.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);
const NAMES = ['Lion head', 'Bear', 'Cat', 'Owl'];
const four = () => NAMES.map((name) => `/job start name:${name} skin:brush-urethane shell:shell-paste area:0.1 m2`);
const count = (text: string | undefined, word: string) => text?.split(word).length ?? 0;

test('a note of a handover is read once, with the jobs that it is for', async () => {
  await here.type(...four(), '/handover give to:kim note:left ears run thin');
  const taken = await last('@kim [Take over]');
  expect(count(taken?.text, 'left ears run thin')).toBe(2);
  expect(taken?.text).toMatch(/Note of 08:00, @you, for Lion head, Bear, Cat and Owl: left ears run thin/);
  // Of one of them alone it is its own.
  const brief = await last('@kim /handover brief job:cat');
  expect(brief?.text).toMatch(/ {2}Note of 08:00, @you: left ears run thin/);
});

test('a note of one job stays with it', async () => {
  await here.type(...four(), '/job note job:bear text:thin at the paw');
  expect((await last('/handover brief'))?.text).toMatch(/ {2}Note of 08:00, @you: thin at the paw/);
});

test('where several may be meant, their names are on the buttons, and all of them', async () => {
  await here.type(...four());
  const which = await last('@kim /handover take');
  expect(labels(which)).toEqual(['Take all 4', 'Take Lion head', 'Take Bear']);
  expect((await last('@kim [Take all 4]'))?.title).toBe('@kim has Lion head, Bear, Cat and Owl now');
});

test('all are taken where only some were offered', async () => {
  await here.type(...four(), '/handover give to:kim job:bear');
  expect((await last('@kim /handover take job:all'))?.data['handover']).toMatchObject({
    jobs: ['lion-head', 'bear', 'cat', 'owl'],
  });
});

test('a job may be called all', async () => {
  await here.type(...four(), '/job start name:All skin:brush-urethane shell:shell-paste area:0.1 m2');
  expect((await last('@kim /handover take job:all'))?.title).toBe('@kim has All now');
});

test('what was begun after a reading was not moved by it', async () => {
  await here.type(...four().slice(0, 1), '/done', '+20m', '/temp log value:18 C', '/done');
  const board = await last('/board');
  expect(board?.text).not.toContain('Moved by');
  const show = await last('/temp show');
  expect(show?.text).not.toContain('Moved by');
});

test('nor was a cup that was mixed after it', async () => {
  await here.type('/temp log value:18 C', '+5m', '/cup start material:brush-urethane amount:200 g');
  expect((await last('/board'))?.text).not.toContain('Moved by');
});

test('a casting that heats itself more than its mould stands is named before the job is begun', async () => {
  const plan = await last('/plan name:Lion skin:brush-urethane shell:shell-paste casting:cast-resin-fast area:0.1 m2');
  expect(plan?.text).toContain('Fast casting resin heats itself to 85 °C, and Brush-on urethane rubber stands 80 °C');
  // What is only to be released is for the job's own cards.
  expect(plan?.text).not.toContain('Release ');
});
