import { writeLine } from '../chat/line.ts';
import { rolesOf } from '../job/recipe.ts';
import type { Use } from '../trade/material.ts';
import { isRefusal, Refusal, type Way } from '../words/refusal.ts';
import type { Desk } from './desk.ts';

/** Options as they would be typed; those that were left out are undefined. */
export type Typed = Readonly<Record<string, string | undefined>>;

/** The same without those that were left out: what a button carries. */
export const givenOf = (options: Typed): Record<string, string> =>
  Object.fromEntries(Object.entries(options).flatMap(([name, value]) => (value === undefined ? [] : [[name, value]])));

export const line = (command: string, options: Typed): string => writeLine(command, givenOf(options));

/** What a typed option means, and how it was typed: a button must carry it on. */
export interface Kept<T> {
  readonly typed: string;
  readonly value: T;
}

export const kept =
  <T>(parse: (text: string) => T | Refusal) =>
  (typed: string): Kept<T> | Refusal => {
    const value = parse(typed);
    return isRefusal(value) ? value : { typed, value };
  };

/** `parse`, with examples that are whole lines: `lineOf` gets the value that would do, and what was typed. */
export const inLine =
  <T>(parse: (text: string) => T | Refusal, lineOf: (value: string, typed: string) => string) =>
  (typed: string): T | Refusal => {
    const value = parse(typed);
    return isRefusal(value) ? again(value, { example: lineOf(value.example ?? '', typed) }) : value;
  };

/**
 * Readers of typed options of `command` whose refusals show them in a whole line, beside `others`. `usual`: what stands in it
 * where the reader names nothing that would do here.
 */
export const optionsOf =
  (command: string, others: Typed) =>
  <T>(name: string, parse: (text: string) => T | Refusal, usual?: string) =>
    kept(
      inLine(parse, (example) => {
        const value = usual !== undefined && isRefusal(parse(example)) ? usual : example;
        return line(command, { ...others, [name]: value });
      }),
    );

/** The same refusal with another example, or other ways on. */
export const again = (refusal: Refusal, more: { example?: string; ways?: readonly Way[] }): Refusal =>
  new Refusal(refusal.code, refusal.message, {
    ...(refusal.example === undefined ? {} : { example: refusal.example }),
    ways: refusal.ways,
    ...more,
  });

/** A time that was typed as a bare number was meant in minutes. */
export const inMinutes = (typed: string, otherwise: string): string =>
  /^\s*\d{1,3}\s*$/.test(typed) && Number(typed) > 0 ? `${Number(typed)} min` : otherwise;

/** A line that starts a job with this studio's materials; `roles`: those that must be in it. */
export function startLine({ recipes, materials }: Pick<Desk, 'recipes' | 'materials'>, roles: Partial<Record<Use, string>> = {}) {
  const [recipe] = recipes;
  const needed = (recipe ? rolesOf(recipe) : []).filter((role) => role !== 'detail' && role !== 'casting');
  const ids = needed.map((role) => [role, materials.find(({ use }) => use.includes(role))?.id] as const);
  return line('job start', { name: 'Lion head', ...Object.fromEntries(ids), ...roles });
}

/** A line that mixes something that this studio has. */
export const mixLine = ({ materials }: Pick<Desk, 'materials'>, amount = '500 g'): string =>
  line('mix', { material: materials.find(({ use }) => use.includes('skin'))?.id ?? materials[0]?.id, amount });
