/**
 * What a length does on its way from the model to the finished casting, each in percent of the length before it: the skin
 * draws in, so the mould is smaller than the model; the casting is smaller than the mould when it is taken out (mould
 * shrinkage), and goes on shrinking (post-shrinkage: ISO 2577 and ASTM D6289 keep the two apart); gypsum grows as it sets.
 */
export interface Shrinkage {
  readonly mouldPercent: number;
  readonly castingPercent: number;
  readonly postPercent: number;
  readonly expansionPercent: number;
}

/** One length, in millimetres, on the model, in the mould and on the finished casting. */
export interface Sizes {
  readonly modelMillimetres: number;
  readonly mouldMillimetres: number;
  readonly castingMillimetres: number;
}

const left = (percent: number) => 1 - percent / 100;

/** What is left of a length from the mould to the finished casting, as a factor. */
const fromMould = ({ castingPercent, postPercent, expansionPercent }: Shrinkage): number =>
  left(castingPercent) * left(postPercent) * (1 + expansionPercent / 100);

/** What comes of a length of the model. */
export function sizesOf(modelMillimetres: number, shrinkage: Shrinkage): Sizes {
  const mouldMillimetres = modelMillimetres * left(shrinkage.mouldPercent);
  return { modelMillimetres, mouldMillimetres, castingMillimetres: mouldMillimetres * fromMould(shrinkage) };
}

/** How long the model must be for a length of the casting: divided by what is left of it, not lengthened by what goes. */
export function sizesFor(castingMillimetres: number, shrinkage: Shrinkage): Sizes {
  const mouldMillimetres = castingMillimetres / fromMould(shrinkage);
  return { modelMillimetres: mouldMillimetres / left(shrinkage.mouldPercent), mouldMillimetres, castingMillimetres };
}

/** Linear shrinkage in all, from the model to the finished casting, in percent; below zero where it grows. */
export const linearPercent = (shrinkage: Shrinkage): number => (1 - left(shrinkage.mouldPercent) * fromMould(shrinkage)) * 100;

/** Shrinkage of a volume, in percent, of which every length shrinks by so much: 1 − (1 − s)³. */
export const volumePercent = (linear: number): number => (1 - left(linear) ** 3) * 100;
