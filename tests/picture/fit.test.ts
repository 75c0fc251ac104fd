import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitted, tidy, wrapped } from '../../src/picture/fit.ts';

/** Every sign ten pixels wide. */
const measure = (text: string) => [...text].length * 10;
const lines = (text: string, signs: number, most = 9) =>
  wrapped(text, signs * 10, 10, false, most, measure).map((line) => line.replaceAll('\u00a0', ' '));

describe('a text over several lines', () => {
  it.each([
    ['Second coat now, by 13:20', 18, ['Second coat now,', 'by 13:20']],
    ['First coat at Mon 06:00', 14, ['First coat', 'at Mon 06:00']],
    ['Start 08:00, ready Tue 21:05', 19, ['Start 08:00,', 'ready Tue 21:05']],
    ['Ready Mon 20 Apr 06:31', 17, ['Ready', 'Mon 20 Apr 06:31']],
    ['Coat 3 (in 1 h 30 min)', 15, ['Coat 3', '(in 1 h 30 min)']],
    ['Release the model now', 17, ['Release the', 'model now']],
    ['12 °C read', 6, ['12 °C', 'read']],
  ])('keeps a time with what belongs to it: %s', (text, signs, expected) => {
    expect(lines(text, signs)).toEqual(expected);
  });

  it('says all its words in their order where there are lines enough, and cuts the last one where there are not', () => {
    fc.assert(
      fc.property(
        fc.array(fc.stringMatching(/^[a-z]{1,9}$/), { maxLength: 30 }),
        fc.integer({ min: 1, max: 5 }),
        (words, most) => {
          const got = lines(words.join(' '), 10, most);
          for (const line of got) expect(measure(line)).toBeLessThanOrEqual(100);
          expect(got.length).toBeLessThanOrEqual(most);
          const said = got.join(' ');
          if (said.endsWith('…')) expect(words.join(' ').startsWith(said.slice(0, -1))).toBe(true);
          else expect(said).toBe(words.join(' '));
          // Nothing is cut that would have fitted.
          if (said.endsWith('…')) expect(got).toHaveLength(most);
        },
      ),
    );
  });
});

describe('a text on one line', () => {
  it('is cut as late as may be, between signs as readers count them', () => {
    expect(fitted('Lion head', 90, 10, false, measure)).toBe('Lion head');
    expect(fitted('Lion head', 89, 10, false, measure)).toBe('Lion he…');
    expect(fitted('e\u0301e\u0301e\u0301', 40, 10, false, measure)).toBe('e\u0301…');
    expect(fitted('Lion head', 9, 10, false, measure)).toBe('');
  });

  it('has nothing in it that turns writing around, or that markup cannot hold', () => {
    expect(tidy('a\u202eb\u0000c\nd\ud800e')).toBe('a b c d e');
  });
});
