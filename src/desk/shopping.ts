import { type Shopping, shoppingFor } from '../job/shopping.ts';
import type { ShoppingJob } from '../job/shopping-needs.ts';
import { largestLaid } from '../trade/cups/plan.ts';
import type { Desk } from './desk.ts';
import { rateLearned } from './laying.ts';
import { potLifeNow } from './mixing.ts';

/** What these jobs take, with this studio's list of materials, its scale and its pace of laying. */
export async function shoppingOf(desk: Desk, jobs: readonly ShoppingJob[]): Promise<Shopping> {
  const { materials } = desk;
  const { scale, units, wastePercent } = desk.studio;
  const ids = new Set(jobs.flatMap(({ steps }) => steps.map(({ material }) => material?.id)));
  return shoppingFor(jobs, { materials, scale, units, wastePercent, laidInTimeGrams: await laidInTime(desk, [...ids]) });
}

/** The largest cup of each material that this studio has shown to lay in time, as warm as the bench is now. */
async function laidInTime(desk: Desk, ids: readonly (string | undefined)[]): Promise<ReadonlyMap<string, number>> {
  const state = await desk.bench.state();
  const largest = new Map<string, number>();
  for (const material of desk.materials.filter(({ id }) => ids.includes(id))) {
    const learned = await rateLearned(desk, material.id);
    const potLifeMinutes = (grams: number) => potLifeNow(state, material, desk.now, grams);
    if (learned) largest.set(material.id, largestLaid({ gramsPerMinute: learned.gramsPerMinute, potLifeMinutes }));
  }
  return largest;
}
