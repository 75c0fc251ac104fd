import type {
  APIApplication,
  APIChannel,
  APIDMChannel,
  APIGuildMember,
  APIRole,
  APITextChannel,
  APIThreadChannel,
  APIUser,
  GatewayGuildCreateDispatchData,
} from 'discord-api-types/v10';
import { ChannelType, GuildFeature, OverwriteType } from 'discord-api-types/v10';
import type { Person, Room, Server, World } from './world.ts';

/** What the bot may do unless a test takes it away: see, read, send (also in threads), embed, attach, use external emoji. */
export const USUAL_PERMISSIONS =
  (1n << 10n) | (1n << 11n) | (1n << 14n) | (1n << 15n) | (1n << 16n) | (1n << 18n) | (1n << 31n) | (1n << 38n);

export const FEATURES = [GuildFeature.Community];

/** Typed as a number, since the flag enums have no name for none. */
const NONE: number = 0;

const JOINED = '2025-11-03T08:00:00.000000+00:00';

export function member(of: APIUser, nick: string | null): APIGuildMember {
  return {
    user: of,
    nick,
    avatar: null,
    banner: null,
    roles: [],
    joined_at: JOINED,
    premium_since: null,
    deaf: false,
    mute: false,
    flags: NONE,
    pending: false,
    communication_disabled_until: null,
  };
}

export const memberOf = (person: Person): APIGuildMember => member(person.user, person.nick);

export function application(world: World): APIApplication {
  return {
    id: world.applicationId,
    name: 'coatbell',
    icon: null,
    description: '',
    bot_public: true,
    bot_require_code_grant: false,
    verify_key: '0'.repeat(64),
    team: null,
    flags: NONE,
    flags_new: '0',
    summary: '',
  };
}

export function everyone(server: Server): APIRole {
  return {
    id: server.id,
    name: '@everyone',
    color: 0,
    colors: { primary_color: 0, secondary_color: null, tertiary_color: null },
    hoist: false,
    icon: null,
    unicode_emoji: null,
    position: 0,
    permissions: String(USUAL_PERMISSIONS),
    managed: false,
    mentionable: false,
    flags: NONE,
  };
}

export function textChannel(room: Room, world: World): APITextChannel {
  const denied = USUAL_PERMISSIONS & ~room.botMay;
  return {
    id: room.id,
    // What a forum has besides is of no use here.
    type: (room.kind === 'forum' ? ChannelType.GuildForum : ChannelType.GuildText) as ChannelType.GuildText,
    name: room.name,
    position: 0,
    nsfw: false,
    topic: null,
    last_message_id: null,
    rate_limit_per_user: 0,
    flags: NONE,
    permission_overwrites:
      denied === 0n ? [] : [{ id: world.bot.id, type: OverwriteType.Member, allow: '0', deny: String(denied) }],
    ...(room.server === null ? {} : { guild_id: room.server.id }),
    parent_id: null,
  };
}

export function threadChannel(room: Room): APIThreadChannel {
  return {
    id: room.id,
    type: ChannelType.PublicThread,
    name: room.name,
    ...(room.server === null ? {} : { guild_id: room.server.id }),
    parent_id: room.parent?.id ?? room.id,
    owner_id: room.id,
    last_message_id: null,
    message_count: 0,
    total_message_sent: 0,
    member_count: 1,
    rate_limit_per_user: 0,
    flags: NONE,
    thread_metadata: {
      archived: false,
      auto_archive_duration: 1440,
      archive_timestamp: JOINED,
      locked: false,
      create_timestamp: JOINED,
    },
    member: { id: room.id, user_id: room.id, join_timestamp: JOINED, flags: NONE },
    applied_tags: [],
  };
}

export function directChannel(room: Room): APIDMChannel {
  return {
    id: room.id,
    type: ChannelType.DM,
    name: null,
    last_message_id: null,
    flags: NONE,
    recipients: room.recipient === null ? [] : [room.recipient.user],
  };
}

export function channel(room: Room, world: World): APIChannel {
  if (room.kind === 'direct') return directChannel(room);
  return room.kind === 'thread' ? threadChannel(room) : textChannel(room, world);
}

/** A server as GUILD_CREATE announces it; without the privileged intent only the bot itself is among the members. */
export function guild(server: Server, world: World): GatewayGuildCreateDispatchData {
  const rooms = world.roomsOf(server);
  return {
    id: server.id,
    name: server.name,
    icon: null,
    splash: null,
    discovery_splash: null,
    banner: null,
    description: null,
    owner_id: server.id,
    afk_channel_id: null,
    afk_timeout: 300,
    verification_level: 0,
    default_message_notifications: 1,
    explicit_content_filter: 0,
    roles: [everyone(server)],
    emojis: [],
    stickers: [],
    features: FEATURES,
    mfa_level: 0,
    application_id: null,
    system_channel_id: null,
    system_channel_flags: NONE,
    rules_channel_id: null,
    public_updates_channel_id: null,
    safety_alerts_channel_id: null,
    vanity_url_code: null,
    premium_tier: 0,
    premium_subscription_count: 0,
    premium_progress_bar_enabled: false,
    preferred_locale: server.locale as GatewayGuildCreateDispatchData['preferred_locale'],
    nsfw_level: 0,
    hub_type: null,
    incidents_data: null,
    region: null,
    max_members: 500000,
    joined_at: JOINED,
    large: false,
    unavailable: false,
    member_count: world.membersOf(server).length + 1,
    voice_states: [],
    members: [member(world.bot, null)],
    channels: rooms.filter(({ kind }) => kind === 'channel' || kind === 'forum').map((room) => textChannel(room, world)),
    threads: rooms.filter(({ kind }) => kind === 'thread').map(threadChannel),
    presences: [],
    stage_instances: [],
    guild_scheduled_events: [],
    soundboard_sounds: [],
  };
}
