const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** What stands for a character that the font lacks. */
const LACKING = '\ufffd';

/** The text with one sign for each character, as readers count them, that is not made up of `known` code points alone. */
export function legible(text: string, known: ReadonlySet<number>): string {
  // Markup is plain ASCII, so that nothing of it is taken for a part of somebody's words.
  return text.replace(/[^\u0000-\u007f]+/gu, (run) =>
    [...graphemes.segment(run)]
      .map(({ segment }) => ([...segment].every((each) => known.has(each.codePointAt(0) ?? 0)) ? segment : LACKING))
      .join(''),
  );
}
