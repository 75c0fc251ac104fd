import type { APIUser } from 'discord-api-types/v10';

/** Somebody, or the bot, as the platform shows them to everybody. */
export function user(id: string, name: string): APIUser {
  return { id, username: name, discriminator: '0', global_name: name, avatar: null };
}
