import {
  Client,
  type ClientOptions,
  Events,
  GatewayIntentBits,
  type Interaction,
  type RESTPutAPIApplicationCommandsJSONBody,
} from 'discord.js';
import { afterAll } from 'vitest';
import { Platform } from './platform.ts';
import type { Settings } from './settings.ts';

export const SILENT = { parse: [] };
const COMMANDS: RESTPutAPIApplicationCommandsJSONBody = [
  {
    type: 1,
    name: 'mix',
    description: 'What to weigh out',
    options: [
      { type: 3, name: 'amount', description: 'How much', required: true },
      { type: 3, name: 'material', description: 'Of what', autocomplete: true },
      { type: 4, name: 'cups', description: 'In how many cups', min_value: 1 },
      { type: 10, name: 'spare', description: 'How much more' },
      { type: 5, name: 'quiet', description: 'For me alone' },
      { type: 6, name: 'holder', description: 'Who pours' },
      { type: 11, name: 'sheet', description: 'The data sheet' },
    ],
  },
  { type: 1, name: 'job', description: 'Jobs', options: [{ type: 1, name: 'start', description: 'Starts one', options: [] }] },
];

// The tests run side by side, so they are cleared away together.
const open: (() => Promise<void>)[] = [];
afterAll(async () => {
  await Promise.all(open.map((close) => close()));
});

interface Given {
  readonly settings?: Partial<Settings>;
  readonly options?: Partial<ClientOptions>;
  readonly prepare?: (platform: Platform) => void;
  readonly hear?: (interaction: Interaction) => Promise<unknown>;
}

/** A platform with a studio, a bench and Dana, and a client. It is logged in and ready once `ready` resolves. */
export async function given({ settings, options, prepare, hear }: Given = {}) {
  const platform = new Platform(settings);
  const studio = platform.server('studio');
  const bench = platform.channel(studio, 'bench');
  const dana = platform.person('dana');
  platform.assumeRegistered(COMMANDS);
  prepare?.(platform);
  await platform.start();
  const client = new Client({ intents: [GatewayIntentBits.Guilds], ...options, rest: { api: platform.api, ...options?.rest } });
  const failures: unknown[] = [];
  client.on(Events.Error, (error) => failures.push(error));
  client.on(Events.ShardError, () => undefined);
  client.on(Events.InteractionCreate, (interaction) => {
    hear?.(interaction).catch((error: unknown) => failures.push(error));
  });
  const ready = new Promise<void>((resolve) => client.once(Events.ClientReady, () => resolve()));
  open.push(async () => {
    await client.destroy();
    await platform.stop();
  });
  return { platform, studio, bench, dana, client, failures, ready, login: () => client.login(platform.settings.token) };
}

export async function loggedIn(how: Given = {}) {
  const all = await given(how);
  await all.login();
  await all.ready;
  return all;
}

export const replies = (content: string) => async (interaction: Interaction) =>
  interaction.isRepliable() ? interaction.reply({ content, allowedMentions: SILENT }) : undefined;

export const message = (content: string, nonce?: string) => ({
  body: { content, allowed_mentions: SILENT, ...(nonce === undefined ? {} : { nonce, enforce_nonce: true }) },
});

export const seconds = (s: number) => ({ timeout: s * 1000, interval: 10 });
