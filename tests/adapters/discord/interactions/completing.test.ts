import { afterEach, expect, it } from 'vitest';
import { counters } from './counter.ts';

const { begin, close } = counters();
afterEach(close);

it('completes what is being typed', async () => {
  const { platform, bench, dana, kim, people, server, started } = await begin();
  await started();
  people.learn(server.id, kim.user.id, { username: 'kim', globalName: 'Kim Oh' });
  const type = (name: string, focused: { name: string; value: string }) =>
    platform.autocomplete({ channel: bench, user: dana, name, focused });
  const materials = await type('mix', { name: 'material', value: 'brush' });
  expect(materials.map(({ value }) => value)).toContain('brush-urethane');
  expect(materials[0]?.name).toContain(' — ');
  expect(await type('done', { name: 'job', value: 'lion' })).toEqual([{ name: 'Lion head — lion-head', value: 'lion-head' }]);
  expect(await type('handover give', { name: 'to', value: 'ki' })).toEqual([{ name: 'Kim Oh', value: `<@${kim.user.id}>` }]);
  expect(await type('handover give', { name: 'to', value: `<@${kim.user.id}>, d` })).toEqual([
    { name: 'Kim Oh, dana', value: `<@${kim.user.id}>, <@${dana.user.id}>` },
  ]);
  // Whoever stands there already is not offered again, and nothing is that would be too long for the platform.
  expect(await type('handover give', { name: 'to', value: `<@${kim.user.id}>, ki` })).toEqual([]);
  const after = await type('handover give', { name: 'to', value: '@Kim, ' });
  expect(after.map(({ value }) => value)).toEqual([`@Kim, <@${dana.user.id}>`]);
  expect(await type('handover give', { name: 'to', value: `${'<@99999999999999999>, '.repeat(4)}ki` })).toEqual([]);
  expect(await type('mix', { name: 'material', value: 'x'.repeat(200) })).toEqual([]);
});

it('offers nothing rather than too late, and cuts what is too long', async () => {
  const { platform, server, bench, dana, disk, started } = await begin();
  await started(bench, { name: 'Ω🦁'.repeat(60) });
  const [choice] = await platform.autocomplete({ channel: bench, user: dana, name: 'done', focused: { name: 'job', value: '' } });
  expect(choice?.name.length).toBeLessThanOrEqual(100);
  const unread = platform.channel(server, 'unread');
  const typing = { channel: unread, user: dana, name: 'done', focused: { name: 'job', value: '' } };
  disk.broken = true;
  expect(await platform.autocomplete(typing)).toEqual([]);
  disk.broken = false;
  disk.readMilliseconds = 2600;
  expect(await platform.autocomplete(typing)).toEqual([]);
});

it('minds the options that are filled in already', async () => {
  const { platform, bench, dana, started } = await begin();
  await started();
  await started(bench, { name: 'Fox' });
  const ask = (name: string, options: Record<string, string>) =>
    platform.command({ channel: bench, user: dana, name, options }).answered();
  const type = async (name: string, focused: string, options: Record<string, string> = {}, value = '') => {
    const choices = await platform.autocomplete({ channel: bench, user: dana, name, options, focused: { name: focused, value } });
    return choices.map((choice) => choice.name);
  };
  await ask('done', { job: 'lion-head' });
  const steps = await type('done', 'step', { job: 'lion-head' });
  expect(steps[0]).toBe('First coat, Lion head — coat-1');
  expect(steps.filter((step) => step.includes('Fox'))).toEqual([]);
  // The one that is focused may stand before the others, or hold half a word.
  expect((await type('done', 'step', { job: 'fox' }, 'first'))[0]).toBe('First coat, Fox — coat-1');
  await ask('cup start', { material: 'shell-paste', job: 'fox', amount: '200 g' });
  expect(await type('cup spent', 'cup')).toEqual([expect.stringMatching(/^.+, Fox, 08:00 — cup-1$/)]);
  expect(await type('cup spent', 'cup', { job: 'lion-head' })).toEqual([]);
  expect((await type('mix', 'material', { job: 'lion-head' }))[0]).toMatch(/ — brush-urethane$/);
  expect((await type('undo', 'entry', { job: 'lion-head' }))[0]).toMatch(/^.+, Lion head, 08:00, by dana — \d+$/);
});
