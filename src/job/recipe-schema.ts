import { z } from 'zod';
import { SHELL_KINDS, USES } from '../trade/material.ts';
import { type Recipe, STEP_KINDS } from './recipe.ts';

/** Recipes as they are kept in events: for ever, so a new field needs a default. */
const step = z.object({
  id: z.string(),
  title: z.string(),
  kind: z.enum(STEP_KINDS),
  handsMinutes: z.number(),
  role: z.enum(USES).nullable(),
  layer: z
    .union([
      z.object({ millimetres: z.number() }),
      z.object({ timesUsualCoat: z.number() }),
      z.object({ blockWallMillimetres: z.number() }),
    ])
    .nullable(),
  wait: z.discriminatedUnion('kind', [
    z.object({ kind: z.literal('none') }),
    z.object({ kind: z.literal('recoat') }),
    z.object({ kind: z.literal('cure') }),
    z.object({ kind: z.literal('fixed'), fromMinutes: z.number(), untilMinutes: z.number().nullable() }),
  ]),
  advice: z.string().nullable(),
  check: z.string().nullable(),
});

export const recipeSchema: z.ZodType<Recipe> = z.object({
  id: z.string(),
  name: z.string(),
  summary: z.string(),
  version: z.number(),
  shell: z.enum(SHELL_KINDS).nullable().default(null),
  steps: z.array(step),
});
