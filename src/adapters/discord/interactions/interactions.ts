import type {
  ButtonInteraction,
  ChatInputCommandInteraction,
  Interaction,
  ModalSubmitInteraction,
  RepliableInteraction,
} from 'discord.js';
import type { Way } from '../../../words/refusal.ts';
import { isRefusal, type Refusal } from '../../../words/refusal.ts';
import { modalOf, valuesOf } from '../rendering/form.ts';
import { benchTag, pressOf } from '../rendering/press.ts';
import { answer, answerIfTaken, isTooLate, left, mayBeOver, startOf, within } from './answering.ts';
import { askedBySlash, carriesFile } from './asked.ts';
import { complete } from './completing.ts';
import { learnFrom } from './learning.ts';
import { Once } from './once.ts';
import { OneByOne } from './one-by-one.ts';
import { Places } from './place.ts';
import { broken, nothingToAsk, notKept, otherChannel, otherVersion, pressAgain } from './refusals.ts';
import { dropStaleButtons } from './stale.ts';
import { tooLate } from './too-late.ts';
import { type Asker, askerOf, type Done, deskFor, type Request, type Tools, worked } from './working.ts';

interface InteractionsParts extends Omit<Tools, 'places' | 'reading'> {
  /** How long a command may take before the platform is told that it takes longer. 1500 unless told. */
  readonly awaitMilliseconds?: number;
}

type Meaning = Pick<Way, 'command' | 'options' | 'asks'>;

/** What pressing a button means, for whoever pressed it. */
interface Meant {
  readonly asker: Asker | null;
  readonly asked: Meaning | Refusal;
}

const AWAIT_MS = 1500;
/** A form cannot be announced and brought later, so it gets nearly all of the three seconds that the platform waits. */
const FORM_MS = 2200;

/** Everything that people do on the platform: commands, buttons, forms, and typing that wants to be completed. */
export class Interactions {
  readonly #tools: Tools;
  readonly #awaitMilliseconds: number;
  readonly #once = new Once();
  readonly #underWay = new Set<Promise<void>>();

  constructor({ awaitMilliseconds = AWAIT_MS, ...parts }: InteractionsParts) {
    this.#tools = { ...parts, places: new Places(), reading: new OneByOne() };
    this.#awaitMilliseconds = awaitMilliseconds;
  }

  /** Works it off and answers, once however often it is delivered. Never rejects; the observer hears of what went wrong. */
  handle(interaction: Interaction): Promise<void> {
    const work = this.#handle(interaction).finally(() => this.#underWay.delete(work));
    this.#underWay.add(work);
    return work;
  }

  /** What the platform tells of the channel of an interaction, before `handle` gets it. */
  learn(channel: unknown): void {
    this.#tools.places.learn(channel);
  }

