import type { z } from 'zod';

export type OptionKind = 'string' | 'choice' | 'boolean' | 'integer' | 'number' | 'person' | 'attachment';

/** What the parser, help, completion and the registration need to know of an option, derived from its zod schema. */
export interface Option {
  readonly name: string;
  readonly about: string;
  readonly kind: OptionKind;
  readonly required: boolean;
  readonly choices: readonly string[];
  /** Words that are taken beside the choices, and offered nowhere. */
  readonly also: readonly string[];
  readonly complete: string | undefined;
  readonly free: boolean;
  /** What stands in an example where no value was typed, or no number: a line that has nothing else to say needs one. */
  readonly emptied?: string | undefined;
  /** The example of its refusal has all else that was typed. */
  readonly withRest?: boolean;
  /** The smallest and the largest number, or the shortest and the longest text. */
  readonly least: number | undefined;
  readonly most: number | undefined;
}

/** The option for a value that stands before all others: the first required one, or else the first declared. */
export function headOption(options: readonly Option[]): Option | undefined {
  return options.find(({ required }) => required) ?? options[0];
}

interface Facts {
  kind: OptionKind;
  choices?: readonly string[];
  least?: number | undefined;
  most?: number | undefined;
}

/** Throws on a schema that no chat option can stand for: at start-up, where it is a mistake in a declaration. */
export function optionFrom(name: string, schema: z.ZodType): Option {
  const meta: Record<string, unknown> = {};
  let required = true;
  let inner = schema;
  for (;;) {
    // What is said outside wins over what is said inside, so `text(meta).optional().meta(other)` reads naturally.
    for (const [key, value] of Object.entries(inner.meta() ?? {})) meta[key] ??= value;
    const def = inner.def as unknown as { type: string; innerType?: z.ZodType; in?: z.ZodType };
    if (['optional', 'default', 'prefault', 'nullable'].includes(def.type) && def.innerType) {
      // A chat option is given or left out; null cannot be typed, so only the other wrappers let it be left out.
      if (def.type !== 'nullable') required = false;
      inner = def.innerType;
    } else if (def.type === 'pipe' && def.in) {
      inner = def.in;
    } else break;
  }
  const facts = factsOf(inner);
  const picked = textsIn(meta.choices);
  const texts = picked.length > 0 ? 'choice' : meta.person ? 'person' : meta.attachment ? 'attachment' : 'string';
  const kind = facts.kind === 'string' ? texts : facts.kind;
  return {
    name,
    about: typeof meta.about === 'string' ? meta.about : '',
    kind,
    required,
    choices: facts.choices ?? picked,
    also: textsIn(meta.also),
    complete: typeof meta.complete === 'string' ? meta.complete : undefined,
    free: meta.free === true,
    ...(typeof meta.emptied === 'string' && { emptied: meta.emptied }),
    ...(meta.withRest === true && { withRest: true }),
    least: facts.least,
    most: facts.most,
  };
}

const textsIn = (value: unknown): string[] => (Array.isArray(value) ? value.filter((each) => typeof each === 'string') : []);

function factsOf(schema: z.ZodType): Facts {
  switch (schema.def.type) {
    case 'string': {
      const { minLength, maxLength } = schema as z.ZodString;
      return { kind: 'string', least: minLength ?? undefined, most: maxLength ?? undefined };
    }
    case 'enum': {
      const choices = (schema as z.ZodEnum).options;
      if (choices.every((value) => typeof value === 'string')) return { kind: 'choice', choices };
      throw new Error('only choices between texts can be typed');
    }
    case 'boolean':
      return { kind: 'boolean' };
    case 'number': {
      const { minValue, maxValue, isInt } = schema as z.ZodNumber;
      return { kind: isInt ? 'integer' : 'number', least: within(minValue), most: within(maxValue) };
    }
    default:
      throw new Error(`a value of the type ${schema.def.type} cannot be typed in a chat`);
  }
}

/** zod bounds every integer by the safe ones, which is no limit that anybody chose. */
function within(bound: number | null): number | undefined {
  return bound !== null && Math.abs(bound) < Number.MAX_SAFE_INTEGER ? bound : undefined;
}
