import { Routes } from 'discord.js';
import { describe, expect, test, vi } from 'vitest';
import { loggedIn, message, seconds } from './client.ts';

describe.concurrent('requests that go wrong', () => {
  test.each(['user', 'global', 'shared'] as const)('a rate limit of scope %s is waited for', async (scope) => {
    const { platform, bench, client } = await loggedIn();
    const path = Routes.channelMessages(bench.id);
    const fault = platform.fault({ method: 'POST', path, harm: { kind: 'rate', scope, retryAfterSeconds: 0.3 } });
    const before = Date.now();
    await client.rest.post(path, message('pot life over', 'n'));
    expect(Date.now() - before).toBeGreaterThanOrEqual(290);
    expect(fault.struck).toBe(1);
    expect(platform.requestsTo('POST', path).map(({ status }) => status)).toEqual([429, 200]);
    expect(platform.messagesIn(bench)).toHaveLength(1);
    const raw = { method: 'POST', headers: { authorization: `Bot ${platform.settings.token}` } };
    platform.fault({ path, harm: { kind: 'rate', scope, retryAfterSeconds: 2 } });
    const answer = await fetch(`${platform.api}/v10${path}`, raw);
    expect(answer.headers.get('x-ratelimit-scope')).toBe(scope);
    expect(answer.headers.get('retry-after')).toBe('2');
    expect(answer.headers.get('x-ratelimit-global')).toBe(scope === 'global' ? 'true' : null);
    expect(await answer.json()).toMatchObject({ retry_after: 2, global: scope === 'global' });
    expect(platform.overLimit).toEqual([]);
  });

  test('an error after the message was made leads to one message with a nonce, and to two without', async () => {
    const { platform, bench, client } = await loggedIn();
    const path = Routes.channelMessages(bench.id);
    platform.fault({ method: 'POST', path, harm: { kind: 'status', status: 502, when: 'after' } });
    await client.rest.post(path, message('with', 'n'));
    expect(platform.requestsTo('POST', path).map(({ status }) => status)).toEqual([502, 200]);
    platform.fault({ method: 'POST', path, harm: { kind: 'reset', when: 'after' } });
    await client.rest.post(path, message('broken line', 'm'));
    expect(platform.messagesIn(bench).map(({ text }) => text)).toEqual(['with', 'broken line']);
    expect(platform.breaches).toEqual([]);
    platform.fault({ method: 'POST', path, harm: { kind: 'status', status: 502, when: 'after' } });
    await client.rest.post(path, message('without'));
    expect(platform.messagesIn(bench).map(({ text }) => text)).toEqual(['with', 'broken line', 'without', 'without']);
    platform.settings.nonceMs = 0;
    await client.rest.post(path, message('with', 'n'));
    expect(platform.messagesIn(bench)).toHaveLength(5);
  });

  test('standing faults stand until they are lifted, and slow answers are slow', async () => {
    const { platform, bench, client } = await loggedIn({ options: { rest: { retries: 1 } } });
    const path = Routes.channelMessages(bench.id);
    const harm = { kind: 'status', status: 500, when: 'before' } as const;
    const standing = platform.fault({ path: /messages$/, times: Number.POSITIVE_INFINITY, harm });
    await expect(client.rest.post(path, message('x', 'n'))).rejects.toMatchObject({ status: 500 });
    expect(standing.struck).toBe(2);
    expect(platform.messagesIn(bench)).toEqual([]);
    standing.lift();
    platform.fault({ path, harm: { kind: 'slow', ms: 150, when: 'after' } });
    const before = Date.now();
    const sending = client.rest.post(path, message('x', 'n'));
    await vi.waitFor(() => expect(platform.messagesIn(bench)).toHaveLength(1), seconds(1));
    await sending;
    expect(Date.now() - before).toBeGreaterThanOrEqual(145);
  });

  test('the client keeps to the bucket of a channel; who does not is counted', async () => {
    const { platform, bench, client } = await loggedIn({ settings: { channelLimit: 2, channelWindowMs: 300 } });
    const path = Routes.channelMessages(bench.id);
    await client.rest.post(path, message('0', 'n0')); // The first answer tells the client of the bucket.
    await Promise.all([1, 2, 3, 4].map((n) => client.rest.post(path, message(`${n}`, `n${n}`))));
    expect(platform.overLimit).toEqual([]);
    expect(platform.messagesIn(bench)).toHaveLength(5);
    const headers = { authorization: `Bot ${platform.settings.token}` };
    const answers = await Promise.all([1, 2, 3].map(() => fetch(`${platform.api}/v10${path}`, { headers })));
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 200, 429]);
    expect(platform.overLimit).toEqual([`GET ${path}`]);
  });
});
