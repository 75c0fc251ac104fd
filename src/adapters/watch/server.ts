import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { uptime } from 'node:process';
import type { Metrics } from './metrics.ts';

/** Whether the bot can do its work, and if not, what is amiss. */
export interface Health {
  readonly ok: boolean;
  /** Connected to the chat platform. */
  readonly gateway: boolean;
  /** The store can be read. */
  readonly storage: boolean;
}

export interface WatchOptions {
  /** 0 takes any free one. */
  port: number;
  metrics: Metrics;
  /** Asked for each look. One that throws, or that takes more than two seconds, counts as ill. */
  health: () => Promise<Health>;
}

interface Page {
  status: number;
  type: string;
  text: string;
  allow?: string;
}

/** Only programs of this machine may look: the pages know no password. */
const LOOPBACK = '127.0.0.1';
const MOST_HEALTH_MILLISECONDS = 2000;
const MOST_REQUEST_MILLISECONDS = 5000;
const METHODS = ['GET', 'HEAD'];

/**
 * Serves `/healthz` and `/metrics` on loopback. Resolves to the port, and to what ends it. Rejects with an error that
 * names the port if that is taken or not allowed.
 */
export function openWatch({ port, metrics, health }: WatchOptions): Promise<{ port: number; close(): Promise<void> }> {
  const pages: Readonly<Record<string, () => Promise<Page>>> = {
    '/healthz': () => healthPage(health),
    '/metrics': async () => ({ status: 200, ...(await metrics.page()) }),
  };
  const server = createServer(
    { requestTimeout: MOST_REQUEST_MILLISECONDS, headersTimeout: MOST_REQUEST_MILLISECONDS },
    (request, response) => {
      answerTo(request, pages)
        .catch(() => words(500, 'This page could not be made.'))
        .then((page) => send(page, response));
    },
  );
  const close = () =>
    new Promise<void>((resolve) => {
      server.close(() => resolve());
      // Whoever looks may hold the connection open for its next look.
      server.closeAllConnections();
    });
  return new Promise((resolve, reject) => {
    server.on('error', (error: NodeJS.ErrnoException) => {
      const why = error.code === 'EADDRINUSE' ? 'another program has it' : (error.code ?? 'unknown');
      reject(new Error(`Port ${port} of ${LOOPBACK} cannot be used for health and metrics: ${why}.`, { cause: error }));
    });
    server.listen(port, LOOPBACK, () => resolve({ port: (server.address() as AddressInfo).port, close }));
  });
}

async function answerTo(
  { url = '/', method = '' }: IncomingMessage,
  pages: Readonly<Record<string, () => Promise<Page>>>,
): Promise<Page> {
  const [path = ''] = url.split('?');
  const page = Object.hasOwn(pages, path) ? pages[path] : undefined;
  if (page === undefined) return words(404, 'There is /healthz and /metrics.');
  if (!METHODS.includes(method)) return { ...words(405, 'Only GET and HEAD.'), allow: METHODS.join(', ') };
  return page();
}

async function healthPage(health: () => Promise<Health>): Promise<Page> {
  const found = await inTime(health);
  const { ok, gateway, storage } = found ?? { ok: false, gateway: null, storage: null };
  const text = JSON.stringify({ ok, gateway, storage, uptimeSeconds: Math.round(uptime()) });
  return { status: ok ? 200 : 503, type: 'application/json; charset=utf-8', text };
}

/** Null where it threw or took too long. */
async function inTime<T>(ask: () => Promise<T>): Promise<T | null> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<null>((resolve) => {
    timer = setTimeout(resolve, MOST_HEALTH_MILLISECONDS, null);
  });
  try {
    return await Promise.race([ask(), late]);
  } catch {
    return null;
  } finally {
    clearTimeout(timer);
  }
}

const words = (status: number, text: string): Page => ({ status, type: 'text/plain; charset=utf-8', text: `${text}\n` });

function send({ status, type, text, allow }: Page, response: ServerResponse): void {
  response.writeHead(status, {
    'content-type': type,
    'content-length': Buffer.byteLength(text),
    'cache-control': 'no-store',
    ...(allow === undefined ? {} : { allow }),
  });
  // To a HEAD, Node sends the headers alone.
  response.end(text);
}
