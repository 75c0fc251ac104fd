import { setTimeout as sleep } from 'node:timers/promises';
import { afterEach, expect, it, vi } from 'vitest';
import { left, startOf, within } from '../../../../src/adapters/discord/interactions/answering.ts';
import { Once } from '../../../../src/adapters/discord/interactions/once.ts';
import { counters } from './counter.ts';
import { forms } from './forms.ts';

const { begin, close } = counters();
afterEach(close);
const CALLBACK = /^\/interactions\/[^/]+\/[^/]+\/callback$/;
const EDIT = /^\/webhooks\/.*original$/;

it('says in time that it takes longer, then brings the answer', async () => {
  const { platform, bench, dana, started, disk, state, troubles } = await begin();
  const message = await started();
  disk.writeMilliseconds = 3500;
  const pressed = await platform.press({ channel: bench, user: dana, message, label: 'Step done' }).answered({ ms: 8000 });
  expect(pressed.callbacks.map(({ type }) => type)).toEqual([5]);
  expect(pressed.acknowledgedAfterMs).toBeLessThan(2500);
  expect(pressed.text).toContain('done at');
  expect(pressed.message).toMatchObject({ loading: false, edits: 1, aside: false });
  expect(pressed.message.body.allowed_mentions).toMatchObject({ parse: [] });
  expect((await state()).jobs.get('lion-head')?.steps[0]?.done?.by).toBe(dana.user.id);
  expect(troubles).toEqual([]);
});

it('takes the announcement away where the answer is for one person alone', async () => {
  const { platform, bench, dana, kim, started, disk, quiet } = await begin({ awaitMilliseconds: 100 });
  const message = await started();
  await platform.press({ channel: bench, user: dana, message, label: 'Step done' }).answered();
  disk.readMilliseconds = 150;
  const second = platform.press({ channel: bench, user: kim, message, label: 'Step done' });
  await second.answered();
  await quiet();
  expect(second.callbacks.map(({ type }) => type)).toEqual([5]);
  expect(second.original?.deleted).toBe(true);
  expect(second.followUps.map(({ aside }) => aside)).toEqual([true]);
  expect(second.followUps[0]?.text).toContain('already logged');
  const order = platform.requests.filter(({ path }) => path.includes(second.interaction.token)).map(({ method }) => method);
  expect(order).toEqual(['POST', 'DELETE', 'POST']);
});

it('runs once what is delivered twice', async () => {
  const { platform, bench, dana, started, disk, happened, quiet } = await begin();
  await started();
  const { appends } = disk;
  const told = platform.command({ channel: bench, user: dana, name: 'done', deliverTwice: true });
  await told.answered();
  await quiet();
  expect(disk.appends).toBe(appends + 1);
  expect(told.callbacks).toHaveLength(1);
  expect(told.rejected).toEqual([]);
  expect(happened).toEqual(['delivered-twice']);
});

it('says in the channel what was done, where the token is over', async () => {
  const { platform, bench, dana, started, disk, troubles, happened, quiet } = await begin({ awaitMilliseconds: 50 });
  const message = await started();
  disk.writeMilliseconds = 400;
  const pressed = platform.press({ channel: bench, user: dana, message, label: 'Step done' });
  await sleep(250);
  pressed.expire();
  await quiet();
  expect(pressed.rejected.map(({ code }) => code)).toEqual([50027]);
  const last = platform.messagesIn(bench).at(-1);
  expect(last?.text).toContain('done at');
  expect(last?.text).toContain(`<@${dana.user.id}>`);
  expect(last?.body.allowed_mentions).toMatchObject({ parse: [], users: [dana.user.id] });
  expect(last?.body).toMatchObject({ enforce_nonce: true });
  expect(happened).toContain('answer-too-late');
  expect(troubles).toEqual([]);
});

it('keeps a refusal from the channel, even where the token is over', async () => {
  const { platform, bench, dana, kim, started, disk, troubles, quiet } = await begin({ awaitMilliseconds: 50 });
  const message = await started();
  await platform.press({ channel: bench, user: dana, message, label: 'Step done' }).answered();
  await quiet();
  const before = platform.messagesIn(bench).length;
  disk.readMilliseconds = 200;
  const second = platform.press({ channel: bench, user: kim, message, label: 'Step done' });
  await sleep(150);
  second.expire();
  await quiet();
  expect(platform.messagesIn(bench).filter(({ loading }) => !loading)).toHaveLength(before);
  expect(platform.requestsTo('POST', `/channels/${bench.id}/messages`)).toEqual([]);
  expect(troubles).toEqual([]);
});

