import type { Bench } from '../bench/bench.ts';
import type { House } from '../bench/house.ts';
import type { Studio } from '../bench/studio.ts';
import { declarations } from '../chat/declaration.ts';
import type { Registry } from '../chat/registry.ts';
import type { Recipe } from '../job/recipe.ts';
import type { Painter } from '../picture/painter.ts';
import type { Triangles } from '../trade/body/mesh.ts';
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
  /** The program's own, which examples that are written into it name. */
  readonly shipped: readonly Material[];
  /** The studio's own in place of the program's. */
  readonly recipes: readonly Recipe[];
  /** The program's alone. */
  readonly shippedRecipes: readonly Recipe[];
  readonly bench: Bench;
  readonly house: House;
  readonly lists: Lists;
  readonly files: Files;
  readonly meshes: Meshes;
  readonly painter: Painter;
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

/** Reads meshes: files that describe a surface by triangles. */
export interface Meshes {
  /** The triangles of a file; what kind it is tells its name's ending and, above that, what is in it. */
  read(name: string, bytes: Uint8Array): Promise<Triangles | Refusal>;
  /** Gives whoever else waits a turn: measuring a large mesh takes seconds. Resolves when they had it. */
  pause(): Promise<void>;
}

/** What people hand in. `name` is what the option held: an address on the platform, a path in the local chat. */
export interface Files {
  /** Refused where it is larger than `mostBytes`, 20 MiB unless told. */
  read(name: string, mostBytes?: number): Promise<Uint8Array | Refusal>;
  /** What a person would call it: the name of the file, without where it lies. */
  nameOf(name: string): string;
}

export const { command, group, part } = declarations<Desk>();
