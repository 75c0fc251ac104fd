import { distance } from 'fastest-levenshtein';
import type { Family } from '../material.ts';

/** What is known of a surface that somebody described in words of their own. */
export interface Surface {
  /** As it was typed, or the beginning of it. */
  readonly typed: string;
  /** Whether any of the words was known. */
  readonly known: boolean;
  /** What it may carry that keeps others from curing. */
  readonly leaves: readonly string[];
  /** Whether it has pores that a mix soaks into. */
  readonly porous: boolean;
  /** Whether something over the pores is named with it. */
  readonly sealed: boolean;
  /** Whether a release is named with it. */
  readonly released: boolean;
  /** Glass and its like, to which silicones bond. */
  readonly glassy: boolean;
  /** What family it is of, where it is one of the moulding materials. */
  readonly family: Family | null;
}

interface Kind {
  readonly words: readonly string[];
  readonly leaves?: readonly string[];
  readonly porous?: true;
  readonly sealed?: true;
  readonly released?: true;
  readonly glassy?: true;
  readonly family?: Family;
  /** What another word with it would let one fear, and it is not so. */
  readonly without?: string;
}

/** What surfaces carry and do. Common practice, no source. Of kinds that overlap the one with the longer word counts. */
const KINDS: readonly Kind[] = [
  { words: ['sulphur', 'sulphur clay', 'oil clay', 'oil-based clay', 'plasteline', 'plastilina'], leaves: ['sulphur'] },
  {
    words: ['sulphur-free', 'sulphur-free clay', 'sulphur-free oil clay', 'sulphur-free plasteline', 'no sulphur', 'non-sulphur'],
    without: 'sulphur',
  },
  { words: ['clay'], leaves: ['sulphur', 'moisture'], porous: true },
  { words: ['water clay', 'water-based clay', 'wet clay', 'earthenware', 'terracotta'], leaves: ['moisture'], porous: true },
  { words: ['polymer clay'] },
  { words: ['plaster', 'gypsum', 'alginate'], leaves: ['moisture'], porous: true, family: 'gypsum' },
  { words: ['concrete', 'cement', 'mortar'], leaves: ['moisture'], porous: true },
  { words: ['stone', 'marble', 'sandstone', 'brick', 'bisque'], porous: true },
  {
    words: ['wood', 'plywood', 'mdf', 'cork', 'cardboard', 'paper', 'leather', 'fabric', 'cloth'],
    leaves: ['moisture'],
    porous: true,
  },
  { words: ['latex', 'latex rubber', 'natural rubber'], leaves: ['latex', 'amines'] },
  { words: ['epoxy', 'epoxy resin', 'epoxy putty'], leaves: ['amines'], family: 'epoxy' },
  { words: ['condensation silicone', 'tin silicone', 'silicone', 'silicone rubber'], leaves: ['tin'], family: 'silicone-tin' },
  { words: ['platinum silicone', 'addition silicone'], family: 'silicone-platinum' },
  { words: ['urethane', 'polyurethane', 'urethane rubber'], leaves: ['amines'], family: 'urethane' },
  { words: ['polyester', 'fibreglass', 'fiberglass', 'body filler', 'gelcoat'], leaves: ['styrene'], family: 'polyester' },
  {
    words: ['3d print', 'printed', 'print', 'resin print', 'printed resin', 'uv resin', 'sla', 'sla print', 'uv-cured'],
    leaves: ['uncured acrylate'],
  },
  { words: ['filament print', 'filament', 'pla', 'petg', 'abs'], without: 'uncured acrylate' },
  { words: ['glass', 'glazed', 'porcelain', 'enamel'], glassy: true },
  { words: ['wax', 'beeswax', 'paraffin'] },
  { words: ['metal', 'steel', 'iron', 'bronze', 'brass', 'aluminium', 'aluminum', 'acrylic', 'plastic', 'polyethylene'] },
  {
    words: ['shellac', 'lacquer', 'varnish', 'varnished', 'sealer', 'sealed', 'paint', 'painted', 'primer', 'primed'],
    sealed: true,
  },
  { words: ['waxed', 'release', 'released', 'petroleum jelly', 'soap', 'soaped', 'pva'], released: true },
];

const folded = (text: string) =>
  ` ${text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/sulfur/g, 'sulphur')
    .replace(/\bun(sealed|painted|varnished|primed|waxed|released|glazed)\b/g, '')
    .replace(/\b(?:not|no|without) (?!sulphur)\w+/g, '')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()} `;

const PHRASES = KINDS.flatMap((kind) => kind.words.map((word) => ({ kind, phrase: folded(word) }))).sort(
  (a, b) => b.phrase.length - a.phrase.length,
);
const WORDS = [...new Set(PHRASES.flatMap(({ phrase }) => phrase.trim().split(' ')))];

/** A slip of the finger in a long word is forgiven; short words are too near to each other. */
function spelled(word: string): string {
  if (word.length < 5 || WORDS.includes(word)) return word;
  const reach = word.length >= 9 ? 2 : 1;
  const letters = (text: string) => [...text].sort().join('');
  const slip = (known: string) => distance(word, known) <= reach || letters(word) === letters(known);
  return WORDS.find((known) => known.length >= 5 && slip(known)) ?? word;
}

/** As much of it as a line of a card can show. */
const MOST_LETTERS = 60;
const shortened = (text: string) =>
  [...text].length > MOST_LETTERS ? `${[...text].slice(0, MOST_LETTERS - 1).join('')}…` : text;

/** A surface in free words: "wood, shellac", "3D print", "sulfur-free clay". Words that are not known are left out of it. */
export function surfaceOf(typed: string): Surface {
  let rest = ` ${folded(typed).trim().split(' ').map(spelled).join(' ')} `;
  const kinds: Kind[] = [];
  for (const { kind, phrase } of PHRASES) {
    if (!rest.includes(phrase)) continue;
    kinds.push(kind);
    // What was read once is not read again: water clay is not clay besides.
    rest = rest.replaceAll(phrase, ' | ');
  }
  const sealed = kinds.some((kind) => kind.sealed);
  return {
    typed: shortened(typed.trim()),
    known: kinds.some(({ sealed, released }) => !sealed && !released),
    // A seal keeps damp back; sulphur and amines come through many.
    leaves: [...new Set(kinds.flatMap(({ leaves }) => leaves ?? []))].filter(
      (each) => !kinds.some(({ without }) => without === each) && !(sealed && each === 'moisture'),
    ),
    porous: kinds.some(({ porous }) => porous),
    sealed,
    released: kinds.some(({ released }) => released),
    glassy: kinds.some(({ glassy }) => glassy),
    family: kinds.find(({ family }) => family)?.family ?? null,
  };
}
