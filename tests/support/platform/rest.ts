import { createHash } from 'node:crypto';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { setTimeout as sleep } from 'node:timers/promises';
import type { Harm, StandingFault } from './faults.ts';
import { readBody, type SentFile } from './multipart.ts';
import { Refused } from './refused.ts';
import { type Call, partsOf, type Reply, type Route, type Scene } from './routes.ts';
import { applicationRoutes } from './routes-application.ts';
import { channelRoutes } from './routes-channels.ts';
import { interactionRoutes } from './routes-interactions.ts';

/** One request and what became of it. */
export interface Logged {
  readonly method: string;
  /** Without `/api/v10` and the query. */
  readonly path: string;
  readonly query: string;
  readonly body: unknown;
  readonly files: readonly SentFile[];
  readonly at: number;
  /** 0 while it is open, and when the line was broken. */
  status: number;
}

type Headers = Record<string, string>;

/** The HTTP side: finds the route, plays faults, keeps the buckets, and writes everything down. */
export class Rest {
  readonly requests: Logged[] = [];
  readonly unknownRequests: string[] = [];
  readonly overLimit: string[] = [];
  readonly breaches: string[] = [];
  readonly faults: StandingFault[] = [];
  readonly #scene: Scene;
  readonly #routes: readonly Route[];
  readonly #buckets = new Map<string, number[]>();

  constructor(scene: Scene) {
    this.#scene = scene;
    this.#routes = [...applicationRoutes(scene), ...channelRoutes(scene), ...interactionRoutes(scene)];
  }

  async serve(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const chunks: Buffer[] = [];
    for await (const chunk of request) chunks.push(chunk as Buffer);
    const { body, files } = await readBody(request.headers['content-type'] ?? '', Buffer.concat(chunks));
    const url = new URL(request.url ?? '/', 'http://127.0.0.1');
    const path = url.pathname.replace(/^\/api\/v10/, '');
    const method = request.method ?? 'GET';
    const logged: Logged = { method, path, query: url.search, body, files, at: Date.now(), status: 0 };
    this.requests.push(logged);

    const harm = this.faults.find((fault) => fault.strikes(method, path))?.fault.harm;
    if (harm?.kind === 'slow' && harm.when === 'before') await sleep(harm.ms);
    if (harm !== undefined && breaks(harm, 'before', request)) return;
    const early = harm === undefined ? null : refusalOf(harm, 'before');
    if (early !== null) return this.#write(response, logged, early.reply, early.headers);

    const headers: Headers = {};
    const reply = this.#run(logged, url.searchParams, request.headers.authorization, headers);
    if (harm?.kind === 'slow' && harm.when === 'after') await sleep(harm.ms);
    if (harm !== undefined && breaks(harm, 'after', request)) return;
    const late = harm === undefined ? null : refusalOf(harm, 'after');
    this.#write(response, logged, late?.reply ?? reply, headers);
  }

  #run(logged: Logged, query: URLSearchParams, authorization: string | undefined, headers: Headers): Reply {
    const { method, path, body, files } = logged;
    for (const route of this.#routes) {
      const params = partsOf(route, method, path);
      if (params === null) continue;
      if (!route.open && authorization !== `Bot ${this.#scene.settings.token}`)
        return { status: 401, body: { message: '401: Unauthorized', code: 0 } };
      if (route.bucket) {
        const limited = this.#bucket(`${method} ${route.path}`, params.get('channel') ?? '', `${method} ${path}`, headers);
        if (limited !== null) return limited;
      }
      const call: Call = {
        query,
        body,
        files,
        param(name) {
          const value = params.get(name);
          if (value === undefined) throw new Error(`the route has no ${name}`);
          return value;
        },
        report: (fault) => this.breaches.push(`${method} ${route.path}: ${fault}`),
      };
      try {
        return route.run(call);
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        return { status: error.status, body: { message: error.message, code: error.code } };
      }
    }
    this.unknownRequests.push(`${method} ${path}`);
    return { status: 404, body: { message: '404: Not Found', code: 0 } };
  }

  /** Counts the request in its bucket and sets the headers. Gives the refusal if the bucket is empty. */
  #bucket(name: string, channel: string, request: string, headers: Headers): Reply | null {
    const { channelLimit, channelWindowMs } = this.#scene.settings;
    const key = `${name} ${channel}`;
    const now = Date.now();
    const recent = (this.#buckets.get(key) ?? []).filter((at) => now - at < channelWindowMs);
    const full = recent.length >= channelLimit;
    if (!full) recent.push(now);
    this.#buckets.set(key, recent);
    const resetSeconds = ((recent[0] ?? now) + channelWindowMs - now) / 1000;
    headers['x-ratelimit-limit'] = String(channelLimit);
    headers['x-ratelimit-remaining'] = String(channelLimit - recent.length);
    headers['x-ratelimit-reset'] = String(now / 1000 + resetSeconds);
    headers['x-ratelimit-reset-after'] = resetSeconds.toFixed(3);
    headers['x-ratelimit-bucket'] = createHash('md5').update(name).digest('hex');
    if (!full) return null;
    this.overLimit.push(request);
    headers['x-ratelimit-scope'] = 'user';
    headers['retry-after'] = resetSeconds.toFixed(3);
    return { status: 429, body: { message: 'You are being rate limited.', retry_after: resetSeconds, global: false } };
  }

  #write(response: ServerResponse, logged: Logged, { status, body }: Reply, headers: Headers): void {
    logged.status = status;
    if (body === undefined) return void response.writeHead(status, headers).end();
    response.writeHead(status, { ...headers, 'content-type': 'application/json' }).end(JSON.stringify(body));
  }
}

/** Breaks the line if the fault does so at this moment. */
function breaks(harm: Harm, when: 'before' | 'after', { socket }: IncomingMessage): boolean {
  if ((harm.kind !== 'reset' && harm.kind !== 'hangup') || harm.when !== when) return false;
  if (harm.kind === 'reset') socket.resetAndDestroy();
  else socket.destroy();
  return true;
}

/** The answer that a fault puts in the place of the true one, if it does so at this moment. */
function refusalOf(harm: Harm, when: 'before' | 'after'): { reply: Reply; headers: Headers } | null {
  if (harm.kind === 'status' && harm.when === when) {
    return { reply: { status: harm.status, body: { message: 'an error was played', code: harm.code ?? 0 } }, headers: {} };
  }
  if (harm.kind !== 'rate' || when !== 'before') return null;
  const global = harm.scope === 'global';
  return {
    reply: {
      status: 429,
      body: { message: 'You are being rate limited.', retry_after: harm.retryAfterSeconds, global },
    },
    headers: {
      'retry-after': String(harm.retryAfterSeconds),
      'x-ratelimit-scope': harm.scope,
      ...(global ? { 'x-ratelimit-global': 'true' } : {}),
    },
  };
}
