const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** What stands for a character that the font lacks. */
const LACKING = '\ufffd';
/** Little pictures, flags among them: a name is read as well without. */
const EMOJI = /\p{Extended_Pictographic}|\p{Regional_Indicator}/u;
/** How a sign is to be drawn, and the frame of a key: without them it is the same sign. */
const STYLE = /[\ufe0e\ufe0f\u20e3]/g;
/** Stands for a little picture until it is left out. */
const LEFT_OUT = '\u{f0000}';

/**
 * The text with one sign for each character, as readers count them, that is not made up of `known` code points alone. Little
 * pictures are left out, and of the spaces around them one is kept between two words; but where a text, or what stands between
 * two tags, is nothing else, a sign stands for each of them, too.
 */
export const legible = (text: string, known: ReadonlySet<number>): string =>
  text.replace(/[^<>]+/g, (between) => {
    if (/^[\u0000-\u007f]*$/.test(between)) return between;
    const signs = [...graphemes.segment(between)].map(({ segment }) => signFor(segment, known)).join('');
    const left = withoutPictures(signs);
    return /\S/.test(left) || !/\S/.test(between) ? left : signs.replaceAll(LEFT_OUT, LACKING);
  });

function signFor(segment: string, known: ReadonlySet<number>): string {
  const isKnown = (sign: string) =>
    [...sign].every((each) => /[\u0000-\u007f]/.test(each) || known.has(each.codePointAt(0) ?? 0));
  if (isKnown(segment)) return segment;
  const plain = segment.replace(STYLE, '');
  if (isKnown(plain)) return plain;
  return EMOJI.test(segment) ? LEFT_OUT : LACKING;
}

const withoutPictures = (signs: string): string =>
  signs.replace(new RegExp(` *${LEFT_OUT}[ ${LEFT_OUT}]*`, 'gu'), (run, offset: number) => {
    const [before, after] = [signs.slice(0, offset), signs.slice(offset + run.length)];
    const isBetweenWords = /[^(\s]$/.test(before) && /^[^\s,.:;!?)]/.test(after);
    return isBetweenWords && run.includes(' ') ? ' ' : '';
  });
