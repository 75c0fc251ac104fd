import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { connect } from 'node:net';
import { networkInterfaces } from 'node:os';
import { afterEach, describe, expect, test } from 'vitest';
import { Metrics } from '../../../src/adapters/watch/metrics.ts';
import { openWatch } from '../../../src/adapters/watch/server.ts';

const closers: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const close of closers.splice(0)) await close();
});

const well = async () => ({ ok: true, gateway: true, storage: true });

async function watched(health: Parameters<typeof openWatch>[0]['health'] = well, metrics = new Metrics()) {
  const { port, close } = await openWatch({ port: 0, metrics, health });
  closers.push(close);
  return { port, close, look: (path: string, init?: RequestInit) => fetch(`http://127.0.0.1:${port}${path}`, init) };
}

describe('health', () => {
  test('a bot that is well answers 200', async () => {
    const answer = await (await watched()).look('/healthz');
    expect(answer.status).toBe(200);
    expect(answer.headers.get('content-type')).toBe('application/json; charset=utf-8');
    expect(answer.headers.get('cache-control')).toBe('no-store');
    const { uptimeSeconds, ...rest } = (await answer.json()) as Record<string, unknown>;
    expect(rest).toEqual({ ok: true, gateway: true, storage: true });
    expect(uptimeSeconds).toBeTypeOf('number');
  });

  test('one that is ill answers 503 and says what is amiss', async () => {
    const answer = await (await watched(async () => ({ ok: false, gateway: false, storage: true }))).look('/healthz');
    expect(answer.status).toBe(503);
    expect(await answer.json()).toMatchObject({ ok: false, gateway: false, storage: true });
  });

  test.each([
    ['rejects', () => Promise.reject(new Error('disk'))],
    [
      'throws',
      () => {
        throw new Error('disk');
      },
    ],
    ['never answers', () => new Promise<never>(() => {})],
  ])('a check that %s counts as ill', async (_, health) => {
    const before = Date.now();
    const answer = await (await watched(health)).look('/healthz');
    expect(answer.status).toBe(503);
    expect(await answer.json()).toMatchObject({ ok: false, gateway: null, storage: null });
    expect(Date.now() - before).toBeLessThan(4000);
  });
});

describe('the server', () => {
  test('metrics come in the text format of Prometheus', async () => {
    const metrics = new Metrics();
    metrics.waiting(7);
    const answer = await (await watched(well, metrics)).look('/metrics?now');
    expect(answer.status).toBe(200);
    expect(answer.headers.get('content-type')).toMatch(/^text\/plain; version=0\.0\.4/);
    expect(await answer.text()).toContain('\ncoatbell_waiting_benches 7\n');
  });

  test('HEAD gives the headers alone', async () => {
    const { look } = await watched();
    for (const path of ['/healthz', '/metrics']) {
      const answer = await look(path, { method: 'HEAD' });
      expect(answer.status).toBe(200);
      expect(Number(answer.headers.get('content-length'))).toBeGreaterThan(0);
      expect(await answer.text()).toBe('');
    }
  });

  test.each(['POST', 'PUT', 'DELETE', 'OPTIONS'])('%s is not allowed', async (method) => {
    const answer = await (await watched()).look('/metrics', { method });
    expect(answer.status).toBe(405);
    expect(answer.headers.get('allow')).toBe('GET, HEAD');
  });

  test.each(['/', '/metrics/', '/healthz/x', '/constructor', '/__proto__', '//metrics', '/%6detrics'])(
    '%s is not there',
    async (path) => {
      expect((await (await watched()).look(path)).status).toBe(404);
    },
  );

  test('a port that is taken is named', async () => {
    const { port } = await watched();
    await expect(openWatch({ port, metrics: new Metrics(), health: well })).rejects.toThrow(
      `Port ${port} of 127.0.0.1 cannot be used for health and metrics: another program has it.`,
    );
  });

  test('closing ends connections that are still open, and frees the port', async () => {
    const { port, close } = await openWatch({ port: 0, metrics: new Metrics(), health: well });
    const socket = connect(port, '127.0.0.1');
    await new Promise((resolve) => socket.once('connect', resolve));
    const ended = new Promise((resolve) => socket.once('close', resolve));
    socket.on('error', () => {});
    await close();
    await ended;
    await expect(fetch(`http://127.0.0.1:${port}/healthz`)).rejects.toThrow();
    const again = await openWatch({ port, metrics: new Metrics(), health: well });
    expect(again.port).toBe(port);
    await again.close();
  });

  const outside = Object.values(networkInterfaces())
    .flatMap((each) => each ?? [])
    .find(({ family, internal }) => family === 'IPv4' && !internal)?.address;
  test.skipIf(outside === undefined)('it cannot be reached from outside this machine', async () => {
    // A server of ours on that address can be reached, so that the refusal below means something.
    const open = createServer((_, response) => response.end('here')).listen(0, '0.0.0.0');
    await new Promise((resolve) => open.once('listening', resolve));
    expect(await (await fetch(`http://${outside}:${(open.address() as AddressInfo).port}/`)).text()).toBe('here');
    open.close();
    open.closeAllConnections();
    const { port } = await watched();
    await expect(fetch(`http://${outside}:${port}/healthz`)).rejects.toMatchObject({ cause: { code: 'ECONNREFUSED' } });
  });
});
