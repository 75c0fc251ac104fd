import type { House } from '../bench/house.ts';
import type { Clock } from '../bench/ports.ts';
import type { Studio } from '../bench/studio.ts';
import { recipesOf } from '../bench/studio-recipes.ts';
import type { Answer } from '../chat/card.ts';
import { writeLine } from '../chat/line.ts';
import type { Call } from '../chat/parse.ts';
import type { Registry } from '../chat/registry.ts';
import type { Recipe } from '../job/recipe.ts';
import type { Painter } from '../picture/painter.ts';
import type { Material } from '../trade/material.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { plain, say } from '../words/text.ts';
import type { Desk, Files, Lists, Meshes } from './desk.ts';
import { again } from './examples.ts';
import { mended } from './mended-example.ts';
import { replanned } from './replanning.ts';
import { toldFreely } from './told-freely.ts';

/** What all the desks of a program share. */
export interface Office {
  readonly commands: Registry<Desk>;
  readonly clock: Clock;
  readonly recipes: readonly Recipe[];
  /** The program's materials, for studios that have no list of their own. */
  readonly materials: readonly Material[];
  readonly lists: Lists;
  readonly meshes: Meshes;
  readonly painter: Painter;
}

/** The desk of one person in one channel, as everything is just now. */
export async function deskAt(
  office: Office,
  { house, channel, who, files }: { house: House; channel: string; who: string; files: Files },
): Promise<Desk> {
  const bench = house.bench(channel);
  // What was told here, in another process too, may have taught the studio something.
  await bench.state();
  const studio = await house.studio();
  const { commands, clock, recipes, lists, meshes, painter } = office;
  const materials = materialsOf(studio, office);
  return {
    who,
    channel,
    now: clock.now(),
    studio,
    materials,
    shipped: office.materials,
    recipes: recipesOf(studio, recipes),
    shippedRecipes: recipes,
    bench,
    house,
    lists,
    files,
    meshes,
    painter,
    commands,
  };
}

/** The studio's own materials; the program's where it has none, or where a newer program cannot read them any more. */
function materialsOf(studio: Studio, { lists, materials }: Office): readonly Material[] {
  if (studio.materialsText === null) return materials;
  const own = lists.read(studio.materialsText);
  return isRefusal(own) ? materials : own;
}

/** Commands that take a material and how much of it. */
const AMOUNTS = ['mix', 'cup start'];

/**
 * Runs a command, unless it is only for those who manage the server. What it stored is on disk when it resolves. A call that was
 * refused while it was read, like any refusal, gets an example of what is here.
 */
export async function run(call: Call<Desk> | Refusal, desk: Desk, by: { manages: boolean }): Promise<Answer> {
  const before = { state: await desk.bench.state(), studio: desk.studio };
  const answer = isRefusal(call) ? call : await ran(call, desk, by);
  if (!isRefusal(answer)) {
    const after = { state: await desk.bench.state(), studio: await desk.house.studio() };
    return replanned(answer, before, after, desk.now);
  }
  const freely = isRefusal(call) || answer.code !== 'unknown-material' ? null : await withAmount(call, desk);
  const whole = isRefusal(call) ? answer : inWhole(answer, call);
  return mended(freely === null ? whole : again(whole, freely), desk);
}

/** An example that is a single option, as `job:lion-head`, is of the line that was typed. */
function inWhole(refusal: Refusal, { declaration: { path, options }, raw }: Call<Desk>): Refusal {
  const [, name = '', value = ''] = /^([\w-]+):(.+)$/s.exec(refusal.example ?? '') ?? [];
  if (!options.some((option) => option.name === name)) return refusal;
  return again(refusal, { example: writeLine(path, { ...raw, [name]: value }) });
}

/** The material was typed together with its amount: "/mix 500 g brush urethane". */
async function withAmount({ declaration: { path }, raw }: Call<Desk>, desk: Desk) {
  if (!AMOUNTS.includes(path) || raw['material'] === undefined || raw['amount'] !== undefined) return null;
  const told = toldFreely(raw['material'], desk, await desk.bench.state());
  if (told?.['amount'] === undefined) return null;
  const options = { ...raw, ...told };
  return { example: writeLine(path, options), ways: [{ label: told['amount'], command: path, options }] };
}

async function ran({ declaration, input }: Call<Desk>, desk: Desk, { manages }: { manages: boolean }): Promise<Answer> {
  if (declaration.manage && !manages)
    return new Refusal(
      'not-a-manager',
      say`${plain(`/${declaration.path}`)} is for those who may manage this server. Ask one of them.`,
      { example: '/help' },
    );
  return declaration.run(input, desk);
}
