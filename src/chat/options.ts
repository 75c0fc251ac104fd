import { z } from 'zod';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { say } from '../words/text.ts';
import type { OptionMeta } from './declaration.ts';

/** The kinds of options that commands are made of. Append `.optional()` to let one be left out. */

/** Text as it was typed. */
export const text = (meta: OptionMeta) => z.string().meta({ ...meta });

/** Text that means something: `parse` gives the meaning, or says why there is none. */
export function typed<T>(parse: (text: string) => T | Refusal, meta: OptionMeta) {
  return z
    .string()
    .transform((value, context): T => {
      const meaning = parse(value);
      if (!isRefusal(meaning)) return meaning;
      // zod only carries issues; the refusal travels in one as a whole, so that its example and its ways survive.
      context.issues.push({ code: 'custom', message: meaning.code, input: value, params: { refusal: meaning } });
      return z.NEVER;
    })
    .meta({ ...meta });
}

export const choice = <const Values extends readonly [string, ...string[]]>(values: Values, meta: OptionMeta) =>
  z.enum(values).meta({ ...meta });

/**
 * One of `values`, which the surfaces offer, or a word of `also`, as people say it; `parse` gets whichever it was, written as
 * it stands here.
 */
export const saying = <T>(
  parse: (text: string) => T | Refusal,
  { values, also, ...meta }: OptionMeta & { values: readonly string[]; also: readonly string[] },
) => typed(parse, { ...meta, choices: values, also });

export const yesNo = (meta: OptionMeta) => z.boolean().meta({ ...meta });

/** A whole number between `least` and `most`. */
export function whole({ least, most, ...meta }: OptionMeta & { least?: number; most?: number }) {
  let number = z.int();
  if (least !== undefined) number = number.min(least);
  if (most !== undefined) number = number.max(most);
  return number.meta({ ...meta });
}

/** A person's id, or a role's as `&42`. In a line it may be written as a mention. Nobody is everybody. Refusal: `not-people`. */
export const someone = (meta: Omit<OptionMeta, 'person'>) =>
  typed(
    (value): string | Refusal => {
      const id = value
        .trim()
        .replace(/^<@!?(\w+|&\d+)>$/, '$1')
        .replace(/^@/, '');
      if (!/^(everyone|here)$/i.test(id)) return id;
      return new Refusal('not-people', say`Expected somebody’s name, got “${value}”: I ring nobody but whom you name.`);
    },
    { ...meta, person: true },
  );

/** A file: what the surface uses to find it again, such as a path in the local chat. */
export const file = (meta: Omit<OptionMeta, 'attachment'>) => z.string().meta({ ...meta, attachment: true });
