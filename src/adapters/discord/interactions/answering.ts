import { setTimeout as sleep } from 'node:timers/promises';
import { DiscordAPIError, MessageFlags, RESTJSONErrorCodes, type RepliableInteraction } from 'discord.js';
import type { Observer } from '../observer.ts';
import { type PlatformMessage, replyOptions, withoutFiles } from '../rendering/message.ts';
import { faultOf, mayBeTheFiles } from '../sending/faults.ts';
import { post } from '../sending/sender.ts';

/** What came of the work. */
export interface Worked {
  readonly message: PlatformMessage;
  /** The same for the channel at large, naming whoever asked; null where it is for nobody else's eyes. */
  readonly aloud: (() => Promise<PlatformMessage>) | null;
  /** What is said where the platform will not take the message. */
  readonly instead: () => PlatformMessage;
}

interface AnsweringParts {
  readonly observer: Pick<Observer, 'happened' | 'trouble'>;
  /** How long the work may take before the platform is told that it takes longer, and from when on that counts. */
  readonly awaitMilliseconds: number;
  readonly start: number;
}

/** The platform waits this long for the first sign. */
const PATIENCE_MS = 3000;
const DOUBTFUL_MS = 2500;

/** What it says of an interaction that it has given up, or whose token is over. */
const OVER: readonly unknown[] = [
  RESTJSONErrorCodes.UnknownInteraction,
  RESTJSONErrorCodes.InvalidWebhookToken,
  RESTJSONErrorCodes.UnknownWebhook,
  RESTJSONErrorCodes.UnknownMessage,
];

/** The client does not wait for its turn in a channel by itself, since pings are sent in an order of their own. */
const MOST_TRIES = 5;

const codeOf = (error: unknown): unknown => (error instanceof DiscordAPIError ? error.code : undefined);

const isOver = (error: unknown): boolean => OVER.includes(codeOf(error));

/** Whether the platform will hear no first answer any more: it is too late, or there was one. */
export const isTooLate = (error: unknown): boolean =>
  isOver(error) || codeOf(error) === RESTJSONErrorCodes.InteractionHasAlreadyBeenAcknowledged;

/** The work's result if it is there within so many milliseconds; what it does goes on in any case. */
export async function within<T>(work: Promise<T>, milliseconds: number): Promise<T | undefined> {
  let timer: NodeJS.Timeout | undefined;
  const over = new Promise<undefined>((resolve) => {
    timer = setTimeout(() => resolve(undefined), milliseconds);
  });
  try {
    return await Promise.race([work, over]);
  } finally {
    clearTimeout(timer);
  }
}

/**
 * From when the platform's patience counts, in milliseconds since the epoch: from when the interaction was made. Where that
 * lies in the future or too far back, the two clocks do not agree, and it counts from now.
 */
export function startOf({ createdTimestamp }: { createdTimestamp: number }, now = Date.now()): number {
  const age = now - createdTimestamp;
  return age >= 0 && age < PATIENCE_MS ? createdTimestamp : now;
}

/** How much is left of so many milliseconds that began at `start`. */
export const left = (start: number, milliseconds: number): number => Math.max(0, start + milliseconds - Date.now());

/** Brings the work's result to whoever asked, in time for the platform. The work must not reject; this never does. */
export async function answer(interaction: RepliableInteraction, work: Promise<Worked>, parts: AnsweringParts): Promise<void> {
  try {
    const early = await within(work, left(parts.start, parts.awaitMilliseconds));
    if (early) return await reply(interaction, early, parts);
    const how = await defer(interaction, parts);
    await followed(interaction, await work, how, parts);
  } catch (error) {
    parts.observer.trouble('answering', error);
  }
}

const AGAIN_MS = 150;

/** Once more where the line broke: it may have been an old one that the other side had closed. */
async function twice<T>(request: () => Promise<T>): Promise<T> {
  try {
    return await request();
  } catch (error) {
    if (faultOf(error).kind !== 'passing') throw error;
    await sleep(AGAIN_MS);
    return request();
  }
}

/**
 * Whether it comes so late that the platform may have told whoever asked that nobody answers, by this machine's clock. They
 * will ask again, so only what the platform still takes an answer to may be done.
 */
export const mayBeOver = ({ createdTimestamp }: { createdTimestamp: number }, now = Date.now()): boolean =>
  now - createdTimestamp > DOUBTFUL_MS;

/**
 * Tells the platform that the answer comes later, and hears whether it still takes one; only then the work is done, and
 * answered. Null: it was not done.
 */
export async function answerIfTaken<W extends Worked>(
  interaction: RepliableInteraction,
  work: () => Promise<W>,
  tooLate: () => Promise<PlatformMessage | null>,
  parts: AnsweringParts,
): Promise<W | null> {
  try {
    const deferred = await defer(interaction, parts);
    const how = deferred === 'unsure' ? await seen(interaction) : deferred;
    if (how === 'over') {
      parts.observer.happened('heard-too-late');
      const message = await tooLate();
      if (message !== null) await inTheChannel(interaction, message, parts);
    }
    if (how !== 'here') return null;
    const worked = await work();
    await followed(interaction, worked, how, parts);
    return worked;
  } catch (error) {
    parts.observer.trouble('answering', error);
    return null;
  }
}

