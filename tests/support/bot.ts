import { fileURLToPath } from 'node:url';
import { Bot } from '../../src/adapters/discord/bot.ts';
import { clientFor, type Shards } from '../../src/adapters/discord/client.ts';
import type { Observer } from '../../src/adapters/discord/observer.ts';
import type { ShownBoard } from '../../src/adapters/discord/sending/board-pictures.ts';
import type { Clock } from '../../src/bench/ports.ts';
import { boardCard } from '../../src/cards/board-card.ts';
import { registration } from '../../src/chat/registration.ts';
import { type App, openApp } from '../../src/main/app.ts';
import { memoryIn } from '../../src/main/memory.ts';
import { commands } from '../../src/main/registry.ts';
import type { Platform } from './platform/platform.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));

interface How {
  readonly clock: Clock;
  readonly dataDir?: string | null;
  readonly zone?: string;
  readonly boardEveryMilliseconds?: number;
  readonly shards?: Shards;
  /** From where attachments are taken, instead of the platform's own hosts; nothing while it is empty. */
  readonly uploads?: readonly string[];
}

/** The whole bot in this process, connected to this platform, with the shipped configuration and its commands registered. */
export async function botOn(
  platform: Platform,
  { clock, dataDir = null, zone = 'Europe/Berlin', uploads, shards = { ids: [0], of: 1 }, ...more }: How,
) {
  const troubles: unknown[] = [];
  const happened: string[] = [];
  const rang: string[] = [];
  const observer: Observer = {
    answered: () => {},
    rang: ({ kind, how }) => void rang.push(`${kind} ${how}`),
    waiting: () => {},
    happened: (event) => void happened.push(event),
    trouble: (where, error) => void troubles.push({ where, error }),
  };
  platform.assumeRegistered(registration(commands));
  const client = clientFor({ shards, api: platform.api });
  const token = platform.settings.token;
  const origins = uploads === undefined ? {} : { attachmentOrigins: uploads };
  const memory = memoryIn(() => app.keyv);
  const board: ShownBoard = async (view) => boardCard(view);
  const bot: Bot = new Bot({ client, token, clock, observer, memory, board, ...more, ...origins });
  const trouble = (error: unknown) => void troubles.push({ where: 'bench', error });
  const opened = openApp({ ...bot.outgoing, root, dataDir, configDir: null, zone, clock, trouble });
  if (Array.isArray(opened)) throw new Error(JSON.stringify(opened));
  const app: App = opened;
  bot.begin(app);
  await bot.knock();
  await bot.connect();
  for (let tries = 0; !bot.connected && tries < 400; tries += 1) await new Promise((resolve) => setTimeout(resolve, 10));
  const close = async () => {
    await bot.stop();
    await app.close();
  };
  return { app, bot, client, troubles, happened, rang, close };
}
