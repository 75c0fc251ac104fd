import { Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';

const FRACTIONS: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅓': '1/3',
  '⅔': '2/3',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/** One spelling for what keyboards write in many ways: fractions (also 1-1/2), superscripts, wide digits, minus signs, spaces. */
export const tidy = (text: string): string =>
  text
    .replace(/[½¼¾⅓⅔⅛⅜⅝⅞]/g, (sign) => ` ${FRACTIONS[sign]}`)
    .replace(/[\u00ba\u02da]/g, '°')
    .normalize('NFKC')
    .replace(/\^(?=[23])/g, '')
    .replace(/(\d)-(?=\d+ ?[/\u2044] ?\d)/g, '$1 ')
    .replace(/\u2044/g, '/')
    .replace(/\u03bc(?=m)/g, 'u')
    .replace(/[\u2212\u2013]/g, '-')
    .replace(/[\u201c\u201d]|\u2032\u2032/g, '"')
    .replace(/[\u2018\u2019\u2032]/g, "'")
    .replace(/\s+/g, ' ')
    .trim();

/** The source of a pattern for a number in tidied text. A separator may lead only where no word stands before it. */
export const NUMBER = String.raw`-?(?:[1-9]\d{0,2}(?:[ ']\d{3})+(?:[.,]\d+)?(?![\d']| ?/| \d)|\d+ \d+ ?/ ?\d+|\d+ ?/ ?\d+|\d+(?:[.,]\d+)*|(?<!\S)[.,]\d+)`;

const unreadable = (text: string) =>
  new Refusal('number-unreadable', say`I expected a number such as 12.5, 12,5 or 1 1/2, and got “${text}”.`, {
    example: '12.5',
  });

const ungrouped = (typed: string) =>
  /^-?[1-9]\d{0,2}(?:[ ']\d{3})+(?:[.,]\d+)?$/.test(typed) ? typed.replace(/[ ']/g, '') : typed;

/**
 * A number as people type it: decimal comma or point, `.5`, `½`, `1/2`, `1 1/2`; thousands may be
 * set apart by spaces or apostrophes, `1 000` and `1'200`, never by commas or points.
 *
 * Refusals: `number-ambiguous` ("1,200" may be 1200 or 1.2), `number-negative`, `number-unreadable`.
 */
export function parseNumber(text: string): number | Refusal {
  const typed = ungrouped(tidy(text));
  if (/^-\s*[\d.,]/.test(typed)) {
    return new Refusal('number-negative', say`I expected a number that is not negative, and got “${text}”.`, {
      example: typed.replace(/^-\s*/, ''),
    });
  }
  const fraction = /^(?:(\d+) )?(\d+) ?\/ ?(\d+)$/.exec(typed);
  if (fraction) {
    const value = Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3]);
    return Number.isFinite(value) ? value : unreadable(text);
  }
  if (/^[1-9]\d{0,2},\d{3}$/.test(typed)) {
    const [whole, part] = [typed.replace(',', ''), String(Number(typed.replace(',', '.')))];
    return new Refusal('number-ambiguous', say`“${text}” can be read in two ways: write ${plain(whole)} or ${plain(part)}.`, {
      example: whole,
    });
  }
  if (!/^(?:\d+(?:[.,]\d+)?|[.,]\d+)$/.test(typed)) return unreadable(text);
  const value = Number(typed.replace(',', '.'));
  return Number.isFinite(value) ? value : unreadable(text);
}
