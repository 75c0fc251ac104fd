import { type Client, DiscordAPIError, DiscordjsError, Events } from 'discord.js';

/** Why the gateway closes for good where a setting is wrong: nothing that a restart would mend. */
const WRONG: Readonly<Record<number, string>> = {
  4004: 'The platform does not take the token in DISCORD_TOKEN any more.',
  4010: 'The platform does not know such a shard: see COATBELL_SHARDS.',
  4011: 'The bot is in too many servers for so few shards: see COATBELL_SHARDS.',
  4013: 'The platform does not know what this program asks it for: is there a newer version?',
  4014: 'The platform does not allow what this program asks it for: see the bot page of its application.',
};

/** Resolves when the platform will not have the client any more: to what is set wrong, or to null where a new start may help. */
export const givenUp = (client: Client): Promise<string | null> =>
  new Promise((resolve) => {
    client.on(Events.Invalidated, () => resolve(null));
    // Told only of a connection that will not be tried again.
    client.on(Events.ShardDisconnect, ({ code }) => resolve(WRONG[code] ?? null));
  });

/** Whether the platform does not take the token. */
export const isWrongToken = (error: unknown): boolean =>
  (error instanceof DiscordAPIError && error.status === 401) ||
  (error instanceof DiscordjsError && error.code === 'TokenInvalid');
