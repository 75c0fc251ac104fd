import type { BenchState } from '../bench/fold.ts';
import { openCups, openJobs } from '../bench/fold.ts';
import { writeLine } from '../chat/line.ts';
import type { Option } from '../chat/option.ts';
import { parseLine } from '../chat/parse.ts';
import { isCastable, isGypsum, isLaminatingResin, type Material, USES, type Use } from '../trade/material.ts';
import { parsePercent } from '../trade/measures/quantity.ts';
import { named, nearest } from '../words/nearest.ts';
import { isRefusal, type Refusal } from '../words/refusal.ts';
import type { Desk } from './desk.ts';
import { again, startLine } from './examples.ts';

type Raw = Readonly<Record<string, string>>;

/** What an option that takes materials is completed with, and which of them it takes. */
const TAKES: Readonly<Record<string, (material: Material) => boolean>> = {
  material: () => true,
  gypsum: isGypsum,
  'laminating-resin': isLaminatingResin,
  castable: isCastable,
};
/** Commands that have nothing to say where no job is open. */
const ABOUT_A_JOB = /^(?:done|check|missed|handover (?:give|take)|job (?:note|hold|resume|close))$/;
/** Sides that were typed without their unit are likely in the studio's. */
const BARE_SIDES = /(?<=\barea:)([\d.,]+ x [\d.,]+) cm\b/;
const MOST_TRIES = 4;
const JOBS = ['job', 'active-job', 'held-job', 'any-job'];

/**
 * The same refusal, its example of what this studio and this bench have: examples that are written into the program name
 * materials, recipes and jobs that need not be here. Where the studio has nothing that would do, the help of the command.
 */
export async function mended(refusal: Refusal, desk: Desk, tries = MOST_TRIES): Promise<Refusal> {
  if (refusal.code === 'unit-missing' && desk.studio.units === 'customary' && BARE_SIDES.test(refusal.example ?? ''))
    return mended(again(refusal, { example: refusal.example?.replace(BARE_SIDES, '$1 in') ?? '' }), desk, tries);
  const call = refusal.example?.startsWith('/') ? parseLine(desk.commands, refusal.example) : null;
  if (call === null || tries === 0) return refusal;
  // A number that lacked its unit may be wrong in another way as well.
  if (isRefusal(call))
    return call.example === undefined ? refusal : mended(again(refusal, { example: call.example }), desk, tries - 1);
  const { declaration, raw } = call;
  const state = await desk.bench.state();
  if (ABOUT_A_JOB.test(declaration.path) && openJobs(state).length === 0) return again(refusal, { example: startLine(desk) });
  const [first] = declaration.examples;
  const known = Object.entries(raw).every(([name, typed]) => isKnown(declaration.options, name, typed, desk));
  if (!known && first !== refusal.example) return mended(again(refusal, { example: first }), desk, tries - 1);
  const options = hereOf(declaration.options, raw, desk, state);
  if (options === null) return again(refusal, { example: writeLine('help', { topic: declaration.path }) });
  return Object.keys(raw).every((name) => raw[name] === options[name])
    ? refusal
    : again(refusal, { example: writeLine(declaration.path, options) });
}

/** The options with what is here; null where that is nothing that would do. */
function hereOf(declared: readonly Option[], raw: Raw, desk: Desk, state: BenchState): Raw | null {
  const kinds = declared.filter((option) => takesMaterial(option) && option.complete !== 'material');
  if (kinds.some(({ complete }) => !desk.materials.some(TAKES[complete ?? ''] ?? (() => true)))) return null;
  const options: Record<string, string> = {};
  for (const [name, typed] of Object.entries(raw)) {
    const option = declared.find((each) => each.name === name);
    const here = option ? valueHere(option, typed, raw, desk, state) : typed;
    if (here !== null) options[name] = here;
    else if (option?.required || takesMaterial(option)) return null;
  }
  return options;
}

const takesMaterial = (option: Option | undefined): boolean =>
  option?.complete !== undefined && Object.hasOwn(TAKES, option.complete);

/** Whether it is no material at all: a person's own words, of which an example cannot be made. */
function isKnown(declared: readonly Option[], name: string, typed: string, { materials, shipped }: Desk): boolean {
  const option = declared.find((each) => each.name === name);
  if (!takesMaterial(option) || option?.free) return true;
  return has([...materials, ...shipped], typed) || near(typed, materials) !== undefined;
}

