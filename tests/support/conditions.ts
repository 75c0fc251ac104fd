import type { Conditions, TemperatureReading } from '../../src/trade/time/conditions.ts';

/** A bench on which just these readings were logged, and nothing was ever expected or learned. */
export const under = (readings: readonly TemperatureReading[] = [], more: Partial<Conditions> = {}): Conditions => ({
  readings,
  expectations: [],
  paces: new Map(),
  ...more,
});
