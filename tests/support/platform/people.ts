import type { APIApplicationCommand, APIInteraction, APIModalInteractionResponseCallbackData } from 'discord-api-types/v10';
import { Exchange } from './exchange.ts';
import { declaredOptions, fillOptions, type OptionValues, type Uploads } from './options.ts';
import { commandData, frame, interaction, modalData, pressable } from './play.ts';
import type { Posted } from './posted.ts';
import type { Scene } from './routes.ts';
import { earlier } from './snowflakes.ts';
import type { Person, Room } from './world.ts';

interface Ask {
  /** A channel, a thread or a direct conversation. */
  readonly channel: Room;
  readonly user: Person;
  /** The same event is sent a second time, as a duplicated session would. */
  readonly deliverTwice?: boolean;
  /** It was asked so long ago, and comes only now. */
  readonly agoMilliseconds?: number;
  /** Also what the platform's own client would not let pass. */
  readonly unchecked?: boolean;
}

export interface CommandAsk extends Ask {
  /** `mix`, or with its subcommand `job start`. */
  readonly name: string;
  readonly subcommand?: string;
  readonly options?: OptionValues;
}

export interface AutocompleteAsk extends CommandAsk {
  readonly focused: { readonly name: string; readonly value: string };
  /** How long to wait, in milliseconds. */
  readonly ms?: number;
}

export interface PressAsk extends Ask {
  readonly message: Posted;
  /** Either this or `customId`. With `unchecked` a custom id need not stand on the message. */
  readonly label?: string;
  readonly customId?: string;
  /** For a selection. */
  readonly values?: readonly string[];
}

export interface SubmitAsk extends Ask {
  /** The exchange that opened it, or the modal itself. */
  readonly modal: Exchange | APIModalInteractionResponseCallbackData;
  /** By label or custom id. What is left out keeps its prefilled value. */
  readonly values: Readonly<Record<string, string>>;
}

/** What people do, made into interactions and sent to the bot. */
export class People {
  readonly #scene: Scene;
  readonly #uploads: Uploads;

  constructor(scene: Scene, uploads: Uploads) {
    this.#scene = scene;
    this.#uploads = uploads;
  }

  /** @throws when no such command is registered, or the client of a person would not let the options pass */
  command(ask: CommandAsk): Exchange {
    const { command, subcommand } = this.#named(ask);
    const needed = command.default_member_permissions;
    if (needed !== null && !ask.unchecked && (ask.user.permissions & BigInt(needed)) !== BigInt(needed))
      throw new Error(`${ask.user.user.username} is not shown /${command.name}`);
    const declared = declaredOptions(command, subcommand);
    const store = this.#uploads.store.bind(this.#uploads);
    const { options, resolved } = fillOptions(declared, ask.options ?? {}, store, ask.unchecked === true);
    return this.#send(ask, 2, { data: commandData(command, subcommand, options, resolved) }, null);
  }

  complete(ask: AutocompleteAsk): Exchange {
    const { command, subcommand } = this.#named(ask);
    const declared = declaredOptions(command, subcommand);
    const { name, value } = ask.focused;
    const option = declared.find((one) => one.name === name);
    if (option === undefined || !('autocomplete' in option) || option.autocomplete !== true)
      throw new Error(`the option ${name} of /${command.name} is not completed`);
    const { [name]: _, ...others } = ask.options ?? {};
    const store = this.#uploads.store.bind(this.#uploads);
    const { options, resolved } = fillOptions(declared, others, store, true);
    // Whatever the type, what stands in the focused option is still text.
    const focused = { name, type: option.type, value, focused: true } as (typeof options)[number];
    return this.#send(ask, 4, { data: commandData(command, subcommand, [...options, focused], resolved) }, null);
  }

  press(ask: PressAsk): Exchange {
    const { message, label, customId, values } = ask;
    const by = { ...(label === undefined ? {} : { label }), ...(customId === undefined ? {} : { customId }) };
    if (message.deleted && !ask.unchecked) throw new Error('the message is gone, nothing can be pressed');
    const found = ask.unchecked && customId !== undefined ? { customId, type: 2 } : pressable(message.body.components, by);
    const data = { custom_id: found.customId, component_type: found.type, ...(values === undefined ? {} : { values }) };
    return this.#send(ask, 3, { data, message: message.message }, message);
  }

  submit(ask: SubmitAsk): Exchange {
    const opened = ask.modal instanceof Exchange ? ask.modal : null;
    const modal = ask.modal instanceof Exchange ? ask.modal.modal : ask.modal;
    const source = opened?.source ?? null;
    const data = modalData(modal, ask.values, ask.unchecked === true);
    return this.#send(ask, 5, { data, ...(source === null ? {} : { message: source.message }) }, source);
  }

  #named({ name, subcommand, channel }: CommandAsk): { command: APIApplicationCommand; subcommand: string | undefined } {
    const [first = '', second] = name.split(' ');
    const { commands } = this.#scene.world;
    const known = [...(commands.get(channel.server?.id ?? '') ?? []), ...(commands.get('global') ?? [])];
    const command = known.find((one) => one.name === first);
    if (command === undefined) throw new Error(`/${first} is not registered, only: ${known.map((one) => one.name).join(', ')}`);
    return { command, subcommand: subcommand ?? second };
  }

  #send(ask: Ask, type: 2 | 3 | 4 | 5, more: Record<string, unknown>, source: Posted | null): Exchange {
    const { world, gateway, exchanges } = this.#scene;
    const made: APIInteraction = interaction(type, frame(world, ask.channel, ask.user), more);
    const payload = ask.agoMilliseconds === undefined ? made : { ...made, id: earlier(made.id, ask.agoMilliseconds) };
    const exchange = new Exchange(payload, ask.user, ask.channel, source);
    exchanges.set(payload.token, exchange);
    gateway.tell('INTERACTION_CREATE', payload, ask.channel.server);
    if (ask.deliverTwice) gateway.tell('INTERACTION_CREATE', payload, ask.channel.server);
    return exchange;
  }
}
