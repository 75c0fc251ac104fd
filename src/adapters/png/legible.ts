const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** What stands for a character that the font lacks. */
const LACKING = '\ufffd';
/** Little pictures, flags among them: a name is read as well without. */
const EMOJI = /\p{Extended_Pictographic}|\p{Regional_Indicator}/u;

/**
 * The text with one sign for each character, as readers count them, that is not made up of `known` code points alone. Little
 * pictures are left out, with a space beside them; but where a text, or what stands between two tags, is nothing else, a sign
 * stands for each of them, too.
 */
export const legible = (text: string, known: ReadonlySet<number>): string =>
  text.replace(/[^<>]+/g, (between) => {
    const left = withSigns(between, known, '');
    return /\S/.test(left) || !/\S/.test(between) ? left : withSigns(between, known, LACKING);
  });

const withSigns = (text: string, known: ReadonlySet<number>, forEmoji: string): string =>
  text.replace(/ ?[^\u0000-\u007f]+ ?/gu, (run) => {
    const shown = [...graphemes.segment(run)]
      .map(({ segment }) => {
        if (segment === ' ' || [...segment].every((each) => known.has(each.codePointAt(0) ?? 0))) return segment;
        return EMOJI.test(segment) ? forEmoji : LACKING;
      })
      .join('');
    return /[^ ]/.test(shown) ? shown : shown.slice(1);
  });
