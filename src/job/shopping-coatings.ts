import { neat } from '../trade/mixing/ratio.ts';
import type { PlannedStep } from './events.ts';

/** What is brushed on thinly so that things let go. */
export interface Coating {
  readonly what: 'sealer' | 'release' | 'wax';
  /** A guess, for those jobs whose size is known; null where none is. */
  readonly millilitres: number | null;
  readonly jobs: readonly string[];
  /** Those of them whose size nobody said: they are not counted. */
  readonly unsized: readonly string[];
}

interface Job {
  readonly name: string;
  readonly steps: readonly PlannedStep[];
  readonly areaSquareMetres: number | null;
}

/** Which words of a step mean it, and how much a square metre takes in two thin coats. Common practice, no source. */
const COATINGS = [
  { what: 'sealer', word: /\bseal/i, millilitresPerSquareMetre: 100 },
  { what: 'release', word: /\breleas/i, millilitresPerSquareMetre: 60 },
  { what: 'wax', word: /\bwax/i, millilitresPerSquareMetre: 60 },
] as const;

/** Washing release and wax out takes none. */
const TAKES_OFF = /\b(?:wash|clean|rinse|strip|remove)/i;

/** Sealer, release and wax for the steps that speak of them. */
export function coatingsOf(jobs: readonly Job[]): Coating[] {
  return COATINGS.flatMap(({ what, word, millilitresPerSquareMetre }): Coating[] => {
    const takes = jobs.flatMap(({ name, steps, areaSquareMetres }) => {
      const times = steps.filter((step) => speaksOf(step, word)).length;
      const millilitres = areaSquareMetres === null ? null : times * areaSquareMetres * millilitresPerSquareMetre;
      return times === 0 ? [] : [{ name, millilitres }];
    });
    const known = takes.flatMap(({ millilitres }) => (millilitres === null ? [] : [millilitres]));
    if (takes.length === 0) return [];
    return [
      {
        what,
        millilitres: known.length === 0 ? null : neat(known.reduce((sum, each) => sum + each, 0)),
        jobs: takes.map(({ name }) => name),
        unsized: takes.filter(({ millilitres }) => millilitres === null).map(({ name }) => name),
      },
    ];
  });
}

const speaksOf = ({ kind, id, title }: PlannedStep, word: RegExp): boolean =>
  (kind === 'prepare' || kind === 'finish') && word.test(`${id} ${title}`) && !TAKES_OFF.test(title);
