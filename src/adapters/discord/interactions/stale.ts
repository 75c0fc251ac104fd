import { type ButtonInteraction, ComponentType, MessageFlags, Routes } from 'discord.js';
import type { APIMessageTopLevelComponent } from 'discord-api-types/v10';
import type { Answer } from '../../../chat/card.ts';
import { isRefusal } from '../../../words/refusal.ts';
import type { Tools } from './working.ts';

/** Refusals that say: what this button offered is over and does not come again. */
const OVER: ReadonlySet<string> = new Set([
  'already-done',
  'already-poured',
  'already-taken',
  'already-undone',
  'already-yours',
  'cup-ended',
  'job-closed',
  'no-missed-window',
  'offer-gone',
  'unknown-cup',
  'unknown-job',
]);

/**
 * Takes the button off a message that offered what is over; the others may still hold. The board keeps its own, since it is
 * made anew anyway. That it could not be done is nobody's trouble: the button still says by itself what has become of it.
 */
export async function dropStaleButtons(
  interaction: ButtonInteraction,
  { answer, server, bench }: { answer: Answer; server: string; bench: string },
  { records, observer }: Pick<Tools, 'records' | 'observer'>,
): Promise<void> {
  if (!isRefusal(answer) || !OVER.has(answer.code)) return;
  const { message } = interaction;
  // What only one person sees cannot be reached as a message of the channel.
  if (message.flags.has(MessageFlags.Ephemeral)) return;
  try {
    if ((await records.read(server)).boards[bench]?.message === message.id) return;
    const components = message.components.flatMap((component) => withoutButton(component.toJSON(), interaction.customId));
    await interaction.client.rest.patch(Routes.channelMessage(message.channelId, message.id), {
      body: { components, allowed_mentions: { parse: [] } },
    });
  } catch {
    observer.happened('buttons-not-dropped');
  }
}

type Component = { readonly type: number; readonly [key: string]: unknown };

const isComponent = (value: unknown): value is Component => typeof value === 'object' && value !== null && 'type' in value;

/** The component without this button, or a row that held no other; files by their names, as the platform wants them back. */
function withoutButton(component: unknown, pressed: string): APIMessageTopLevelComponent[] {
  if (!isComponent(component) || component.custom_id === pressed) return [];
  // What the platform itself adds of a file, it does not take back.
  const { components, items, file, name: _name, size: _size, ...own } = component;
  const inside = Array.isArray(components) ? components.flatMap((each) => withoutButton(each, pressed)) : null;
  if (component.type === ComponentType.ActionRow && inside?.length === 0) return [];
  const kept: unknown = {
    ...own,
    ...(inside === null ? {} : { components: inside }),
    ...(Array.isArray(items) ? { items: items.map((item) => ({ ...item, media: attached(item.media) })) } : {}),
    ...(file === undefined ? {} : { file: attached(file) }),
  };
  // It came from the platform as such a component, and only lost parts.
  return [kept as APIMessageTopLevelComponent];
}

/** The platform names a file by its address, which holds for some hours, and takes it by its name alone. */
function attached(media: unknown): unknown {
  if (typeof media !== 'object' || media === null || !('url' in media) || typeof media.url !== 'string') return media;
  if (!URL.canParse(media.url)) return media;
  const { protocol, pathname } = new URL(media.url);
  return { url: protocol === 'attachment:' ? media.url : `attachment://${decodeURIComponent(pathname.split('/').at(-1) ?? '')}` };
}
