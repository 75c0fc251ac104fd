import type { BenchEvent } from '../../src/bench/events.ts';
import type { BenchView } from '../../src/cards/brief-card.ts';
import { did, given, RUBBER, recoat, started, step, t } from '../support/given.ts';
import { studio } from '../support/studio.ts';

export const view = (now: string, ...events: readonly BenchEvent[]): BenchView => ({
  state: given(...events).state,
  studio: studio(),
  now: t(now),
});
export const beside = { staffed: null };
export const coated: readonly BenchEvent[] = [started(), did('seal', '08:30'), did('coat-1', '09:00')];

/** Rubber that takes twice as long at ten kelvin less. */
const SLOW = { law: { law: 'q10' as const, q10: 2 }, referenceCelsius: 23 };
const USABLE = { fromCelsius: 15, untilCelsius: 32 };
export const cold = [step('coat-1', recoat(60, 240, SLOW), { material: RUBBER, usable: USABLE }), step('coat-2')];