/** Said once more without its files, where it may be those that the platform does not take; undefined where not. */
function unfiled(message: PlatformMessage, error: unknown, { observer }: Pick<AnsweringParts, 'observer'>) {
  if (message.files.length === 0 || !mayBeTheFiles(error)) return undefined;
  observer.happened('files-not-taken', { code: String(codeOf(error)) });
  return withoutFiles(message, 'named');
}

async function reply(interaction: RepliableInteraction, worked: Worked, parts: AnsweringParts): Promise<void> {
  const { observer } = parts;
  try {
    await twice(() => interaction.reply(replyOptions(worked.message)));
  } catch (error) {
    const code = codeOf(error);
    // Another process was faster, or our own first try arrived although it seemed not to.
    if (code === RESTJSONErrorCodes.InteractionHasAlreadyBeenAcknowledged) return observer.happened('answered-already');
    const message = unfiled(worked.message, error, parts);
    if (message) return reply(interaction, { ...worked, message }, parts);
    if (!isOver(error)) observer.trouble('answering', error);
    if (faultOf(error).kind === 'passing' && (await seen(interaction)) !== 'over') return;
    if (isOver(error) || faultOf(error).kind === 'passing') return sayAloud(interaction, worked, parts);
    if (code === RESTJSONErrorCodes.InvalidFormBodyOrContentType) await interaction.reply(replyOptions(worked.instead()));
  }
}

/** Whether the answer is awaited here, elsewhere, or nowhere any more. */
type Deferred = 'here' | 'unsure' | 'over';

async function defer(interaction: RepliableInteraction, { observer }: AnsweringParts): Promise<Deferred> {
  try {
    await twice(() => interaction.deferReply());
    return 'here';
  } catch (error) {
    const code = codeOf(error);
    if (code === RESTJSONErrorCodes.InteractionHasAlreadyBeenAcknowledged) {
      observer.happened('answered-already');
      return 'unsure';
    }
    if (isOver(error)) return 'over';
    observer.trouble('answering', error);
    return faultOf(error).kind === 'passing' ? 'unsure' : 'over';
  }
}

/** What has become of a first answer whose own answer was lost: it thinks there, or it is said, or nothing has arrived. */
async function seen({ webhook }: RepliableInteraction): Promise<'here' | 'said' | 'over'> {
  try {
    const { flags } = await twice(() => webhook.fetchMessage('@original'));
    return flags.has(MessageFlags.Loading) ? 'here' : 'said';
  } catch {
    return 'over';
  }
}

async function followed(interaction: RepliableInteraction, worked: Worked, how: Deferred, parts: AnsweringParts): Promise<void> {
  const { message } = worked;
  if (how === 'over') return sayAloud(interaction, worked, parts);
  const { webhook } = interaction;
  try {
    if (how === 'unsure') {
      // Our own first try may have arrived although it seemed not to: then it still stands there thinking.
      const how = await seen(interaction);
      if (how === 'over') return sayAloud(interaction, worked, parts);
      if (how === 'said') return;
    }
    if (!message.ephemeral) return void (await twice(() => webhook.editMessage('@original', replyOptions(message))));
    // The first follow-up after a deferral takes its place, and with it who can see it: so the public one goes first.
    await twice(() => webhook.deleteMessage('@original')).catch((error: unknown) => {
      if (codeOf(error) !== RESTJSONErrorCodes.UnknownMessage) throw error;
    });
    await twice(() => webhook.send(replyOptions(message)));
  } catch (error) {
    const bare = unfiled(message, error, parts);
    if (bare) return followed(interaction, { ...worked, message: bare }, 'here', parts);
    if (!isOver(error)) parts.observer.trouble('answering', error);
    if (isOver(error) || faultOf(error).kind === 'passing') return sayAloud(interaction, worked, parts);
    if (codeOf(error) === RESTJSONErrorCodes.InvalidFormBodyOrContentType)
      await webhook.editMessage('@original', replyOptions({ ...worked.instead(), ephemeral: false }));
  }
}

/** What was done must be heard of, even where the platform takes no answer any more. */
async function sayAloud(interaction: RepliableInteraction, { aloud }: Worked, { observer }: AnsweringParts): Promise<void> {
  observer.happened('answer-too-late', { said: aloud !== null });
  if (aloud !== null) await inTheChannel(interaction, await aloud(), { observer });
}

async function inTheChannel(
  { id, channelId, client }: RepliableInteraction,
  message: PlatformMessage,
  parts: Pick<AnsweringParts, 'observer'>,
): Promise<void> {
  if (channelId === null) return;
  let said = message;
  for (let tries = 1; ; tries += 1) {
    try {
      return void (await post(client.rest, channelId, said, `answer/${id}`));
    } catch (error) {
      const bare = unfiled(said, error, parts);
      if (bare) {
        said = bare;
        continue;
      }
      const fault = faultOf(error);
      if (fault.kind !== 'limited' || tries >= MOST_TRIES) throw error;
      await sleep(fault.afterMilliseconds);
    }
  }
}
