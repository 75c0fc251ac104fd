import { ComponentType, TextInputStyle } from 'discord.js';
import type {
  APIComponentInLabel,
  APIModalInteractionResponseCallbackComponent,
  APIModalInteractionResponseCallbackData,
} from 'discord-api-types/v10';
import type { Field, Form } from '../../../chat/declaration.ts';
import { cut, onOneLine } from './escape.ts';
import { MOST_ID, packed, unpacked } from './press.ts';

const MOST_FIELDS = 5;
const MOST_LABEL = 45;
const MOST_PLACEHOLDER = 100;
const MOST_SHORT = 200;
const MOST_LONG = 1000;

/**
 * The form as the platform shows it, under the id of the button that opens it, which says what it is for. Each field carries
 * in its own id what it fills, so that nothing has to be remembered until the form comes back. Throws a RangeError for an
 * option and a suffix that are too long for that.
 */
export function modalOf(form: Form, id: string): APIModalInteractionResponseCallbackData {
  return {
    custom_id: id,
    title: worded(form.title),
    components: form.fields.slice(0, MOST_FIELDS).map(labelled),
  };
}

function labelled(field: Field, index: number): APIModalInteractionResponseCallbackComponent {
  const placeholder = cut(onOneLine(field.example), MOST_PLACEHOLDER);
  const component: APIComponentInLabel = {
    type: ComponentType.TextInput,
    custom_id: fieldId(field, index),
    style: field.long ? TextInputStyle.Paragraph : TextInputStyle.Short,
    max_length: field.long ? MOST_LONG : MOST_SHORT,
    required: true,
    ...(placeholder === '' ? {} : { placeholder }),
  };
  return { type: ComponentType.Label, label: worded(field.label, field.option), component };
}

/** The first of the words that can be seen, short enough for a label. */
const worded = (...words: string[]): string => cut(words.map(onOneLine).find((each) => each.trim() !== '') ?? '…', MOST_LABEL);

function fieldId({ option, suffix }: Field, index: number): string {
  const id = `${index};${packed(option)};${packed(suffix ?? '')};`;
  if (id.length > MOST_ID) throw new RangeError(`the field for ${option} has a suffix that is too long for a form`);
  return id;
}

/** What a form that was sent off says: the options, those of several fields joined by ", ". What was left empty is left out. */
export function valuesOf(fields: readonly { customId: string; value: string }[]): Record<string, string> {
  const filled = fields
    .flatMap(({ customId, value }) => {
      const [, index, option, suffix] = /^(\d+);([^;]*);([^;]*);$/.exec(customId)?.map(unpacked) ?? [];
      if (index == null || option == null || suffix == null || value.trim() === '') return [];
      return [{ index: Number(index), option, said: [value.trim(), suffix.trim()].filter((part) => part !== '').join(' ') }];
    })
    .sort((a, b) => a.index - b.index);
  const values = new Map<string, string>();
  for (const { option, said } of filled) {
    const before = values.get(option);
    values.set(option, before === undefined ? said : `${before}, ${said}`);
  }
  return Object.fromEntries(values);
}
