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
