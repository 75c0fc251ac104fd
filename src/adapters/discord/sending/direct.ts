import { ComponentType, Routes } from 'discord.js';
import type { APIDMChannel } from 'discord-api-types/v10';
import type { AboutPing } from '../../../bench/bench.ts';
import type { Card } from '../../../chat/card.ts';
import type { Observer } from '../observer.ts';
import { isSnowflake } from '../rendering/markup.ts';
import { faultOf } from './faults.ts';
import { MOST_TOLD } from './records.ts';
import { digestOf, type paced, post, rendered, type Sending } from './sender.ts';

interface Untold {
  /** The ping among all channels. */
  readonly id: string;
  readonly card: Card;
  readonly about: AboutPing;
  readonly left: boolean;
}

/**
 * Tells each person whom a ping is for, once, by private message that it could not be shown in its channel. Resolves to
 * whether anybody was told now. Rejects where the platform has a limit or is broken: then it may be called again.
 */
export async function tellDirectly(
  { rest, records, names, observer }: Sending & { observer: Pick<Observer, 'trouble'> },
  { id, card, about, left }: Untold,
  request: ReturnType<typeof paced>,
): Promise<boolean> {
  const { house: server, channel, now, studio } = about;
  const { told } = await records.read(server);
  let anybody = false;
  for (const who of new Set(card.to)) {
    const name = `direct/${id}/${who}`;
    const key = digestOf(name);
    if (!isSnowflake(who) || told.includes(key)) continue;
    const quiet = { ...card, buttons: [], to: [] };
    const message = await rendered(
      quiet,
      { server, now, zone: studio.zone, kind: 'reply', bench: channel },
      { records, ...(names ? { names } : {}) },
    );
    message.components.unshift({ type: ComponentType.TextDisplay, content: why(channel, left) });
    try {
      const conversation = await request(() => rest.post(Routes.userChannels(), { body: { recipient_id: who } }));
      await request(() => post(rest, (conversation as APIDMChannel).id, message, name));
      anybody = true;
    } catch (error) {
      const { kind } = faultOf(error);
      if (kind !== 'unreachable' && kind !== 'refused') throw error;
      // That somebody takes no private messages is their right.
      if (kind === 'refused') observer.trouble('direct', error);
    }
    // Also of those who cannot be told: they need not be asked again.
    await records.change(server, (before) => ({ ...before, told: [...before.told, key].slice(-MOST_TOLD) }));
  }
  return anybody;
}

const why = (channel: string, left: boolean) =>
  left
    ? `I am not on the server of <#${channel}> any more, so this comes to you directly.`
    : `I cannot write in <#${channel}> now, so this comes to you directly.`;
