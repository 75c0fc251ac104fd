import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { loadConfiguration } from '../../src/adapters/yaml/load.ts';
import { fold } from '../../src/bench/fold.ts';
import { type PlannedStep, plannedStep } from '../../src/job/events.ts';
import { laidOut, type Roles } from '../../src/job/laid-out.ts';
import { plannedSteps } from '../../src/job/planned.ts';
import { type Recipe, rolesOf } from '../../src/job/recipe.ts';
import { timelineOf } from '../../src/job/timeline.ts';
import { nextWindow } from '../../src/job/window.ts';
import { bareArea } from '../../src/trade/body/body.ts';
import { coverOf } from '../../src/trade/cover/cover.ts';
import { DAY, HOUR, MINUTE, nextWallClock, shiftAt } from '../../src/trade/time/calendar.ts';
import { isRefusal, type Refusal } from '../../src/words/refusal.ts';
import { under } from '../support/conditions.ts';
import { did, started, t } from '../support/given.ts';
import { hours } from '../support/studio.ts';
import { good } from '../trade/asks.ts';

// Common practice, no source: how the work goes with the recipes and materials that are shipped.

const shipped = loadConfiguration({ shippedDir: fileURLToPath(new URL('../../config', import.meta.url)), ownDir: null });
if (Array.isArray(shipped)) throw new Error('the shipped configuration has problems');
const { materials, recipes } = shipped;
const byId = <T extends { id: string }>(list: readonly T[], id: string): T => {
  const found = list.find((each) => each.id === id);
  if (!found) throw new Error(`nothing shipped is called ${id}`);
  return found;
};
const roles: Roles = {
  detail: byId(materials, 'detail-urethane'),
  skin: byId(materials, 'brush-urethane'),
  shell: byId(materials, 'shell-paste'),
};

const COVER = good(
  coverOf(bareArea(0.4), { reliefFactor: 1, flangeMillimetres: null, partingMillimetres: null, edgePercent: 0 }),
);
const NOBODY_SAID = { skinMillimetres: null, shellMillimetres: null, body: null };

function plan(recipe: Recipe, of: Roles): PlannedStep[] | Refusal {
  const laid = laidOut(recipe, of, NOBODY_SAID);
  return isRefusal(laid) ? laid : plannedSteps(laid, { cover: COVER, wastePercent: 10 });
}

function steps(recipe: string): PlannedStep[] {
  const planned = plan(byId(recipes, recipe), roles);
  if (isRefusal(planned)) throw new Error(planned.code);
  return planned.map((each) => plannedStep.parse(each));
}
const coatsOf = (recipe: string) => steps(recipe).filter((each) => each.kind === 'coat');

/** Every step begun as early as its window and the staffed hours allow, its hands inside one shift; when each is done. */
function doneAt(recipe: string, staffed: string | null): Record<string, number> {
  const shifts = staffed === null ? null : { hours: [hours(staffed)], days: [1, 2, 3, 4, 5, 6, 7] };
  const history = [started('08:00', { steps: steps(recipe) })];
  const done: Record<string, number> = {};
  let now = t('08:00');
  for (const plan of steps(recipe)) {
    const job = fold(history.map((event, index) => ({ ...event, seq: index + 1 }))).jobs.get('lion');
    const window = job ? nextWindow(job, under()) : null;
    let from = Math.max(now, window?.opensAt ?? now);
    const hands = plan.handsMinutes * MINUTE;
    if (shifts !== null)
      while ((shiftAt(shifts, 'Etc/UTC', from)?.until ?? 0) < from + hands)
        from = nextWallClock('Etc/UTC', from, shifts.hours[0]?.fromMinute ?? 0);
    expect(from, `${plan.id} inside its window`).toBeLessThanOrEqual(window?.closesAt ?? Number.POSITIVE_INFINITY);
    now = from + hands;
    done[plan.id] = now;
    history.push({ ...did(plan.id, '08:00'), at: now, enteredAt: now });
  }
  return done;
}
const dayOf = (at: number | undefined) => Math.floor(((at ?? 0) - t('00:00')) / DAY) + 1;

