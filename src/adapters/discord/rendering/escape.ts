/** Control characters, those that turn the direction of writing around, and those that nobody sees. */
const UNSEEN = /\p{Cc}|[\u061c\u200b\u200e\u200f\u202a-\u202e\u2060-\u2069\ufeff]/gu;
/** Half a character: the platform refuses a message that holds one. */
const HALF = /\p{Cs}/gu;
/** Breaks a word in two without being seen. */
const BREAK = '\u200b';

/** Words that do nothing but stand there. Line breaks remain. */
export const seen = (words: string): string =>
  words.replace(UNSEEN, (character) => (character === '\n' ? '\n' : '')).replace(HALF, '\ufffd');

/** The same on one line. */
export const onOneLine = (words: string): string => seen(words.replace(/[\r\n\t\v\f\u0085\u2028\u2029]+/g, ' '));

/**
 * Words such that the platform shows just these. A backslash takes the power from markdown alone: the server looks for
 * mentions without minding it, and addresses need none, so those are broken with a character that nobody sees.
 */
export function escaped(words: string): string {
  return (
    words
      .replace(/[\\*_~`|<>#[\]()]/g, '\\$&')
      // A list begins with a dash or a number. Where the words begin in the middle of a line, this is needless but harmless.
      .replace(/^([ \t]*)([-+]|\d+(?=\.))(?=\.?(?:\s|$))/gm, (_, indent: string, mark: string) =>
        /\d/.test(mark) ? `${indent}${mark}\\` : `${indent}\\${mark}`,
      )
      // The name of an emoji: `:fire:`.
      .replace(/:(?=[\w+-]+:)/g, '\\:')
      .replace(/@/g, `@${BREAK}`)
      // An address, and one of an invitation, which acts without its `https`.
      .replace(/:(?=\/\/)/g, `:${BREAK}`)
      .replace(/(?<=\.\p{L}{2,24})\//gu, `${BREAK}/`)
  );
}

/** As many whole characters as fit into `most`, counted as the platform's strictest reading does: in UTF-16 units. */
export function cut(words: string, most: number): string {
  if (words.length <= most) return words;
  let kept = '';
  for (const character of words) {
    if (kept.length + character.length > most - 1) break;
    kept += character;
  }
  return `${kept}…`;
}
