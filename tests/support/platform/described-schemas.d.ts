/** The package ships its schemas without types. Only those that are used stand here. */
declare module 'discord-api-spec/zod' {
  import type { core } from 'zod';

  export const MessageCreateRequestSchema: core.$ZodType;
  export const MessageEditRequestPartialSchema: core.$ZodType;
  export const IncomingWebhookRequestPartialSchema: core.$ZodType;
  export const IncomingWebhookUpdateRequestPartialSchema: core.$ZodType;
  export const ApplicationCommandAutocompleteCallbackRequestSchema: core.$ZodType;
  export const CreateMessageInteractionCallbackRequestSchema: core.$ZodType;
  export const UpdateMessageInteractionCallbackRequestSchema: core.$ZodType;
  export const ModalInteractionCallbackRequestSchema: core.$ZodType;
  export const ApplicationCommandUpdateRequestSchema: core.$ZodType;
  export const CreatePrivateChannelRequestSchema: core.$ZodType;
}
