import { Keyv } from 'keyv';
import { restFor } from '../adapters/discord/client.ts';
import { register } from '../adapters/discord/registering/register.ts';
import { LmdbStore } from '../adapters/lmdb/store.ts';
import { registration } from '../chat/registration.ts';
import type { Streams } from './chat.ts';
import { memoryIn } from './memory.ts';
import type { RegisterOptions } from './options.ts';
import { commands } from './registry.ts';
import type { Settings } from './settings.ts';
import { WrongUsage } from './usage.ts';

/** Tells the platform which commands there are; resolves to the exit code. */
export async function registerCommands(
  { dataDir, server, force }: RegisterOptions,
  { token, api }: Settings,
  { output, errors }: Pick<Streams, 'output' | 'errors'>,
): Promise<number> {
  if (token === null) throw new WrongUsage('register needs the bot’s token in DISCORD_TOKEN; .env.example says more.');
  const keyv = new Keyv({ store: storeIn(dataDir), throwOnErrors: true });
  const bodies = registration(commands);
  const where = server === null ? 'all servers' : `the server ${server}`;
  try {
    const rest = restFor({ token, api });
    const how = await register({ rest, server, bodies, memory: memoryIn(() => keyv), force });
    output.write(
      how === 'registered'
        ? `${bodies.length} commands are registered for ${where}.\n`
        : `The platform has these ${bodies.length} commands already, for ${where}; --force sends them again.\n`,
    );
    return 0;
  } catch (error) {
    if (error instanceof RangeError) throw new Error(error.message);
    const { name, status, code } = error as { name?: string; status?: number; code?: unknown };
    const why = status === 401 ? 'the platform does not take the token' : [name, status, code].filter(Boolean).join(' ');
    errors.write(`The commands could not be registered for ${where}: ${why}.\n`);
    return 1;
  } finally {
    await keyv.disconnect();
  }
}

function storeIn(folder: string): LmdbStore {
  try {
    return new LmdbStore({ folder });
  } catch (error) {
    throw new WrongUsage(`${folder} cannot be used as the data folder: ${(error as Error).message}`);
  }
}
