import type { Material, Part } from '../../src/trade/material.ts';

export const part = (name: string, weightShare: number, more: Partial<Part> = {}): Part => ({
  name,
  weightShare,
  volumeShare: null,
  gramsPerMillilitre: null,
  pascalSeconds: null,
  equivalent: null,
  ...more,
});

/** A made-up material of these parts. */
export const material = (parts: readonly Part[], more: Partial<Material> = {}): Material => ({
  id: 'example',
  name: 'An example',
  family: 'urethane',
  use: ['skin'],
  parts,
  pourOrder: null,
  tolerancePercent: 5,
  reference: { celsius: 23, massGrams: null },
  potLifeMinutes: 18,
  potLifeByMass: [],
  recoat: null,
  demouldMinutes: null,
  cure: null,
  usable: null,
  coat: null,
  shrinkagePercent: null,
  postShrinkagePercent: null,
  expansionPercent: null,
  yieldPascals: null,
  peakCelsius: null,
  standsCelsius: null,
  catalyst: null,
  price: null,
  mostGrams: null,
  additives: [],
  hazards: [],
  inhibitedBy: [],
  leaves: [],
  release: { needed: [], notNeeded: [] },
  source: 'made up',
  ...more,
});

export const ab = (a: number, b: number, more: Partial<Material> = {}): Material => material([part('A', a), part('B', b)], more);
