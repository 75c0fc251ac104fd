import { ComponentType, MessageFlags } from 'discord.js';
import type { AboutPing, Announce } from '../../../bench/bench.ts';
import type { Ping } from '../../../bench/pings.ts';
import { pingCard } from '../../../cards/ping-card.ts';
import type { Card } from '../../../chat/card.ts';
import type { Observer } from '../observer.ts';
import { markup, markupWithin } from '../rendering/markup.ts';
import type { PlatformMessage } from '../rendering/message.ts';
import { markOf } from '../rendering/press.ts';
import { tellDirectly } from './direct.ts';
import { faultOf } from './faults.ts';
import { findMarked, paced, post, rendered, type Search, type Sending } from './sender.ts';

interface RingParts extends Sending {
  readonly observer: Pick<Observer, 'rang' | 'trouble'>;
}

/** How many pings are remembered of which nobody knows whether they went out. */
const MOST_DOUBTFUL = 10_000;
const MOST_TITLE = 1500;

/**
 * Shows a ping in its channel, never twice: within minutes the platform itself knows its name again, and beyond them the
 * channel is looked through for its mark. Where the channel cannot be reached, the people it is for are told directly, and
 * it stays to be sent. Rejects when the platform has a limit (the outbox waits) or is broken (the bench tries again).
 */
export function announcer(parts: RingParts): Announce {
  const { rest, records, observer, room } = parts;
  const doubtful = new Set<string>();
  const searches = new Map<string, Search>();

  return async (ping, about) => {
    const { house: server, channel, now, studio } = about;
    const id = `${channel}/${ping.id}`;
    const request = paced(room);
    const card = pingCard(ping, about);
    const rang = (how: 'channel' | 'direct' | 'held') =>
      observer.rang({ kind: ping.kind, how, lateMilliseconds: Math.max(0, now - ping.dueAt), server, channel });
    const held = async (left: boolean) => {
      rang((await tellDirectly(parts, { id, card, about, left }, request)) ? 'direct' : 'held');
      return 'held' as const;
    };
    const sent = () => {
      doubtful.delete(id);
      rang('channel');
      return 'sent' as const;
    };

    if ((await records.read(server)).leftAt !== null) return held(true);
    if ((about.late || doubtful.has(id)) && (await isThere(parts, id, ping, channel, { request, searches }))) return sent();
    try {
      const message = await rendered(card, { server, now, zone: studio.zone, kind: 'ping', bench: channel }, parts);
      try {
        await request(() => post(rest, channel, message, id));
      } catch (error) {
        const { kind } = faultOf(error);
        if (kind !== 'refused' && kind !== 'gone') throw error;
        // A defect of ours must not keep a pot life from anybody: the bare words will do.
        observer.trouble('ring', error);
        await request(() => post(rest, channel, bareWords(card, about, message, id), id));
      }
      return sent();
    } catch (error) {
      const { kind } = faultOf(error);
      if (kind === 'unreachable') return held(false);
      if (kind === 'refused' || kind === 'gone') {
        // To try it every half minute would not make it any better.
        observer.trouble('ring', error);
        rang('held');
        return 'held';
      }
      if (kind === 'passing') remember(doubtful, id);
      throw error;
    }
  };
}

/** Whether it went out before; where that cannot be seen, the message's name has to do. */
async function isThere(
  parts: RingParts,
  id: string,
  ping: Ping,
  channel: string,
  { request, searches }: { request: ReturnType<typeof paced>; searches: Map<string, Search> },
) {
  const search = searches.get(id) ?? { page: 1, before: null };
  searches.delete(id);
  try {
    return (await request(() => findMarked(parts, channel, { mark: markOf(id), since: ping.dueAt, search }))) !== null;
  } catch (error) {
    if (faultOf(error).kind !== 'limited') return false;
    // It goes on from there when its turn comes again; from the start, the same limit would stop it at the same page.
    searches.set(id, search);
    throw error;
  }
}

/** What cannot be wrong: who, and the title. */
function bareWords(card: Card, { now, studio }: AboutPing, { mentions }: PlatformMessage, id: string): PlatformMessage {
  const reader = { now, zone: studio.zone };
  const who = card.to.map((each) => markup([{ as: 'person', id: each }], reader)).join(' ');
  const content = `${who} ${markupWithin(card.title, reader, MOST_TITLE)}`.trim().slice(-2 * MOST_TITLE);
  return {
    flags: MessageFlags.IsComponentsV2,
    components: [{ type: ComponentType.Container, id: markOf(id), components: [{ type: ComponentType.TextDisplay, content }] }],
    files: [],
    mentions,
    ephemeral: false,
  };
}

function remember(doubtful: Set<string>, id: string): void {
  doubtful.add(id);
  const [oldest] = doubtful;
  if (oldest !== undefined && doubtful.size > MOST_DOUBTFUL) doubtful.delete(oldest);
}
