import { REST } from 'discord.js';
import { Keyv } from 'keyv';
import { afterAll } from 'vitest';
import type { Memory } from '../../../../src/adapters/discord/memory.ts';
import { Boards } from '../../../../src/adapters/discord/sending/board.ts';
import type { ShownBoard } from '../../../../src/adapters/discord/sending/board-pictures.ts';
import { rejectsOnRateLimit } from '../../../../src/adapters/discord/sending/faults.ts';
import { Outbox } from '../../../../src/adapters/discord/sending/outbox.ts';
import { Records } from '../../../../src/adapters/discord/sending/records.ts';
import { announcer } from '../../../../src/adapters/discord/sending/ring.ts';
import { Servers } from '../../../../src/adapters/discord/sending/servers.ts';
import { KeyvEventStore } from '../../../../src/adapters/keyv/event-store.ts';
import type { BenchEvent } from '../../../../src/bench/events.ts';
import { MemoryLock } from '../../../../src/bench/lock.ts';
import { StandingClock } from '../../../../src/bench/standing-clock.ts';
import type { Studio } from '../../../../src/bench/studio.ts';
import { Studios } from '../../../../src/bench/studios.ts';
import { boardCard } from '../../../../src/cards/board-card.ts';
import { t } from '../../../support/given.ts';
import { Platform } from '../../../support/platform/platform.ts';
import type { Settings } from '../../../support/platform/settings.ts';
import type { Room, Server } from '../../../support/platform/world.ts';
import { studio as anyStudio } from '../../../support/studio.ts';

const open: (() => Promise<void>)[] = [];
afterAll(async () => {
  await Promise.all(open.map((close) => close()));
});

interface Rang {
  readonly how: string;
  readonly kind: string;
  readonly channel: string;
}

interface Coming {
  readonly atOnce?: number;
  readonly perSecond?: number;
  readonly studio?: Partial<Studio>;
  /** How long a board leaves a broken platform alone. */
  readonly againMilliseconds?: number;
  /** How long a board goes without its picture when that could not be sent. */
  readonly pictureAgainMilliseconds?: number;
  readonly board?: ShownBoard;
}

/** A platform, a server with a bench, Dana, and a disk: what stays when a process ends. The clock stands at 08:00. */
export async function world(settings: Partial<Settings> = {}) {
  const platform = new Platform(settings);
  const server = platform.server('studio');
  const room = platform.channel(server, 'bench');
  const dana = platform.person('dana');
  await platform.start();
  const disk = new Map<string, unknown>();
  const clock = new StandingClock(t('08:00'));
  open.push(() => platform.stop());
  return { platform, server, room, dana, disk, clock, comesUp: (how: Coming = {}) => comesUp({ platform, disk, clock, ...how }) };
}

/** What of the bot sends by itself, with nothing but what is on the disk. Its boards are quick. */
function comesUp({
  platform,
  disk,
  clock,
  ...how
}: Coming & { platform: Platform; disk: Map<string, unknown>; clock: StandingClock }) {
  const rest = new REST({ api: platform.api, rejectOnRateLimit: rejectsOnRateLimit, timeout: 5000 });
  rest.setToken(platform.settings.token);
  const rang: Rang[] = [];
  const troubles: unknown[] = [];
  const happened: string[] = [];
  const observer = {
    rang: ({ how: way, kind, channel }: Rang) => void rang.push({ how: way, kind, channel }),
    trouble: (_: string, error: unknown) => void troubles.push(error),
    happened: (event: string) => void happened.push(event),
    waiting: () => {},
  };
  const keyv = new Keyv({ store: disk, namespace: 'platform', throwOnErrors: true });
  const memory: Memory = {
    get: (key) => keyv.get(key),
    set: async (key, value) => void (await keyv.set(key, value)),
    delete: async (key) => void (await keyv.delete(key)),
  };
  const records = new Records(memory);
  const outbox = new Outbox({ observer, ...how });
  const sending = { rest, records, observer, room: () => outbox.room(), me: () => platform.world.bot.id };
  const boards = new Boards({
    ...sending,
    turns: outbox,
    now: () => clock.now(),
    look: async (house, channel) => ({
      state: await studios.house(house).bench(channel).state(),
      studio: await studios.house(house).studio(),
    }),
    everyMilliseconds: 400,
    gatherMilliseconds: 20,
    againMilliseconds: how.againMilliseconds ?? 50,
    pictureAgainMilliseconds: how.pictureAgainMilliseconds ?? 60_000,
    board: how.board ?? (async (view) => boardCard(view)),
  });
  const studios = new Studios({
    store: new KeyvEventStore(new Keyv({ store: disk, throwOnErrors: true })),
    lock: new MemoryLock(),
    clock,
    turns: outbox,
    configured: anyStudio({ duty: { always: [], byShift: {} }, ...how.studio }),
    announce: announcer(sending),
    trouble: (error) => void troubles.push(error),
    changed: (house, channel) => boards.changed(house, channel),
    forgot: (house) => records.forget(house),
  });
  const servers = new Servers({ studios, records, clock, observer });
  const bench = (server: Server, room: Room) => studios.house(server.id).bench(room.id);
  return {
    rest,
    records,
    outbox,
    boards,
    studios,
    servers,
    rang,
    troubles,
    happened,
    bench,
    /** Puts this into a bench's history. */
    tell: (server: Server, room: Room, ...events: BenchEvent[]) => bench(server, room).decide(() => events),
    /** Gone, as after a kill: nothing that it began goes on. */
    async ends() {
      boards.close();
      servers.close();
      studios.close();
      await outbox.close();
      studios.close();
    },
  };
}
