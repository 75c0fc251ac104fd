import { DiscordAPIError, type RateLimitData, RateLimitError, RESTJSONErrorCodes } from 'discord.js';

/** What an error of the platform's client means for whoever wanted to send something. */
export type Fault =
  /** Nothing was sent: it may be tried again after so long. `everybody`: nothing at all may be sent until then. */
  | { readonly kind: 'limited'; readonly afterMilliseconds: number; readonly everybody: boolean }
  /** The channel, the server or the person cannot be reached, or the bot may not write there. Nothing was sent. */
  | { readonly kind: 'unreachable' }
  /** There is no such message any more. */
  | { readonly kind: 'gone' }
  /** The platform does not take what we sent: a defect of ours, and sending it again is no use. */
  | { readonly kind: 'refused' }
  /** The token is not valid (any more). */
  | { readonly kind: 'token' }
  /** The platform or the way to it is broken for now. It may have been sent all the same. */
  | { readonly kind: 'passing' };

/** Whether the same message may be taken without its files: they are too large, not allowed in the channel, or not understood. */
export const mayBeTheFiles = (error: unknown): boolean =>
  error instanceof DiscordAPIError && (faultOf(error).kind === 'refused' || error.code === RESTJSONErrorCodes.MissingPermissions);

/** Where the platform names a limit without an end. */
const SOME_TIME_MS = 1000;

/** 400s that are about the place rather than about what was sent. */
const PLACE = new Set<number | string>([
  RESTJSONErrorCodes.InvalidActionOnArchivedThread,
  RESTJSONErrorCodes.CannotExecuteActionOnThisChannelType,
  RESTJSONErrorCodes.CannotSendMessagesInNonTextChannel,
  RESTJSONErrorCodes.UnknownChannel,
  RESTJSONErrorCodes.UnknownGuild,
  RESTJSONErrorCodes.CannotSendMessagesToThisUserDueToHavingNoMutualGuilds,
]);
/** The guard at the door, and not the platform, turned us away; or a message was edited too often for now. */
const MOMENT = new Set<number | string>([
  RESTJSONErrorCodes.CloudflareIsBlockingYourRequest,
  RESTJSONErrorCodes.MaximumNumberOfEditsToMessagesOlderThanOneHourReached,
]);
/** Too early, too late, too much: said of the moment. */
const PASSING_STATUS = new Set([408, 409, 425, 429]);

export function faultOf(error: unknown): Fault {
  if (error instanceof RateLimitError) {
    const { retryAfter, timeToReset, global } = error;
    const afterMilliseconds = Math.max(retryAfter, Number.isFinite(timeToReset) ? timeToReset : 0);
    return { kind: 'limited', afterMilliseconds: afterMilliseconds > 0 ? afterMilliseconds : SOME_TIME_MS, everybody: global };
  }
  if (error instanceof DiscordAPIError) return { kind: kindOf(error) };
  // The client forgets a token that was refused, and then says this without asking.
  if (error instanceof Error && error.message.startsWith('Expected token to be set')) return { kind: 'token' };
  return { kind: 'passing' };
}

function kindOf({ status, code }: DiscordAPIError): 'unreachable' | 'gone' | 'refused' | 'token' | 'passing' {
  if (code === RESTJSONErrorCodes.UnknownMessage) return 'gone';
  if (status === 401) return 'token';
  if (MOMENT.has(code)) return 'passing';
  if (PLACE.has(code) || status === 403 || status === 404) return 'unreachable';
  return PASSING_STATUS.has(status) ? 'passing' : 'refused';
}

/** What is sent in turns, and therefore waits in the outbox. */
const IN_TURNS = new Set([
  'POST /channels/:id/messages',
  'GET /channels/:id/messages',
  'PATCH /channels/:id/messages/:id',
  'POST /users/@me/channels',
]);

/**
 * For the client's `rest.rejectOnRateLimit`: its own queue is first come, first served, so that a digest would go before a
 * pot life. What the bot sends by itself waits in the `Outbox` instead.
 */
export const rejectsOnRateLimit = ({ method, route }: Pick<RateLimitData, 'method' | 'route'>): boolean =>
  IN_TURNS.has(`${method.toUpperCase()} ${route}`);
