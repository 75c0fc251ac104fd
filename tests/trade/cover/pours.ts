import type { Pour } from '../../../src/trade/cover/layers.ts';

/** Coats over an area that is the same for all of them: a millimetre over a square metre is a litre. */
export const poursOver = (areaSquareMetres: number, coatsMillimetres: readonly number[]): Pour[] =>
  coatsMillimetres.map((millimetres) => ({ millimetres, litres: areaSquareMetres * millimetres }));