it('says in the channel what was done, where the platform had given up before', async () => {
  const { platform, bench, dana, started, happened, troubles, quiet } = await begin();
  await started();
  platform.settings.answerMs = 0;
  const told = platform.command({ channel: bench, user: dana, name: 'done' });
  await told.turnedDown();
  await quiet();
  expect(told.rejected.map(({ code }) => code)).toEqual([10062]);
  expect(platform.messagesIn(bench).at(-1)?.text).toContain('done at');
  expect(platform.requestsTo('POST', `/channels/${bench.id}/messages`)).toHaveLength(1);
  expect([happened, troubles]).toEqual([['answer-too-late'], []]);
});

it('waits for its turn where the channel takes no more for now', async () => {
  const { platform, bench, dana, started, quiet, troubles } = await begin();
  await started();
  platform.settings.answerMs = 0;
  platform.fault({
    method: 'POST',
    path: `/channels/${bench.id}/messages`,
    harm: { kind: 'rate', scope: 'user', retryAfterSeconds: 0.3 },
  });
  platform.command({ channel: bench, user: dana, name: 'done' });
  await vi.waitUntil(() => platform.messagesIn(bench).length > 1, { timeout: 8000 });
  await quiet();
  expect(platform.messagesIn(bench).at(-1)?.text).toContain('done at');
  expect(troubles).toEqual([]);
});

it('stays calm where somebody else has answered already', async () => {
  const { platform, bench, dana, started, happened, troubles, quiet } = await begin();
  await started();
  platform.fault({ method: 'POST', path: CALLBACK, harm: { kind: 'status', status: 400, code: 40060, when: 'before' } });
  platform.command({ channel: bench, user: dana, name: 'done' });
  await vi.waitUntil(() => happened.length > 0, { timeout: 8000 });
  await quiet();
  expect([happened, troubles]).toEqual([['answered-already'], []]);
  expect(platform.requestsTo('POST', `/channels/${bench.id}/messages`)).toEqual([]);
});

it('finishes an announcement of its own that seemed to be lost', async () => {
  const { platform, bench, dana, started, disk, happened, troubles, quiet } = await begin({ awaitMilliseconds: 50 });
  const message = await started();
  disk.writeMilliseconds = 600;
  // It arrives, the answer to it does not, and the client asks again.
  platform.fault({ method: 'POST', path: CALLBACK, harm: { kind: 'status', status: 500, when: 'after' } });
  const pressed = platform.press({ channel: bench, user: dana, message, label: 'Step done' });
  await pressed.answered();
  await quiet();
  expect(pressed.text).toContain('done at');
  expect(happened).toContain('answered-already');
  expect(troubles).toEqual([]);
});

it('says in the channel what was done, where the way to the answer is broken', async () => {
  const { platform, bench, dana, started, troubles, quiet } = await begin();
  await started();
  platform.fault({ method: 'POST', path: CALLBACK, times: 9, harm: { kind: 'status', status: 503, when: 'before' } });
  platform.command({ channel: bench, user: dana, name: 'done' });
  await vi.waitUntil(() => platform.messagesIn(bench).length > 1, { timeout: 8000 });
  await quiet();
  expect(troubles).toEqual([['answering', expect.objectContaining({ status: 503 })]]);
});

it.each(['before', 'after'] as const)('tries once more where the line is closed %s the answer arrives', async (when) => {
  const { platform, bench, dana, started, quiet } = await begin({ awaitMilliseconds: 400 });
  await started();
  platform.fault({ method: 'POST', path: CALLBACK, times: 1, harm: { kind: 'hangup', when } });
  const refused = platform.command({ channel: bench, user: dana, name: 'done', options: { job: 'nobody' } });
  await refused.answered();
  await quiet();
  expect(refused.callbacks.map(({ type }) => type)).toEqual([4]);
  expect(platform.messagesIn(bench).filter(({ text }) => text.includes('nobody'))).toEqual([]);
});

it.each(['before', 'after'] as const)(
  'finishes what it announced, though the line is closed %s the announcement',
  async (when) => {
    const { platform, bench, dana, started, disk, quiet } = await begin({ awaitMilliseconds: 100 });
    const message = await started();
    platform.fault({ method: 'POST', path: CALLBACK, times: 1, harm: { kind: 'hangup', when } });
    platform.fault({ method: 'PATCH', path: EDIT, times: 1, harm: { kind: 'hangup', when: 'before' } });
    disk.readMilliseconds = 150;
    const before = platform.messagesIn(bench).length;
    const pressed = platform.press({ channel: bench, user: dana, message, label: 'Step done' });
    await pressed.answered({ ms: 8000 });
    await quiet();
    expect(pressed.original).toMatchObject({ loading: false });
    expect(pressed.text).toContain('done at');
    expect(platform.messagesIn(bench)).toHaveLength(before + 1);
  },
);

