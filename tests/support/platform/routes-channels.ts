import { checkMessage, checkNonce } from './checks.ts';
import { checkDescribed } from './described.ts';
import { channel, guild, memberOf } from './fixtures.ts';
import { isTooMuch } from './multipart.ts';
import { isRecord } from './pieces.ts';
import { type MessageBody, Posted } from './posted.ts';
import {
  cannotMessage,
  invalidBody,
  missingAccess,
  missingPermissions,
  onlyPosts,
  otherAuthor,
  tooLarge,
  unknownMember,
  unknownUser,
} from './refused.ts';
import { type Call, nothing, ok, type Reply, type Route, type Scene } from './routes.ts';
import { snowflake } from './snowflakes.ts';
import type { Room } from './world.ts';

const VIEW = 1n << 10n;
const SEND = 1n << 11n;
const SEND_IN_THREADS = 1n << 38n;
const ATTACH = 1n << 15n;
const READ_HISTORY = 1n << 16n;

/** Messages that the bot sends by itself, and what it may look up about channels, servers and members. */
export function channelRoutes(scene: Scene): Route[] {
  const { world } = scene;
  const seen = (call: Call, ...bits: bigint[]): Room => {
    const room = world.room(call.param('channel'));
    if ((room.botMay & VIEW) === 0n) throw missingAccess();
    for (const bit of bits) if ((room.botMay & bit) === 0n) throw missingPermissions();
    return room;
  };
  const own = (call: Call): Posted => {
    const posted = world.message(seen(call), call.param('message'));
    if (posted.author.id !== world.bot.id) throw otherAuthor();
    return posted;
  };
  const messages = '/channels/:channel/messages';
  const message = `${messages}/:message`;
  return [
    { method: 'GET', path: '/channels/:channel', run: (call) => ok(channel(seen(call), world)) },
    { method: 'POST', path: '/users/@me/channels', run: (call) => openDirect(scene, call) },
    { method: 'POST', path: messages, bucket: true, run: (call) => post(scene, seen(call), call) },
    { method: 'GET', path: messages, bucket: true, run: (call) => list(seen(call, READ_HISTORY), call) },
    {
      method: 'GET',
      path: message,
      bucket: true,
      run: (call) => ok(world.message(seen(call, READ_HISTORY), call.param('message')).message),
    },
    {
      method: 'PATCH',
      path: message,
      bucket: true,
      run: (call) => {
        const posted = own(call);
        mayAttach(world.room(call.param('channel')), call);
        checkMessage(call.body, call.files, call.report, posted.before);
        checkDescribed('messageEdit', call.body, call.report);
        posted.edit(bodyOf(call), call.files);
        return ok(posted.message);
      },
    },
    {
      method: 'DELETE',
      path: message,
      bucket: true,
      run: (call) => {
        own(call).deleted = true;
        return nothing;
      },
    },
    { method: 'GET', path: '/guilds/:guild', run: (call) => ok(guild(world.server(call.param('guild')), world)) },
    { method: 'GET', path: '/guilds/:guild/members/search', run: (call) => ok(search(scene, call)) },
    {
      method: 'GET',
      path: '/guilds/:guild/members/:user',
      run: (call) => {
        const person = world.membersOf(world.server(call.param('guild'))).find(({ user }) => user.id === call.param('user'));
        if (person === undefined) throw unknownMember();
        return ok(memberOf(person));
      },
    },
  ];
}

function mayAttach(room: Room, { files }: Call): void {
  if (files.length > 0 && (room.botMay & ATTACH) === 0n) throw missingPermissions();
  if (isTooMuch(files)) throw tooLarge();
}

/** The body as an object, or the platform's complaint. */
export function bodyOf({ body }: Call): MessageBody {
  if (!isRecord(body)) throw invalidBody();
  return body as MessageBody;
}

function post({ world, settings, filesUrl }: Scene, room: Room, call: Call): Reply {
  if (room.kind === 'forum') throw onlyPosts();
  if (room.kind === 'direct' && room.recipient?.acceptsDirect === false) throw cannotMessage();
  if ((room.botMay & (room.kind === 'thread' ? SEND_IN_THREADS : SEND)) === 0n) throw missingPermissions();
  mayAttach(room, call);
  checkMessage(call.body, call.files, call.report);
  checkNonce(call.body, call.report);
  checkDescribed('messageCreate', call.body, call.report);
  const body = bodyOf(call);
  if (body.enforce_nonce === true && body.nonce !== undefined) {
    const same = room.messages.find(({ body: { nonce }, at }) => nonce === body.nonce && Date.now() - at < settings.nonceMs);
    if (same !== undefined) return ok(same.message);
  }
  const posted = new Posted(room.id, world.bot, body, call.files, filesUrl());
  room.messages.push(posted);
  return ok(posted.message);
}

function list(room: Room, { query }: Call): Reply {
  const limit = Number(query.get('limit') ?? 50);
  if (!(limit >= 1 && limit <= 100)) throw invalidBody();
  const before = BigInt(query.get('before') ?? '9223372036854775807');
  const after = BigInt(query.get('after') ?? '0');
  const there = room.messages.filter(({ deleted, aside, id }) => !deleted && !aside && BigInt(id) < before && BigInt(id) > after);
  return ok((query.has('after') ? there.slice(0, limit) : there.slice(-limit)).reverse().map(({ message }) => message));
}

function openDirect({ world }: Scene, call: Call): Reply {
  checkDescribed('directChannel', call.body, call.report);
  const id = isRecord(call.body) ? String(call.body['recipient_id']) : '';
  const person = world.people.find(({ user }) => user.id === id);
  if (person === undefined) throw unknownUser();
  const there = [...world.rooms.values()].find(({ kind, recipient }) => kind === 'direct' && recipient === person);
  if (there !== undefined) return ok(channel(there, world));
  const all = VIEW | SEND | ATTACH | READ_HISTORY;
  const base = { id: snowflake(), name: person.user.username, kind: 'direct', server: null, parent: null } as const;
  const room: Room = { ...base, recipient: person, botMay: all, messages: [] };
  world.rooms.set(room.id, room);
  return ok(channel(room, world));
}

function search({ world }: Scene, call: Call): unknown[] {
  const start = (call.query.get('query') ?? '').toLowerCase();
  const limit = Number(call.query.get('limit') ?? 1);
  if (start === '' || !(limit >= 1 && limit <= 1000)) throw invalidBody();
  return world
    .membersOf(world.server(call.param('guild')))
    .filter(({ nick, user }) => [nick, user.global_name, user.username].some((name) => name?.toLowerCase().startsWith(start)))
    .slice(0, limit)
    .map(memberOf);
}
