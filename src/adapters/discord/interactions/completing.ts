import type { ApplicationCommandOptionChoiceData, AutocompleteInteraction } from 'discord.js';
import { listed, type Offer, offersFor, type Suppliers } from '../../../chat/complete.ts';
import type { Option } from '../../../chat/option.ts';
import { suppliersFor } from '../../../desk/suppliers.ts';
import { cut, onOneLine } from '../rendering/escape.ts';
import { mentionOf } from '../rendering/markup.ts';
import { left, within } from './answering.ts';
import { optionsOf, pathOf } from './asked.ts';
import { askerOf, deskFor, type Tools } from './working.ts';

/** Nothing offered late is of any use: the platform takes it for three seconds. */
const PATIENCE_MS = 2000;
const MOST_CHOICES = 25;
const MOST_CHOICE = 100;
/** Each that is not known costs a question to the platform. */
const MOST_NAMES = 5;

/** Offers what could stand for the option that is being typed; nothing where that cannot be said in time. Never rejects. */
export async function complete(interaction: AutocompleteInteraction, start: number, tools: Tools): Promise<void> {
  const { observer } = tools;
  const offered = choicesFor(interaction, tools).catch((error: unknown) => {
    observer.trouble('completion', error);
    return [];
  });
  const choices = (await within(offered, left(start, PATIENCE_MS))) ?? [];
  // Whoever types on has long been asking anew, so an answer that is not taken any more is nobody's trouble.
  await interaction.respond(choices).catch(() => observer.happened('completion-not-taken'));
}

async function choicesFor(interaction: AutocompleteInteraction, tools: Tools): Promise<ApplicationCommandOptionChoiceData[]> {
  const { office, people } = tools;
  const { name, value } = interaction.options.getFocused(true);
  const option = office.commands.declarations.get(pathOf(interaction))?.options.find((each) => each.name === name);
  const asker = await askerOf(interaction, tools);
  if (!option || asker === null) return [];
  const { [name]: _, ...others } = optionsOf(interaction);
  const { server } = asker;
  const called = (id: string) => people.name(server, id);
  const suppliers = await suppliersFor(await deskFor(asker, tools), people.known(server), called);
  const find = (typed: string) => people.find(server, typed);
  const offers =
    option.complete === 'person'
      ? await peopleFor(option, value, suppliers, { called, find })
      : offersFor(option, value, others, suppliers);
  return offers.flatMap((offer) => choiceOf(offer, option)).slice(0, MOST_CHOICES);
}

interface Names {
  readonly called: (id: string) => string | undefined;
  readonly find: (typed: string) => Promise<string | null>;
}

/** Whoever stands in the list already, by mention or by name, is not offered again. */
async function peopleFor(option: Option, typed: string, suppliers: Suppliers, { called, find }: Names): Promise<Offer[]> {
  const { before, named, last } = listed(option, typed);
  const byName = named.filter((name) => !name.startsWith('<')).slice(-MOST_NAMES);
  const taken = new Set(await Promise.all(byName.map(find)));
  const offers = (suppliers['person']?.({ name: option.name, others: {}, typed: last }) ?? []).flatMap(
    ({ value: id }): Offer[] => {
      const mention = mentionOf(id);
      // Whom the platform does not know, it could not call either.
      if (mention === undefined || before.includes(mention) || taken.has(id)) return [];
      return [{ value: option.kind === 'string' ? mention : id, title: called(id) ?? id }];
    },
  );
  const shown = before.replace(/<@!?(\d+)>/g, (mention, id: string) => called(id) ?? mention);
  const found = offersFor(option, last.replace(/^@/, ''), {}, { person: () => offers });
  return found.map(({ value, title }) => ({ value: `${before}${value}`, title: `${shown}${title}` }));
}

/** Nothing for a value that the platform would not take. */
function choiceOf({ value, title }: Offer, { kind, complete: what }: Option): ApplicationCommandOptionChoiceData[] {
  const shown = cut(onOneLine(what === 'person' || title === value ? title : `${title} — ${value}`).trim() || value, MOST_CHOICE);
  if (kind === 'integer' || kind === 'number') {
    const number = Number(value);
    return Number.isFinite(number) ? [{ name: shown, value: number }] : [];
  }
  return value === '' || value.length > MOST_CHOICE ? [] : [{ name: shown, value }];
}
