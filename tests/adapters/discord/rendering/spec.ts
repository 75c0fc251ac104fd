import {
  MessageCreateRequestSchema,
  MessageEditRequestPartialSchema,
  ModalInteractionCallbackRequestSchema,
} from 'discord-api-spec/zod';
import { z } from 'zod';

const SCHEMAS = {
  post: MessageCreateRequestSchema,
  edit: MessageEditRequestPartialSchema,
  callback: ModalInteractionCallbackRequestSchema,
};

/** What the machine-readable description of the platform has against a value as it goes over the wire; undefined if nothing. */
export const fault = (what: keyof typeof SCHEMAS, value: unknown): string | undefined =>
  z.safeParse(SCHEMAS[what], JSON.parse(JSON.stringify(value))).error?.message;