it('is not said twice where both tries arrive and both lines break', async () => {
  const { platform, bench, dana, started, quiet } = await begin();
  const message = await started();
  platform.fault({ method: 'POST', path: CALLBACK, times: 2, harm: { kind: 'hangup', when: 'after' } });
  const before = platform.messagesIn(bench).length;
  platform.press({ channel: bench, user: dana, message, label: 'Step done' });
  await vi.waitUntil(() => platform.messagesIn(bench).length > before, { timeout: 8000 });
  await quiet();
  await sleep(600);
  expect(platform.messagesIn(bench)).toHaveLength(before + 1);
});

it.each(['before', 'after'] as const)(
  'does what it hears late, though the line breaks %s its announcement arrives',
  async (when) => {
    const { platform, bench, dana, started, quiet, state } = await begin();
    await started();
    platform.fault({ method: 'POST', path: CALLBACK, times: 1, harm: { kind: 'hangup', when } });
    const told = platform.command({ channel: bench, user: dana, name: 'done', agoMilliseconds: 10_000 });
    await told.answered({ ms: 8000 });
    await quiet();
    expect(told.text).toContain('done at');
    expect(told.original).toMatchObject({ loading: false });
    expect((await state()).jobs.get('lion-head')?.steps[0]?.done?.by).toBe(dana.user.id);
  },
);

it('says at least that there was an answer, where the platform will not take it', async () => {
  const { platform, bench, dana, started, disk, troubles, quiet } = await begin({ awaitMilliseconds: 300 });
  await started();
  platform.fault({ method: 'POST', path: CALLBACK, harm: { kind: 'status', status: 400, code: 50035, when: 'before' } });
  const early = await platform.command({ channel: bench, user: dana, name: 'help' }).answered();
  expect(early.text).toContain('could not be shown');
  expect(early.message.aside).toBe(true);
  disk.writeMilliseconds = 600;
  platform.fault({ method: 'PATCH', path: EDIT, harm: { kind: 'status', status: 400, code: 50035, when: 'before' } });
  const late = await platform.command({ channel: bench, user: dana, name: 'done' }).answered();
  expect(late.text).toContain('could not be shown');
  await quiet();
  expect(troubles).toEqual([
    ['answering', expect.objectContaining({ code: 50035 })],
    ['answering', expect.objectContaining({ code: 50035 })],
  ]);
});

it('keeps to one person what is for one person, and survives a defect', async () => {
  const { platform, bench, dana, troubles } = await begin({ commands: forms });
  const ask = (name: string, options = {}) => platform.command({ channel: bench, user: dana, name, options }).answered();
  expect((await ask('kinds', { aside: true })).message.aside).toBe(true);
  expect((await ask('kinds', { aside: false })).message.aside).toBe(false);
  const broken = await ask('breaks');
  expect([broken.message.aside, broken.text.includes('Something broke')]).toEqual([true, true]);
  expect(broken.text).not.toContain('a defect');
  expect(troubles).toEqual([['breaks', new Error('a defect')]]);
});

it('counts from when the interaction was made, as far as the clocks agree', () => {
  expect(startOf({ createdTimestamp: 1000 }, 1400)).toBe(1000);
  expect(startOf({ createdTimestamp: 1000 }, 9000)).toBe(9000);
  expect(startOf({ createdTimestamp: 1000 }, 900)).toBe(900);
  expect(left(Date.now() - 5000, 1500)).toBe(0);
  expect(left(Date.now(), 1500)).toBeGreaterThan(1400);
});

it('waits no longer than it says', async () => {
  expect(await within(sleep(5, 'done'), 1000)).toBe('done');
  expect(await within(sleep(1000, 'done', { ref: false }), 5)).toBeUndefined();
  await expect(within(Promise.reject(new Error('no')), 1000)).rejects.toThrow('no');
});

it('forgets what is long past, and never grows without end', () => {
  const once = new Once();
  expect([once.first('a', 0), once.first('a', 1), once.first('b', 2)]).toEqual([true, false, true]);
  once.first('c', 17 * 60_000);
  expect(once.first('a', 17 * 60_000 + 1)).toBe(true);
  for (let id = 0; id < 10_000; id += 1) once.first(String(id), 17 * 60_000 + 2);
  expect(once.first('c', 17 * 60_000 + 3)).toBe(true);
});