describe('a brushed skin with a paste shell', () => {
  test('four coats, each thicker than the one before', () => {
    const layers = coatsOf('skin-paste').map((coat) => coat.layerMillimetres ?? 0);
    expect(layers).toHaveLength(4);
    for (const [index, layer] of layers.slice(1).entries()) expect(layer).toBeGreaterThan(layers[index] ?? 0);
  });

  test('the fine one has two more thin coats before them, of the detail material', () => {
    const fine = coatsOf('skin-paste-fine');
    expect(fine.slice(2)).toEqual(coatsOf('skin-paste'));
    expect(fine.slice(0, 2).map((coat) => coat.material?.id)).toEqual(['detail-urethane', 'detail-urethane']);
    for (const coat of fine.slice(0, 2)) expect(coat.layerMillimetres).toBeLessThan(fine[2]?.layerMillimetres ?? 0);
    // The usual detail coat, and before it one of four fifths.
    const usual = roles.detail?.coat?.thicknessMillimetres ?? 0;
    expect(fine.slice(0, 2).map((coat) => (coat.layerMillimetres ?? 0) / usual)).toEqual([
      expect.closeTo(0.8, 9),
      expect.closeTo(1, 9),
    ]);
  });

  test('ready for the next coat after about 45 minutes', () => {
    const done = doneAt('skin-paste', null);
    // The hands-on quarter of an hour comes on top of the wait.
    for (const [before, after] of [
      ['coat-1', 'coat-2'],
      ['coat-2', 'coat-3'],
      ['coat-3', 'coat-4'],
    ] as const)
      expect(((done[after] ?? 0) - (done[before] ?? 0)) / MINUTE - 15).toBeCloseTo(45, 6);
  });

  test('skin and shell cure overnight', () => {
    const waits = Object.fromEntries(steps('skin-paste').map((each) => [each.id, each.wait]));
    for (const id of ['coat-4', 'shell']) {
      expect(waits[id]?.kind).toBe('cure');
      expect(waits[id]?.fromMinutes).toBeGreaterThanOrEqual((12 * HOUR) / MINUTE);
      expect(waits[id]?.fromMinutes).toBeLessThanOrEqual((18 * HOUR) / MINUTE);
    }
  });

  test.each(['skin-paste', 'skin-paste-fine'])('%s, staffed from 08:00 to 18:00: the mould opens on the third day', (recipe) => {
    const done = doneAt(recipe, '08:00-18:00');
    expect([done['coat-4'], done['shell'], done['demould']].map(dayOf)).toEqual([1, 2, 3]);
  });

  test('the timeline of a job that has just started says the same, hands always at the ready', () => {
    const job = fold([{ ...started('08:00', { steps: steps('skin-paste') }), seq: 1 }]).jobs.get('lion');
    const ends = job ? timelineOf(job, under(), t('08:00')) : [];
    expect(Object.fromEntries(ends.map((entry) => [entry.step, entry.endsAt]))).toEqual(doneAt('skin-paste', null));
  });
});

test('each shipped recipe can be planned with shipped materials', () => {
  for (const recipe of recipes) {
    const found: Roles = Object.fromEntries(
      rolesOf(recipe).map((role) => [
        role,
        materials.find((each) => each.use.includes(role) && (role !== 'skin' || each.recoat !== null)),
      ]),
    );
    const planned = plan(recipe, found);
    expect(isRefusal(planned), recipe.id).toBe(false);
  }
});

test('what may be mixed at once, and at which temperatures, goes along with each step', () => {
  for (const { material, mostGrams, usable } of steps('skin-paste')) {
    const of = materials.find(({ id }) => id === material?.id);
    expect([mostGrams, usable]).toEqual([of?.mostGrams ?? null, of?.usable ?? null]);
  }
  expect(steps('skin-paste').some(({ mostGrams }) => mostGrams !== null)).toBe(true);
});
