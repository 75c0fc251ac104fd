import * as described from 'discord-api-spec/zod';
import { type core, safeParse } from 'zod/mini';
import type { Report } from './checks.ts';
import { isRecord } from './pieces.ts';

/** Which schema of the platform's machine-readable description a body must fit. */
const SCHEMAS = {
  messageCreate: described.MessageCreateRequestSchema,
  messageEdit: described.MessageEditRequestPartialSchema,
  webhookExecute: described.IncomingWebhookRequestPartialSchema,
  webhookEdit: described.IncomingWebhookUpdateRequestPartialSchema,
  reply: described.CreateMessageInteractionCallbackRequestSchema,
  update: described.UpdateMessageInteractionCallbackRequestSchema,
  choices: described.ApplicationCommandAutocompleteCallbackRequestSchema,
  modal: described.ModalInteractionCallbackRequestSchema,
  command: described.ApplicationCommandUpdateRequestSchema,
  directChannel: described.CreatePrivateChannelRequestSchema,
} satisfies Record<string, core.$ZodType>;

/** What the client library puts into every message, wherever it goes; as `false` it means nothing. */
const CLIENT_ADDS = new Set(['enforce_nonce', 'tts']);

export type DescribedBody = keyof typeof SCHEMAS;

/** Reports where a body departs from the description, and every key in it that the description does not know. */
export function checkDescribed(kind: DescribedBody, body: unknown, report: Report): void {
  const sent = kind === 'command' && isRecord(body) ? withNumber(body) : body;
  const read = safeParse(SCHEMAS[kind], sent);
  if (!read.success) {
    for (const { path, message } of read.error.issues) report(`described ${kind}, ${path.join('.') || 'whole'}: ${message}`);
    return;
  }
  // The schemas drop what they do not know. What was dropped is what is missing afterwards.
  for (const path of dropped(sent, read.data, [])) report(`described ${kind}: nothing is known of ${path}`);
}

/** The description calls these permissions a number; the reference, and the platform, want a number in a string. */
function withNumber(command: Record<string, unknown>): Record<string, unknown> {
  const bits = command['default_member_permissions'];
  return typeof bits === 'string' ? { ...command, default_member_permissions: Number(bits) } : command;
}

function* dropped(sent: unknown, known: unknown, path: readonly string[]): Generator<string> {
  if (Array.isArray(sent) && Array.isArray(known)) {
    for (const [index, value] of sent.entries()) yield* dropped(value, known[index], [...path, String(index)]);
  } else if (isRecord(sent) && isRecord(known)) {
    for (const [key, value] of Object.entries(sent)) {
      if (key in known) yield* dropped(value, known[key], [...path, key]);
      else if (!(CLIENT_ADDS.has(key) && value === false)) yield [...path, key].join('.');
    }
  }
}
