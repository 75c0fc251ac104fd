import type { BenchState } from '../bench/fold.ts';
import { openJobs } from '../bench/fold.ts';
import { isOpen, type JobState } from '../job/state.ts';
import { celsiusAt } from '../trade/cure.ts';
import type { Material, Use } from '../trade/material.ts';
import { momentOf } from '../trade/moment.ts';
import { named, nearest } from '../words/nearest.ts';
import { Refusal } from '../words/refusal.ts';
import { joined, plain, quoted, say, type Text } from '../words/text.ts';
import type { Desk } from './desk.ts';

/** The candidates as "a, b or c". */
const choices = (names: readonly string[], most = 8): Text =>
  joined([...names.slice(0, most).map((name) => [quoted(name)]), ...(names.length > most ? [[plain('…')]] : [])], ', ', ' or ');

/** The one thing that `typed` names by id or by name, or a refusal that offers the nearest. */
export function pick<T extends { id: string; name: string }>(
  what: string,
  typed: string,
  things: readonly T[],
  example: (id: string) => string,
): T | Refusal {
  const id =
    named(
      typed,
      things.map((thing) => thing.id),
    ) ?? things.find((thing) => named(typed, [thing.name]))?.id;
  const found = things.find((thing) => thing.id === id);
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

export const material = (desk: Desk, typed: string, option = 'material'): Material | Refusal =>
  pick('material', typed, desk.materials, (id) => `${option}:${id}`);

/** The material for a role: the named one, or the only one that there is for it. */
export function materialFor(desk: Desk, role: Use, typed: string | undefined): Material | Refusal {
  const fit = desk.materials.filter((each) => each.use.includes(role));
  if (typed === undefined) {
    if (fit.length === 1) return fit[0] as Material;
    return new Refusal(
      `${role}-missing`,
      say`Which material for the ${plain(role)}? There is ${choices(fit.map((each) => each.id))}.`,
      { example: `${role}:${fit[0]?.id ?? '…'}` },
    );
  }
  const found = material(desk, typed, role);
  if (found instanceof Refusal || found.use.includes(role)) return found;
  return new Refusal(
    'wrong-use',
    say`${found.name} is a material for ${plain(found.use.join(', '))}, not for the ${plain(role)}. For that there is ${choices(fit.map((each) => each.id))}.`,
    {
      example: `${role}:${fit[0]?.id ?? '…'}`,
    },
  );
}

/** The job that is meant: the named one, or the only open one. */
export function job(state: BenchState, typed: string | undefined): JobState | Refusal {
  const all = [...state.jobs.values()];
  const example = (id: string) => `job:${id}`;
  if (typed !== undefined) return pick('job', typed, [...all.filter(isOpen), ...all.filter((each) => !isOpen(each))], example);
  const open = openJobs(state);
  if (open.length === 1) return open[0] as JobState;
  if (open.length > 1)
    return new Refusal('which-job', say`Which job? On this bench there is ${choices(open.map((each) => each.id))}.`, {
      example: example(open[0]?.id ?? '…'),
    });
  const last = all.at(-1);
  if (last)
    return new Refusal(
      'no-open-job',
      say`There is no open job on this bench; the last was ${last.name}, now ${plain(last.status)}.`,
      { example: '/job start name:Lion head' },
    );
  return new Refusal('no-open-job', say`There is no job on this bench yet.`, { example: '/job start name:Lion head' });
}

/** The job that is meant if one is: named, or the only open one; null where the bench leaves it open. */
export function jobIfAny(state: BenchState, typed: string | undefined): JobState | null | Refusal {
  if (typed !== undefined) return job(state, typed);
  const open = openJobs(state);
  return open.length === 1 ? (open[0] as JobState) : null;
}

/** When something happened: now, unless it was backdated. */
export function moment(desk: Desk, typed: string | undefined): number | Refusal {
  return typed === undefined ? desk.now : momentOf(typed, desk.now, desk.studio.zone);
}

/** Warns where the bench is too cold or too warm for the material's times to mean anything. */
export function outsideUsable(state: BenchState, used: Material, now: number): Text | null {
  const celsius = celsiusAt(state.temperatures, now);
  if (celsius === null || used.usable === null) return null;
  if (celsius >= used.usable.fromCelsius && celsius <= used.usable.untilCelsius) return null;
  return say`The bench is at ${Number(celsius.toFixed(1))} °C; ${used.name} is made for ${used.usable.fromCelsius} to ${used.usable.untilCelsius} °C. Trust no clock here: check by touch.`;
}
