import type { Bench } from '../bench/bench.ts';
import type { House } from '../bench/house.ts';
import type { Studio } from '../bench/studio.ts';
import { declarations } from '../chat/declaration.ts';
import type { Registry } from '../chat/registry.ts';
import type { Recipe } from '../job/recipe.ts';
import type { Material } from '../trade/material.ts';
import type { Refusal } from '../words/refusal.ts';

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
  readonly lists: Lists;
  readonly files: Files;
  /** All commands, for those that explain the others. */
  readonly commands: Registry<Desk>;
}

/** Lists of materials as text, in the form of `materials.yaml`. */
export interface Lists {
  /** The list that a studio works with, its own or the program's. */
  textOf(studio: Studio): string;
  /** Reads a list, or says what is wrong with it, all at once. */
  read(text: string): readonly Material[] | Refusal;
}

/** What people hand in. `name` is what the option held: an address on the platform, a path in the local chat. */
export interface Files {
  read(name: string): Promise<Uint8Array | Refusal>;
}

export const { command, group, part } = declarations<Desk>();