  /** Resolves when everything that was asked so far is answered. */
  async idle(): Promise<void> {
    await Promise.allSettled(this.#underWay);
  }

  async #handle(interaction: Interaction): Promise<void> {
    const { observer, people } = this.#tools;
    const start = startOf(interaction);
    try {
      if (!this.#once.first(interaction.id, performance.now())) return observer.happened('delivered-twice');
      learnFrom(interaction, people);
      if (interaction.isAutocomplete()) return await complete(interaction, start, this.#tools);
      if (interaction.isChatInputCommand()) return await this.#command(interaction, start);
      if (interaction.isButton()) return await this.#press(interaction, start);
      if (interaction.isModalSubmit()) return await this.#submit(interaction, start);
      observer.happened('unknown-interaction');
      const asking = askerOf(interaction, this.#tools).then((asker) => ({ asker, asked: otherVersion() }));
      await this.#answer(interaction, asking, start);
    } catch (error) {
      observer.trouble('interaction', error);
    }
  }

  async #command(interaction: ChatInputCommandInteraction, start: number): Promise<void> {
    const asked = askedBySlash(interaction);
    const request = askerOf(interaction, this.#tools).then((asker) => ({ asker, asked }));
    await this.#answer(interaction, request, start, this.#withFile(asked));
  }

  async #press(interaction: ButtonInteraction, start: number): Promise<void> {
    const meant = this.#meant(interaction);
    const soon = await within(meant, left(start, this.#awaitMilliseconds));
    if (soon?.asker && !isRefusal(soon.asked) && soon.asked.asks) return this.#open(interaction, soon.asker, soon.asked, start);
    const request = meant.then(({ asker, asked }) => ({ asker, asked: !isRefusal(asked) && asked.asks ? pressAgain() : asked }));
    const done = await this.#answer(interaction, request, start, soon !== undefined && this.#withFile(soon.asked));
    const { asker } = await meant;
    if (asker && done) await dropStaleButtons(interaction, { answer: done.answer, ...asker }, this.#tools);
  }

  /** Must be the first that the platform hears: a form cannot come after "this takes longer". */
  async #open(interaction: ButtonInteraction, asker: Asker, way: Meaning, start: number): Promise<void> {
    const { office, observer } = this.#tools;
    const asking = async () => {
      const form = office.commands.declarations.get(way.command)?.form?.(way.options, await deskFor(asker, this.#tools));
      if (form === undefined) return nothingToAsk(way.command);
      return isRefusal(form) ? form : modalOf(form, interaction.customId);
    };
    const caught = asking().catch((error: unknown) => {
      observer.trouble(way.command, error);
      return broken();
    });
    const modal = (await within(caught, left(start, FORM_MS))) ?? pressAgain();
    if (isRefusal(modal)) return void (await this.#answer(interaction, Promise.resolve({ asker, asked: modal }), start));
    try {
      await interaction.showModal(modal);
    } catch (error) {
      if (isTooLate(error)) return observer.happened('form-not-opened');
      throw error;
    }
    const milliseconds = Date.now() - start;
    observer.answered({ command: way.command, how: 'answered', milliseconds, server: asker.server });
  }

  async #submit(interaction: ModalSubmitInteraction, start: number): Promise<void> {
    const fields = [...interaction.fields.fields.values()].flatMap((field) =>
      'value' in field && typeof field.value === 'string' ? [{ customId: field.customId, value: field.value }] : [],
    );
    const meant = this.#meant(interaction);
    const soon = await within(meant, left(start, this.#awaitMilliseconds));
    const request = meant.then(({ asker, asked }) => ({
      asker,
      asked: isRefusal(asked) ? asked : { command: asked.command, options: { ...asked.options, ...valuesOf(fields) } },
      fromForm: true,
    }));
    await this.#answer(interaction, request, start, soon !== undefined && this.#withFile(soon.asked));
  }

  /** What the id of a button, or of the form that it opened, stands for. Never rejects. */
  async #meant(interaction: ButtonInteraction | ModalSubmitInteraction): Promise<Meant> {
    const { records, observer } = this.#tools;
    const asker = await askerOf(interaction, this.#tools);
    const press = pressOf(interaction.customId);
    if (asker === null || press === null || press === 'unknown-version') return { asker, asked: otherVersion() };
    if (press.bench !== benchTag(asker.bench)) return { asker, asked: otherChannel() };
    if ('command' in press)
      return { asker, asked: { command: press.command, options: press.options, asks: press.form === true } };
    try {
      return { asker, asked: (await records.kept(asker.server, press.kept)) ?? notKept() };
    } catch (error) {
      observer.trouble('button', error);
      return { asker, asked: broken() };
    }
  }

  #withFile(asked: Meaning | Refusal): boolean {
    const declared = isRefusal(asked) ? undefined : this.#tools.office.commands.declarations.get(asked.command);
    return declared !== undefined && !isRefusal(asked) && carriesFile(asked, declared.options);
  }

  /**
   * Works off, answers, and only then sees to what has become due. Null where it came too late to be done. `slow`: it will take
   * longer than the platform waits, so that is said first.
   */
  async #answer(interaction: RepliableInteraction, request: Promise<Request>, start: number, slow = false): Promise<Done | null> {
    const { observer } = this.#tools;
    const parts = { observer, awaitMilliseconds: this.#awaitMilliseconds, start };
    const work = () => request.then((each) => worked(each, this.#tools));
    if (slow || (mayBeOver(interaction) && (await request).asker !== null)) {
      const late = async () => {
        const { asker } = await request;
        return asker && tooLate(asker, interaction.createdTimestamp, this.#tools);
      };
      const done = await answerIfTaken(interaction, work, late, parts);
      return done && this.#over(done, interaction, start);
    }
    const working = work();
    await answer(interaction, working, parts);
    return this.#over(await working, interaction, start);
  }

  #over(done: Done, interaction: RepliableInteraction, start: number): Done {
    const { observer } = this.#tools;
    const { command, how } = done;
    observer.answered({ command, how, milliseconds: Date.now() - start, server: interaction.guildId ?? '' });
    // Whoever asked has their answer; what is rung now comes in its own time.
    done.bench?.wake().catch((error: unknown) => observer.trouble('wake', error));
    return done;
  }
}
