import type { Bench } from '../bench/bench.ts';
import type { House } from '../bench/house.ts';
import type { Studio } from '../bench/studio.ts';
import { declarations } from '../chat/declaration.ts';
import type { Registry } from '../chat/registry.ts';
import type { Recipe } from '../job/recipe.ts';
import type { Material } from '../trade/material.ts';

/** What a command works at: who asks, where, and everything that can be looked up or changed there. */
export interface Desk {
  readonly who: string;
  readonly channel: string;
  /** Milliseconds since the epoch. */
  readonly now: number;
  readonly studio: Studio;
  readonly materials: readonly Material[];
  readonly recipes: readonly Recipe[];
  readonly bench: Bench;
  readonly house: House;
  /** All commands, for those that explain the others. */
  readonly commands: Registry<Desk>;
}

export const { command, group, part } = declarations<Desk>();
