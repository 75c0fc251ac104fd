import { distance } from 'fastest-levenshtein';
import type { Family } from '../material.ts';
import { isBodyWord, isLiving, MATERIAL } from './living.ts';
import { KINDS, type Kind } from './surface-kinds.ts';

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
  /** Gloves, which touch the mix from outside. */
  readonly gloves: boolean;
  readonly dissolvedBy: 'styrene' | null;
  /** The highest temperature that it keeps its shape at; null where that is no matter, or not known. */
  readonly standsCelsius: number | null;
  /** Somebody's body, or an animal's: nothing is ever laid on it here. */
  readonly living: boolean;
  /** What was probably meant where no word was known. */
  readonly meant: string | null;
  /** What family it is of, where it is one of the moulding materials. */
  readonly family: Family | null;
}

const folded = (text: string) =>
  ` ${text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/sulfur/g, 'sulphur')
    .replace(/\bun(sealed|painted|varnished|primed|waxed|released|glazed)\b/g, '')
    .replace(/\b(?:not|no|without) (?!sulphur)\w+/g, '')
    .replace(/\bstyro\w*(?: ?foam)?/g, 'polystyrene foam')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .replace(/\b(?:without(?: any)?|with no|free (?:of|from)) sulphur\b/g, 'sulphur free')
    .replace(/(?<!\b(?:water|based|wet) )\bclay sulphur free\b/g, 'sulphur free clay')
    .trim()} `;

const PHRASES = KINDS.flatMap((kind) => kind.words.map((word) => ({ kind, phrase: folded(word) }))).sort(
  (a, b) => b.phrase.length - a.phrase.length,
);
const WORDS = [...new Set(PHRASES.flatMap(({ phrase }) => phrase.trim().split(' ')))];

/** A slip of the finger in a long word is forgiven; short words are too near to each other. */
function spelled(word: string): string {
  if (word.length < 5 || WORDS.includes(word) || isBodyWord(word)) return word;
  const reach = word.length >= 9 ? 2 : 1;
  const letters = (text: string) => [...text].sort().join('');
  const slip = (known: string) => distance(word, known) <= reach || letters(word) === letters(known);
  return WORDS.find((known) => known.length >= 5 && slip(known)) ?? word;
}

/** As much of it as a line of a card can show. */
const MOST_LETTERS = 60;
const shortened = (text: string) =>
  [...text].length > MOST_LETTERS ? `${[...text].slice(0, MOST_LETTERS - 1).join('')}…` : text;

/** Known words that a short slip may stand for, each in its place; of several the one that makes the longest known phrase. */
function meantBy(words: readonly string[]): string | null {
  let [meant, longest]: [string | null, number] = [null, 0];
  for (const [place, word] of words.entries()) {
    if (word.length < 4 || WORDS.includes(word)) continue;
    for (const known of WORDS) {
      if (known.length < 4 || distance(word, known) > 1) continue;
      const instead = words.with(place, known);
      const phrase = PHRASES.find((each) => ` ${instead.join(' ')} `.includes(each.phrase))?.phrase ?? '';
      if (phrase.length > longest) [meant, longest] = [instead.join(' '), phrase.length];
    }
  }
  return meant;
}

/** A surface in free words: "wood, shellac", "3D print", "sulfur-free clay". Words that are not known are left out of it. */
export function surfaceOf(typed: string): Surface {
  const words = folded(typed).trim().split(' ').map(spelled);
  let rest = ` ${words.join(' ')} `;
  const kinds: Kind[] = [];
  for (const { kind, phrase } of PHRASES) {
    if (!rest.includes(phrase)) continue;
    kinds.push(kind);
    // What was read once is not read again: water clay is not clay besides.
    rest = rest.replaceAll(phrase, kind.sealed || kind.released || kind.gloves ? ' | ' : ` ${MATERIAL} `);
  }
  const sealed = kinds.some((kind) => kind.sealed);
  const known = kinds.some((kind) => !kind.sealed && !kind.released);
  const stands = kinds.flatMap(({ softensCelsius }) => softensCelsius ?? []);
  return {
    typed: shortened(typed.trim()),
    known,
    // A seal keeps damp back; sulphur and amines come through many.
    leaves: [...new Set(kinds.flatMap(({ leaves }) => leaves ?? []))].filter(
      (each) => !kinds.some(({ without }) => without === each) && !(sealed && each === 'moisture'),
    ),
    porous: kinds.some(({ porous }) => porous),
    sealed,
    released: kinds.some(({ released }) => released),
    glassy: kinds.some(({ glassy }) => glassy),
    gloves: kinds.some(({ gloves }) => gloves),
    dissolvedBy: kinds.find(({ dissolvedBy }) => dissolvedBy)?.dissolvedBy ?? null,
    standsCelsius: stands.length > 0 ? Math.min(...stands) : null,
    living: isLiving(rest),
    meant: known ? null : meantBy(words),
    family: kinds.find(({ family }) => family)?.family ?? null,
  };
}
