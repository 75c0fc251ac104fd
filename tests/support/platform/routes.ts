import type { Report } from './checks.ts';
import type { Exchange } from './exchange.ts';
import type { Gateway } from './gateway.ts';
import type { SentFile } from './multipart.ts';
import type { Settings } from './settings.ts';
import type { World } from './world.ts';

/** What the routes work on. */
export interface Scene {
  readonly world: World;
  readonly gateway: Gateway;
  readonly settings: Settings;
  /** By interaction token. */
  readonly exchanges: Map<string, Exchange>;
  readonly socketUrl: () => string;
  /** Where files can be fetched. */
  readonly filesUrl: () => string;
}

export interface Call {
  /** @throws when the route has no such part */
  param(name: string): string;
  readonly query: URLSearchParams;
  readonly body: unknown;
  readonly files: readonly SentFile[];
  /** Says what is wrong with the body. The request is carried out all the same. */
  readonly report: Report;
}

/** A body that is left out makes a 204 without content. */
export interface Reply {
  readonly status: number;
  readonly body?: unknown;
}

export interface Route {
  readonly method: string;
  /** `/channels/:channel/messages` */
  readonly path: string;
  /** Answers carry the headers of the channel's bucket, and the bucket is enforced. */
  readonly bucket?: true;
  /** The token in the path is enough. */
  readonly open?: true;
  readonly run: (call: Call) => Reply;
}

export const ok = (body: unknown): Reply => ({ status: 200, body });
export const nothing: Reply = { status: 204 };

/** The parts of the path if it fits, by name. */
export function partsOf(route: Route, method: string, path: string): ReadonlyMap<string, string> | null {
  if (route.method !== method) return null;
  const wanted = route.path.split('/');
  const given = path.split('/');
  if (wanted.length !== given.length) return null;
  const params = new Map<string, string>();
  for (const [index, part] of wanted.entries()) {
    const value = given[index] ?? '';
    if (part.startsWith(':')) params.set(part.slice(1), decodeURIComponent(value));
    else if (part !== value) return null;
  }
  return params;
}
