import type { ShoppingAsk } from '../../src/job/shopping-needs.ts';
import type { Material } from '../../src/trade/material.ts';

/** What a studio with these materials asks for, in grams, with a tenth of waste. */
export const askFor = (materials: readonly Material[], more: Partial<ShoppingAsk> = {}): ShoppingAsk => ({
  materials,
  units: 'metric',
  scale: { stepGrams: 1, mostGrams: null },
  wastePercent: 10,
  laidInTimeGrams: new Map(),
  ...more,
});
