import { FIBRE_GRAMS_PER_MILLILITRE, type Fibre, type Make, usualFraction } from './fibres.ts';
import type { Mats } from './mats.ts';

export interface Layer {
  readonly gramsPerSquareMetre: number;
  readonly count: number;
  readonly make: Make;
  /** Fibre in percent of this layer's weight. */
  readonly fibrePercent: number;
  /** Of one such layer. */
  readonly thicknessMillimetres: number;
}

export interface Laminate {
  readonly layers: readonly Layer[];
  readonly layerCount: number;
  readonly thicknessMillimetres: number;
  /** Fibre and resin that end up in the laminate. */
  readonly fibreGrams: number;
  readonly resinGrams: number;
  /** Of the whole, 0 to 1. */
  readonly fibreWeightFraction: number;
  readonly fibreVolumeFraction: number;
}

export interface LaminateAsk {
  readonly mats: readonly Mats[];
  readonly areaSquareMetres: number;
  readonly fibre: Fibre;
  /** Percent of the weight; null: what is usual for each layer's make. */
  readonly fibrePercent: number | null;
  readonly resinGramsPerMillilitre: number;
}

/**
 * What a laminate without pores takes and how thick it gets. A layer of w g/m² whose weight is fibre by the share W takes
 * w·(1 − W)/W of resin and is w·[1/ρf + (1 − W)/(W·ρm)] thick: the volumes of fibre and of resin over one square metre.
 */
export function laminate({ mats, areaSquareMetres, fibre, fibrePercent, resinGramsPerMillilitre }: LaminateAsk): Laminate {
  const fibreDensity = FIBRE_GRAMS_PER_MILLILITRE[fibre];
  const plies = mats.map(({ gramsPerSquareMetre: weight, count, make: told }) => {
    const make = told ?? (fibre === 'glass' ? 'mat' : 'cloth');
    const percent = fibrePercent ?? usualFraction(fibre, make);
    const resin = (weight * (100 - percent)) / percent;
    const millimetres = (weight / fibreDensity + resin / resinGramsPerMillilitre) / 1000;
    return { weight, count, make, percent, resin, millimetres };
  });
  const total = (of: (ply: (typeof plies)[number]) => number) => plies.reduce((sum, ply) => sum + ply.count * of(ply), 0);
  const [fibreWeight, resinWeight] = [total(({ weight }) => weight), total(({ resin }) => resin)];
  const thicknessMillimetres = total(({ millimetres }) => millimetres);
  return {
    layers: plies.map(({ weight, count, make, percent, millimetres }) => ({
      gramsPerSquareMetre: weight,
      count,
      make,
      fibrePercent: percent,
      thicknessMillimetres: millimetres,
    })),
    layerCount: total(() => 1),
    thicknessMillimetres,
    fibreGrams: fibreWeight * areaSquareMetres,
    resinGrams: resinWeight * areaSquareMetres,
    fibreWeightFraction: fibreWeight / (fibreWeight + resinWeight),
    fibreVolumeFraction: fibreWeight / fibreDensity / (thicknessMillimetres * 1000),
  };
}
