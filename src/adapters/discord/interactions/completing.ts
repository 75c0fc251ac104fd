import type { ApplicationCommandOptionChoiceData, AutocompleteInteraction } from 'discord.js';
import { type Offer, offersFor, type Suppliers } from '../../../chat/complete.ts';
import type { Option } from '../../../chat/option.ts';
import { suppliersFor } from '../../../desk/suppliers.ts';
import { cut, onOneLine } from '../rendering/escape.ts';
import { mentionOf } from '../rendering/markup.ts';
import { left, within } from './answering.ts';
import { pathOf } from './asked.ts';
import { askerOf, deskFor, type Tools } from './working.ts';

/** Nothing offered late is of any use: the platform takes it for three seconds. */
const PATIENCE_MS = 2000;
const MOST_CHOICES = 25;
const MOST_CHOICE = 100;

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
  const suppliers = await suppliersFor(await deskFor(asker, tools), people.known(asker.server));
  const called = (id: string) => people.name(asker.server, id);
  const offers = option.complete === 'person' ? peopleFor(option, value, suppliers, called) : offersFor(option, value, suppliers);
  return offers.flatMap((offer) => choiceOf(offer, option)).slice(0, MOST_CHOICES);
}

/** Of several people only the last is still being typed. */
function peopleFor(option: Option, typed: string, suppliers: Suppliers, called: (id: string) => string | undefined): Offer[] {
  const many = option.kind === 'string';
  const [, before = '', rest = typed] = many ? (/^(.*[,;]\s*)?([^,;]*)$/s.exec(typed) ?? []) : [];
  const offers = (suppliers['person']?.() ?? []).flatMap(({ value: id }): Offer[] => {
    const mention = mentionOf(id);
    // Whom the platform does not know, it could not call either.
    if (mention === undefined || before.includes(mention)) return [];
    return [{ value: many ? mention : id, title: called(id) ?? id }];
  });
  const shown = before.replace(/<@!?(\d+)>/g, (mention, id: string) => called(id) ?? mention);
  const found = offersFor(option, rest.replace(/^@/, ''), { person: () => offers });
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
