import type { BenchState } from '../bench/fold.ts';
import { openJobs } from '../bench/fold.ts';
import { isoIn } from '../cards/iso.ts';
import { MOST_BUTTONS } from '../chat/card.ts';
import { isOpen, type JobState } from '../job/state.ts';
import type { Material, Use } from '../trade/material.ts';
import { momentOf } from '../trade/time/moment.ts';
import { named, nearest } from '../words/nearest.ts';
import { Refusal, type Way } from '../words/refusal.ts';
import { plainLetters } from '../words/slug.ts';
import { joined, plain, quoted, say, type Text } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { again, givenOf, line, startLine, type Typed } from './examples.ts';

/** The candidates as "a, b or c". */
const choices = (names: readonly string[], most = 8): Text =>
  joined([...names.slice(0, most).map((name) => [quoted(name)]), ...(names.length > most ? [[plain('…')]] : [])], ', ', ' or ');

interface Named {
  readonly id: string;
  readonly name: string;
}

/** The one thing that `typed` is the id or the name of. */
function thingNamed<T extends Named>(typed: string, things: readonly T[]): T | undefined {
  const found = named(typed, [...things.map(({ id }) => id), ...things.map(({ name }) => name)]);
  return things.find(({ id }) => id === found) ?? things.find(({ name }) => name === found);
}

/** The one thing that `typed` names by id or by name, or a refusal that offers the nearest. */
export function pick<T extends Named>(
  what: string,
  typed: string,
  things: readonly T[],
  example: (id: string) => string,
): T | Refusal {
  const found = thingNamed(typed, things);
  if (found) return found;
  const near = [
    ...new Set([
      ...nearest(
        typed,
        things.map((thing) => thing.id),
      ),
      ...nearest(
        typed,
        things.map((thing) => thing.name),
      ).flatMap((name) => things.find((thing) => thing.name === name)?.id ?? []),
    ]),
  ].slice(0, 3);
  const offered =
    near.length > 0
      ? say`Did you mean ${choices(near)}?`
      : things.length > 0
        ? say`There is ${choices(things.map((thing) => thing.id))}.`
        : say`There is none yet.`;
  return new Refusal(`unknown-${what}`, say`Expected a ${plain(what)}, got “${typed}”. ${offered}`, {
    example: example(near[0] ?? things[0]?.id ?? '…'),
  });
}

/** The named material. `lineOf`: the line that an example would be. */
export const material = (
  desk: Desk,
  typed: string,
  lineOf = (id: string) => line('material show', { material: id }),
): Material | Refusal => pick('material', typed, desk.materials, lineOf);

/** The material for a role: the named one, or the only one that there is for it. */
export function materialFor(
  desk: Desk,
  role: Use,
  typed: string | undefined,
  lineOf = (id: string | undefined) => startLine(desk, id === undefined ? {} : { [role]: id }),
): Material | Refusal {
  const fit = desk.materials.filter((each) => each.use.includes(role));
  if (typed === undefined) {
    if (fit.length === 1) return fit[0] as Material;
    return new Refusal(
      `${role}-missing`,
      say`Which material for the ${plain(role)}? There is ${choices(fit.map((each) => each.id))}.`,
      { example: lineOf(fit[0]?.id) },
    );
  }
  const found = pick('material', typed, desk.materials, lineOf);
  // What is offered must do for the role.
  if (found instanceof Refusal) return pick('material', typed, fit, lineOf);
  if (found.use.includes(role)) return found;
  return new Refusal(
    'wrong-use',
    say`${found.name} is a material for ${plain(found.use.join(', '))}, not for the ${plain(role)}. For that there is ${choices(fit.map((each) => each.id))}.`,
    { example: lineOf(fit[0]?.id) },
  );
}

/** Who asks for a job: the command, with its other options as they would be typed, so that a refusal can offer what to press. */
export interface Asked {
  readonly desk: Pick<Desk, 'recipes' | 'materials'>;
  readonly command: string;
  readonly options?: Typed;
}

/** Where nobody says which materials the studio has. */
const START_LINE = '/job start name:Lion head skin:brush-urethane shell:shell-paste';
const MOST_LABEL = 80;

