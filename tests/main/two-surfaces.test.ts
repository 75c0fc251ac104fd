import { expect, it } from 'vitest';
import { askedBy } from '../../src/adapters/terminal/line.ts';
import type { NumberedEvent } from '../../src/bench/fold.ts';
import { StandingClock } from '../../src/bench/standing-clock.ts';
import { parseLine } from '../../src/chat/parse.ts';
import { startOf } from '../../src/main/at.ts';
import { story } from '../../src/main/demo-story.ts';
import { commands } from '../../src/main/registry.ts';
import { nextWallClock } from '../../src/trade/time/calendar.ts';
import { spanOf, wallClockOf } from '../../src/trade/time/moment.ts';
import { isRefusal } from '../../src/words/refusal.ts';
import { botOn } from '../support/bot.ts';
import { Platform } from '../support/platform/platform.ts';
import type { Posted } from '../support/platform/posted.ts';
import { ping, room } from '../support/room.ts';

const MANAGE_SERVER = 1n << 5n;
const begin = startOf(story.at, story.zone);
const start = begin && 'at' in begin ? begin.at : 0;
const lines = story.lines.filter((line) => !line.startsWith(';'));

/** The whole story in the local chat: what is on record afterwards, and which pings were shown. */
async function inTheLocalChat() {
  const clock = new StandingClock(start);
  const { type, house, close, troubles } = await room({ clock, at: null, zone: story.zone });
  const shown = await type(...lines);
  const log = await house.bench('bench').log();
  const studio = await house.studio();
  await close();
  expect(troubles).toEqual([]);
  return { log, studio, pings: shown.flatMap((message) => ping(message)?.id.replace('bench/', '') ?? []), last: clock.now() };
}

/** The same through the platform, with a real client: Dana and Kim type, press, and are rung. */
async function onThePlatform() {
  const platform = new Platform({ channelLimit: 1000 });
  const server = platform.server('studio');
  const channel = platform.channel(server, 'bench');
  const people = {
    dana: platform.person('dana', { permissions: MANAGE_SERVER | 0x400n | 0x800n, servers: [server] }),
    kim: platform.person('kim', { servers: [server] }),
  };
  await platform.start();
  const clock = new StandingClock(start);
  const bot = await botOn(platform, { clock, zone: story.zone });
  const house = bot.app.studios.house(server.id);
  const seen: Posted[] = [];
  let who: keyof typeof people = 'dana';

  const settle = async () => {
    await house.bench(channel.id).wake();
    await clock.settle();
  };
  const newest = (label: string) => {
    const all = [...seen, ...platform.messagesIn(channel)].filter(({ text }) => !text.includes('Board at'));
    const sorted = all.sort((one, other) => (BigInt(one.id) < BigInt(other.id) ? 1 : -1));
    const found = sorted.find(({ buttons }) => buttons.some((button) => button.label === label));
    if (!found) throw new Error(`nobody sees a button "${label}"`);
    return found;
  };
  const say = async (line: string) => {
    const asked = askedBy(line);
    switch (asked.as) {
      case 'speaker':
        who = asked.who as keyof typeof people;
        return;
      case 'command': {
        const call = parseLine(commands, asked.line);
        if (isRefusal(call)) throw new Error(`${line}: ${call.code}`);
        const { declaration, raw } = call;
        const typed = declaration.options.map(({ name, kind }) => [name, raw[name], kind] as const);
        const options = Object.fromEntries(
          typed.flatMap(([name, value, kind]) =>
            value === undefined ? [] : [[name, kind === 'boolean' ? value === 'yes' : value]],
          ),
        );
        const exchange = await platform.command({ channel, user: people[who], name: declaration.path, options }).answered();
        if (exchange.message) seen.push(exchange.message);
        return settle();
      }
      case 'press': {
        const exchange = await platform
          .press({ channel, user: people[who], message: newest(asked.label), label: asked.label })
          .answered();
        if (exchange.message) seen.push(exchange.message);
        return settle();
      }
      case 'advance':
        return clock.advanceTo(clock.now() + Math.round(spanOf(asked.by) ?? 0));
      case 'advance-until':
        return clock.advanceTo(nextWallClock((await house.studio()).zone, clock.now(), wallClockOf(asked.wallClock) ?? 0));
      default:
        throw new Error(`a line of no use here: ${line}`);
    }
  };
  for (const line of lines) await say(line);
  const log = await house.bench(channel.id).log();
  const studio = await house.studio();
  const posted = platform.messagesIn(channel);
  await bot.close();
  await platform.stop();
  expect(bot.troubles).toEqual([]);
  expect(platform.complaints).toEqual([]);
  const names = new Map(Object.entries(people).map(([name, { user }]) => [user.id, name]));
  const named = <T>(value: T): T => JSON.parse(JSON.stringify(value).replace(/\d{16,20}/g, (id) => names.get(id) ?? id)) as T;
  return {
    log: named(log),
    studio: { ...named(studio), paces: studio.paces, paceResets: studio.paceResets, recipes: studio.recipes },
    posted,
    rang: bot.rang,
    last: clock.now(),
    ids: people,
  };
}

const sentIn = (log: readonly NumberedEvent[]) => log.flatMap((event) => (event.type === 'PingSent' ? [event.ping] : []));

it('a whole job, with a handover between two people, is the same on both surfaces', async () => {
  const local = await inTheLocalChat();
  const platform = await onThePlatform();
  expect(platform.last).toBe(local.last);
  expect(platform.studio).toEqual(local.studio);
  expect(platform.log).toEqual(local.log);
  expect(local.log.length).toBeGreaterThan(50);
  expect(local.log.some(({ type }) => type === 'HandoverTaken')).toBe(true);
  // Each ping on record was shown once, on either side, and mentions nobody but those whom it is for.
  expect(sentIn(local.log)).toEqual(local.pings);
  expect(platform.rang).toHaveLength(local.pings.length);
  const mentioning = platform.posted.filter(({ body }) => (body.allowed_mentions?.users ?? []).length > 0);
  const ids = Object.values(platform.ids).map(({ user }) => user.id);
  for (const { body } of mentioning) expect(body.allowed_mentions?.users?.every((id) => ids.includes(id))).toBe(true);
  expect(mentioning.length).toBeGreaterThanOrEqual(local.pings.length);
}, 120_000);
