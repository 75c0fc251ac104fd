import { randomBytes } from 'node:crypto';
import type {
  APIApplicationCommand,
  APIApplicationCommandInteractionDataBasicOption,
  APIApplicationCommandInteractionDataOption,
  APIInteraction,
  APIInteractionDataResolved,
  APIModalInteractionResponseCallbackData,
} from 'discord-api-types/v10';
import { channel, FEATURES, memberOf } from './fixtures.ts';
import { isRecord, type Piece, pieces } from './pieces.ts';
import { snowflake } from './snowflakes.ts';
import type { Person, Room, World } from './world.ts';

/** What every interaction carries: who, where, in which language, and what the bot may do there. */
export function frame(world: World, room: Room, person: Person): Record<string, unknown> {
  const { server } = room;
  const where = { ...channel(room, world), permissions: String(person.permissions) };
  const common = {
    id: snowflake(),
    application_id: world.applicationId,
    channel: where,
    channel_id: room.id,
    token: randomBytes(48).toString('base64url'),
    version: 1,
    locale: person.locale,
    app_permissions: String(room.botMay),
    entitlements: [],
    attachment_size_limit: 10 * 1024 * 1024,
  };
  if (server === null) {
    return { ...common, user: person.user, context: 1, authorizing_integration_owners: { '0': '0' } };
  }
  return {
    ...common,
    guild_id: server.id,
    guild: { id: server.id, locale: server.locale, features: FEATURES },
    member: { ...memberOf(person), permissions: String(person.permissions) },
    guild_locale: server.locale,
    context: 0,
    authorizing_integration_owners: { '0': server.id },
  };
}

/** Joins a frame and its data. The one place where a payload made of parts is called a whole one. */
export function interaction(type: 2 | 3 | 4 | 5, base: Record<string, unknown>, more: Record<string, unknown>): APIInteraction {
  return { ...base, type, ...more } as unknown as APIInteraction;
}

/** The data of a command or of its completion. */
export function commandData(
  command: APIApplicationCommand,
  subcommand: string | undefined,
  filled: readonly APIApplicationCommandInteractionDataBasicOption[],
  resolved: APIInteractionDataResolved,
): Record<string, unknown> {
  const part = { type: 1, name: subcommand, options: filled } as APIApplicationCommandInteractionDataOption;
  return {
    id: command.id,
    name: command.name,
    type: 1,
    options: subcommand === undefined ? filled : [part],
    ...(Object.keys(resolved).length === 0 ? {} : { resolved }),
    ...(command.guild_id === undefined ? {} : { guild_id: command.guild_id }),
  };
}

/** What a filled-in modal sends: the same components with values. Inputs that nobody filled keep what stood there. */
export function modalData(
  modal: APIModalInteractionResponseCallbackData,
  values: Readonly<Record<string, string>>,
  unchecked: boolean,
): Record<string, unknown> {
  const used = new Set<string>();
  const fill = (piece: Piece, label: unknown): Record<string, unknown> => {
    const id = String(piece['custom_id']);
    const key = [id, String(label)].find((one) => values[one] !== undefined);
    if (key !== undefined) used.add(key);
    const value = key === undefined ? (typeof piece['value'] === 'string' ? piece['value'] : '') : (values[key] ?? '');
    if (!unchecked) checkInput(piece, String(label), value);
    const base = { type: piece.type, id: 0, custom_id: id };
    return piece.type === 4 ? { ...base, value } : { ...base, values: value === '' ? [] : [value] };
  };
  const components = modal.components.map((row): Record<string, unknown> => {
    const [first] = [...pieces([row])].slice(1);
    if (first === undefined) return { type: row.type, id: 0 };
    if (row.type === 18) return { type: 18, id: 0, component: fill(first, row.label) };
    return { type: 1, id: 0, components: [fill(first, first['label'])] };
  });
  for (const key of Object.keys(values)) if (!used.has(key)) throw new Error(`the modal has no input ${key}`);
  return { custom_id: modal.custom_id, components };
}

function checkInput(piece: Piece, label: string, value: string): void {
  if (piece['required'] !== false && value === '') throw new Error(`the input ${label} is required`);
  if (piece.type !== 4 || value === '') return;
  const least = Number(piece['min_length'] ?? 0);
  const most = Number(piece['max_length'] ?? 4000);
  if (value.length < least || value.length > most) throw new Error(`the input ${label} takes ${least} to ${most} characters`);
}

/** The component that somebody presses. @throws when it is not there or cannot be pressed */
export function pressable(components: unknown, by: { label?: string; customId?: string }): { customId: string; type: number } {
  const all = [...pieces(components)].filter((piece) => piece['custom_id'] !== undefined);
  const found = all.find((piece) =>
    by.customId === undefined ? piece['label'] === by.label : piece['custom_id'] === by.customId,
  );
  if (found === undefined) {
    const there = all.map((piece) => String(piece['label'] ?? piece['custom_id'])).join(', ');
    throw new Error(`there is no ${by.customId ?? by.label} to press, only: ${there}`);
  }
  if (isRecord(found) && found['disabled'] === true) throw new Error(`${by.customId ?? by.label} is disabled`);
  return { customId: String(found['custom_id']), type: found.type };
}
