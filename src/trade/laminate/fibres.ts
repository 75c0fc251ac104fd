/** What laminates are reinforced with. Densities in g/mL: glass as in the check beside it, the others from memory. */
export const FIBRES = ['glass', 'carbon', 'aramid', 'flax', 'jute'] as const;
export type Fibre = (typeof FIBRES)[number];

export const FIBRE_GRAMS_PER_MILLILITRE: Readonly<Record<Fibre, number>> = {
  glass: 2.56,
  carbon: 1.8,
  aramid: 1.44,
  flax: 1.5,
  jute: 1.46,
};

/** `mat`: strands every which way, that soak up much resin. `cloth`: woven or laid in order. */
export type Make = 'mat' | 'cloth';

/** Fibre in a layer that was laid by hand, in percent of its weight. Common practice, no source. */
export const usualFraction = (fibre: Fibre, make: Make): number => {
  if (fibre === 'flax' || fibre === 'jute') return make === 'mat' ? 25 : 35;
  return make === 'mat' ? 30 : 45;
};
