import { createHash } from 'node:crypto';
import { Routes } from 'discord.js';
import type { RESTPostAPIChatInputApplicationCommandsJSONBody } from 'discord-api-types/v10';
import type { Memory } from '../memory.ts';
import { bodyFaults } from './limits.ts';

interface RegisterParts {
  readonly rest: {
    get(route: `/${string}`): Promise<unknown>;
    put(route: `/${string}`, options: { body: unknown }): Promise<unknown>;
  };
  /** The application's id; the platform is asked for it where it is left out. */
  readonly application?: string | undefined;
  /** One server, where the commands are there at once; null for all of them. */
  readonly server: string | null;
  readonly bodies: readonly RESTPostAPIChatInputApplicationCommandsJSONBody[];
  readonly memory: Memory;
  /** Also where nothing has changed since the last time. */
  readonly force?: boolean;
}

/**
 * Tells the platform of all commands at once: what it had before goes. Nothing is sent where just these were registered
 * last. Throws what the platform answered, and a `RangeError` that names command and option where it would not take them.
 */
export async function register(parts: RegisterParts): Promise<'registered' | 'unchanged'> {
  const { rest, server, bodies, memory, force = false } = parts;
  const faults = bodyFaults(bodies);
  if (faults.length > 0) throw new RangeError(`Commands that cannot be registered:\n${faults.join('\n')}`);
  const application = parts.application ?? (await applicationOf(rest));
  const key = `registered:${application}:${server ?? 'global'}`;
  const digest = createHash('sha256').update(canonical(bodies)).digest('hex');
  if (!force && (await memory.get(key)) === digest) return 'unchanged';
  const route = server === null ? Routes.applicationCommands(application) : Routes.applicationGuildCommands(application, server);
  await rest.put(route, { body: bodies });
  // Only what arrived is remembered: after a kill in between, the same is sent once more, which changes nothing.
  await memory.set(key, digest);
  return 'registered';
}

async function applicationOf(rest: RegisterParts['rest']): Promise<string> {
  const told = await rest.get(Routes.currentApplication());
  if (typeof told === 'object' && told !== null && 'id' in told && typeof told.id === 'string') return told.id;
  throw new Error('the platform did not say which application this is');
}

/** The same text for the same value, whatever the order of its keys. */
function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  const entries = Object.entries(value).filter(([, each]) => each !== undefined);
  const sorted = entries.sort(([one], [other]) => (one < other ? -1 : 1));
  return `{${sorted.map(([key, each]) => `${JSON.stringify(key)}:${canonical(each)}`).join(',')}}`;
}