const near = (typed: string, materials: readonly Material[]): Material | undefined => {
  const [id] = nearest(
    typed,
    materials.map((material) => material.id),
  );
  return materials.find((material) => material.id === id);
};

const has = (things: readonly { id: string; name: string }[], typed: string): boolean =>
  things.some(({ id, name }) => named(typed, [id, name]) !== undefined);

function valueHere(option: Option, typed: string, raw: Raw, desk: Desk, state: BenchState): string | null {
  const { complete, free } = option;
  if (takesMaterial(option)) {
    const shipped = desk.shipped.find(({ id }) => named(typed, [id]) !== undefined);
    // Where a surface may stand, too, only what looks like a material is one.
    const given = desk.materials.find(({ id, name }) => named(typed, [id, name]) !== undefined);
    if (given ? fits(given, option, raw) : free && !shipped) return typed;
    const slip = shipped || given ? undefined : near(typed, desk.materials);
    return (slip ?? materialLike(shipped, option, raw, desk))?.id ?? null;
  }
  if (complete === 'recipe') return has(desk.recipes, typed) ? typed : (desk.recipes[0]?.id ?? null);
  if (complete === 'recipe-step') return stepHere(typed, raw, desk);
  if (complete === 'cup') return openCups(state).some(({ id }) => id === typed) ? typed : (openCups(state)[0]?.id ?? null);
  if (complete === undefined || !JOBS.includes(complete) || has([...state.jobs.values()], typed)) return typed;
  const open = openJobs(state);
  const fit = complete === 'held-job' ? open.filter(({ status }) => status === 'held') : open;
  return fit[0]?.id ?? null;
}

/** A step of the recipe that the line speaks of; a number or a place may mean one as well. */
function stepHere(typed: string, raw: Raw, { recipes }: Desk): string | null {
  const recipe = recipes.find(({ id, name }) => named(raw['recipe'] ?? '', [id, name]) !== undefined) ?? recipes[0];
  const steps = (recipe?.steps ?? []).map(({ id, title }) => ({ id, name: title }));
  return /^\s*\d|^start$/i.test(typed) || has(steps, typed) ? typed : (steps[0]?.id ?? null);
}

/** Whether it is of the kind that the option takes, and has the catalyst that the line speaks of. */
const fits = (material: Material, { complete }: Option, raw: Raw): boolean =>
  (TAKES[complete ?? '']?.(material) ?? true) && (raw['catalyst'] === undefined || material.catalyst !== null);

/** A material of this studio that can stand for the shipped one in this line: of its family above all. */
function materialLike(shipped: Material | undefined, { name, complete }: Option, raw: Raw, desk: Desk): Material | undefined {
  const role = USES.find((use: Use) => use === name) ?? shipped?.use[0];
  const fit = desk.materials
    .filter(TAKES[complete ?? ''] ?? (() => true))
    .filter((material) => role === undefined || material.use.includes(role))
    .filter((material) => USES.some((use: Use) => use === name) || doesFor(material, shipped, raw));
  return fit.find(({ family }) => family === shipped?.family) ?? fit[0];
}

/** Whether the rest of the line can be worked out with it: its parts, its densities, its catalyst. */
function doesFor(material: Material, shipped: Material | undefined, raw: Raw): boolean {
  const values = Object.values(raw).join(' ');
  const worded = (text: string) =>
    ` ${text
      .toLowerCase()
      .split(/[^\p{L}\p{N}]+/u)
      .join(' ')} `;
  const parts = (shipped?.parts ?? []).map(({ name }) => name).filter((name) => worded(values).includes(worded(name)));
  const byVolume =
    ['area', 'shape', 'model', 'volume', 'water'].some((name) => raw[name] !== undefined) ||
    raw['by'] === 'volume' ||
    /\d\s*(?:ml|l|qt|pt|gal|fl oz|cups?)\b/i.test(values);
  const percent = raw['catalyst'] === undefined ? null : parsePercent(raw['catalyst']);
  const { catalyst } = material;
  return (
    parts.every((part) => material.parts.some((each) => each.name === part)) &&
    (!byVolume || material.parts.every(({ gramsPerMillilitre }) => gramsPerMillilitre !== null)) &&
    (percent === null ||
      (!isRefusal(percent) && catalyst !== null && percent >= catalyst.leastPercent && percent <= catalyst.mostPercent))
  );
}
