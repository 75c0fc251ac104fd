import { afterEach, expect, it } from 'vitest';
import { complete } from '../../src/chat/complete.ts';
import { suppliersFor } from '../../src/desk/suppliers.ts';
import { commands } from '../../src/main/registry.ts';
import { type Room, room } from '../support/room.ts';

let open: Room | undefined;
afterEach(async () => {
  await open?.close();
  open = undefined;
});

const started = (name: string) =>
  `/job start name:${name} skin:brush-urethane shell:shell-paste casting:casting-plaster area:0.4 m2`;

/** Two jobs, the one a step further than the other. */
async function bench(...more: string[]) {
  open = await room();
  const { type, session } = open;
  await type('@dana', started('Lion head'), started('Fox'), '/done job:lion-head', ...more);
  const suppliers = async () => suppliersFor(await session.desk(), ['kim'], (id) => (id === 'dana' ? 'Dana' : undefined));
  const offered = async (word: string, { name = word, others = {}, typed = '' } = {}) =>
    (await suppliers())[word]?.({ name, others, typed }) ?? [];
  return {
    type,
    values: async (...ask: Parameters<typeof offered>) => (await offered(...ask)).map(({ value }) => value),
    titles: async (...ask: Parameters<typeof offered>) => (await offered(...ask)).map(({ title }) => title),
    /** As the local chat does at Tab. */
    tab: async (line: string) => complete(commands, line, await suppliers()).candidates,
  };
}

it('offers the steps of the job that the line names, what comes next first', async () => {
  const { titles, values, tab } = await bench();
  const lion = await titles('step', { others: { job: 'Lion head' } });
  expect(lion.slice(0, 2)).toEqual(['First coat, Lion head', 'Second coat, Lion head']);
  expect(await tab('/done job:fox step:')).toEqual(['seal', ...(await tab('/done job:lion-head step:'))]);
  const all = await titles('step');
  expect(all.slice(0, 3)).toEqual(['First coat, Lion head, Fox', expect.stringMatching(/, Fox$/), 'Second coat, Lion head, Fox']);
  expect(new Set(await values('step')).size).toBe(all.length);
  expect(await titles('step', { others: { job: 'nonsense' } })).toEqual(all);
});

it('takes the only open job for the one that is meant', async () => {
  const { titles } = await bench('/job close job:fox');
  expect((await titles('step')).every((title) => title.endsWith(', Lion head'))).toBe(true);
});

it('offers materials for what they are used for, and first what the job needs next', async () => {
  const { values, tab, type } = await bench();
  const all = await values('material');
  const shells = await tab('/job start name:x shell:');
  expect(shells).toContain('shell-paste');
  expect(shells).not.toContain('brush-urethane');
  expect(await tab('/job start name:x skin:')).not.toContain('shell-paste');
  expect(await tab('/job start name:x casting:')).toContain('casting-plaster');
  const other = 'brush-silicone-tin';
  await type(`/job start name:Owl skin:${other} shell:shell-paste`, '/done job:owl');
  expect(await tab('/mix job:owl material:')).toEqual([other, ...all.filter((id) => id !== other)]);
  expect((await tab('/mix job:fox material:'))[0]).toBe('brush-urethane');
});

it('offers for a plaster, a laminate and a casting only what will do', async () => {
  const { tab, values } = await bench();
  const all = await values('material');
  expect(await tab('/plaster amount:1 L material:')).toEqual(['casting-plaster', 'gypsum-stone']);
  expect(await tab('/laminate mats:2x450 area:1 m2 material:')).toEqual(['laminate-epoxy', 'laminate-polyester']);
  const castings = await tab('/cast water:412 g material:');
  expect(castings).toEqual(all.filter((id) => /cast|gypsum/.test(id)));
  expect(await tab('/mix material:')).toHaveLength(all.length);
});

it('offers jobs by what can be done with them', async () => {
  const { values, titles } = await bench(started('Owl'), '/job hold job:fox', '/job close job:owl');
  expect(await values('job')).toEqual(['lion-head', 'fox']);
  expect(await values('active-job')).toEqual(['lion-head']);
  expect(await values('held-job')).toEqual(['fox']);
  expect(await titles('any-job')).toEqual(['Lion head', 'Fox, on hold', 'Owl, closed']);
});

it('says of a cup what is in it, for which job, and since when', async () => {
  const cup = '/cup start material:shell-paste amount:200 g';
  const { titles, values } = await bench(
    `${cup} job:fox`,
    '+5m',
    `${cup} job:lion-head`,
    '/cup start brush-urethane amount:50 g',
  );
  const [third = '', ...others] = await titles('cup');
  expect(third).toMatch(/^[^,]+(, Lion head)?, 08:05$/);
  expect(others).toEqual([expect.stringMatching(/^[^,]+, Lion head, 08:05$/), expect.stringMatching(/^[^,]+, Fox, 08:00$/)]);
  expect(await values('cup', { others: { job: 'fox' } })).toEqual(['cup-1']);
  expect(await values('cup', { others: { material: 'shell-paste' } })).toEqual(['cup-2', 'cup-1']);
});

it('offers the pings that went out and can be put off, by what they said', async () => {
  const { titles, values, type } = await bench('+20m', '/done job:lion-head');
  expect(await values('ping')).toEqual([]);
  await type('+46m');
  const [ping] = await values('ping');
  expect(await titles('ping')).toContainEqual(expect.stringMatching(/^Lion head: ready for Second coat, \d\d:\d\d$/));
  const [put] = await type(`/snooze ping:${ping}`);
  expect(put?.title).toMatch(/^I will ring again at /);
  // What is over rings no more; that it is over still can be put off.
  await type('+5h');
  expect(await titles('ping')).toEqual([expect.stringMatching(/^Lion head: window for Second coat missed, /)]);
  await type('/missed choice:abrade job:lion-head');
  // An answered ping concerns nobody any more.
  await type('/done job:lion-head', '/done job:fox');
  expect(await titles('ping')).not.toContainEqual(expect.stringContaining('Second coat'));
});

it('offers what can be taken back, the last first', async () => {
  const { titles, values, type } = await bench('/temp log value:21 C');
  expect(await titles('entry')).toEqual([
    '21 °C, 08:00, by Dana',
    expect.stringMatching(/^[^,]+, Lion head, 08:00, by Dana$/),
    'Start of the job, Fox, 08:00, by Dana',
  ]);
  const [step = ''] = await values('entry', { others: { job: 'lion-head' } });
  const [undone] = await type(`/undo entry:${step}`);
  expect(undone?.title).toMatch(/^Taken back/);
  expect(await titles('entry', { others: { job: 'lion-head' } })).toEqual(['Start of the job, Lion head, 08:00, by Dana']);
});

it('offers help on whole commands first, on their parts once something is typed', async () => {
  const { values, tab } = await bench();
  expect(await values('command')).toEqual(commands.entries.map(({ name }) => name));
  expect((await values('command')).length).toBeLessThanOrEqual(25);
  expect(await tab('/help topic:job')).toEqual(expect.arrayContaining(['job', 'job start', 'job resume']));
});

it('offers everybody once', async () => {
  const { tab } = await bench('/shift duty who:dana, kim');
  expect(await tab('/handover give to:')).toEqual(['dana', 'kim']);
  expect(await tab('/handover give to:kim, ')).toEqual(['kim, dana']);
});