/** The job that is meant: the named one, or the only open one. */
export function job(state: BenchState, typed: string | undefined, asked?: Asked): JobState | Refusal {
  const all = [...state.jobs.values()];
  const start = asked ? startLine(asked.desk) : START_LINE;
  const lineOf = (id: string) => (asked ? line(asked.command, { ...asked.options, job: id }) : `job:${id}`);
  if (typed !== undefined) {
    const known = [...all.filter(isOpen), ...all.filter((each) => !isOpen(each))];
    return (
      thingNamed(typed, known) ??
      (all.length === 0 ? pick('job', typed, [], () => start) : unknownJob(state, typed, lineOf, asked))
    );
  }
  const open = openJobs(state);
  if (open.length === 1) return open[0] as JobState;
  if (open.length > 1)
    return new Refusal('which-job', say`Which job? On this bench there is ${choices(open.map((each) => each.id))}.`, {
      example: lineOf(open[0]?.id ?? ''),
      ways: asked ? open.slice(0, MOST_BUTTONS).map((each) => jobWay(each, open, asked)) : [],
    });
  const last = all.at(-1);
  if (last)
    return new Refusal(
      'no-open-job',
      say`There is no open job on this bench; the last was ${last.name}, now ${plain(last.status)}.`,
      { example: start },
    );
  return new Refusal('no-open-job', say`There is no job on this bench yet.`, { example: start });
}

/** Offers the jobs that may be meant: open ones, else those that have ended. */
function unknownJob(state: BenchState, typed: string, lineOf: (id: string) => string, asked: Asked | undefined): Refusal {
  const open = openJobs(state);
  const [near = []] = [open, [...state.jobs.values()]].map((jobs) => likeJobs(typed, jobs)).filter((jobs) => jobs.length > 0);
  const there = open.map(({ id }) => id);
  const offered =
    near.length > 0
      ? say`Did you mean ${choices(near.map(({ id }) => id))}?`
      : there.length > 0
        ? say`There is ${choices(there)}.`
        : say`No job is open here.`;
  // Nobody types a line for a job that has nothing to do with it, least of all for one on hold.
  const first = near[0] ?? open.find(({ status }) => status === 'active');
  return new Refusal('unknown-job', say`Expected a job, got “${typed}”. ${offered}`, {
    example: first ? lineOf(first.id) : '/job list',
    ways: asked && near.length <= MOST_BUTTONS ? near.map((each) => jobWay(each, near, asked)) : [],
  });
}

const lettersOf = (text: string): string => plainLetters(text).replace(/[^\p{L}\p{M}\p{N}]+/gu, '');
/** Fewer letters begin too many names. */
const LEAST_BEGUN = 3;

/** Those that begin as `typed` does, then those that have it in them, then those of which it may be a slip. */
function likeJobs(typed: string, jobs: readonly JobState[]): JobState[] {
  const word = lettersOf(typed);
  const words = (job: JobState) => [job.id, job.name].map(lettersOf);
  const begins = (other: string) => other.startsWith(word) || (other.length >= LEAST_BEGUN && word.startsWith(other));
  const long = word.length >= LEAST_BEGUN;
  const slips = nearest(typed, [...jobs.map(({ id }) => id), ...jobs.map(({ name }) => name)], jobs.length * 2);
  const all = [
    ...jobs.filter((job) => words(job).includes(word)),
    ...jobs.filter((job) => long && words(job).some(begins)),
    ...jobs.filter((job) => long && words(job).some((other) => other.includes(word))),
    ...slips.flatMap((slip) => jobs.filter(({ id, name }) => id === slip || name === slip)),
  ];
  return [...new Set(all)];
}

/** The same command for this job; its label is the job's name, and its id where another has that name. */
function jobWay({ id, name }: JobState, open: readonly JobState[], { command, options = {} }: Asked): Way {
  const alone = open.filter((each) => each.name === name).length === 1 && name.length <= MOST_LABEL;
  return { label: alone ? name : id, command, options: { ...givenOf(options), job: id } };
}

/** The job that is meant if one is: named, or the only open one; null where the bench leaves it open. */
export function jobIfAny(state: BenchState, typed: string | undefined, asked?: Asked): JobState | null | Refusal {
  if (typed !== undefined) return job(state, typed, asked);
  const open = openJobs(state);
  return open.length === 1 ? (open[0] as JobState) : null;
}

/** When something happened: now, unless it was backdated. `lineOf`: the line that an example would be. */
export function moment(desk: Desk, typed: string | undefined, lineOf?: (at: string) => string): number | Refusal {
  if (typed === undefined) return desk.now;
  const at = momentOf(typed, desk.now, desk.studio.zone);
  return at instanceof Refusal && lineOf ? again(at, { example: lineOf('10m ago') }) : at;
}

/** A moment as text that means the same one whenever it is read; undefined where it is now. */
export const atText = (desk: Desk, at: number): string | undefined => (at === desk.now ? undefined : isoIn(desk.studio.zone)(at));
