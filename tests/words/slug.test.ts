import { expect, test } from 'vitest';
import { named, nearest } from '../../src/words/nearest.ts';
import { plainLetters, slug } from '../../src/words/slug.ts';

test.each([
  ['Größe "Bär"', 'grosse-bar'],
  ['Löwe, dünn', 'lowe-dunn'],
  ['Ærø & Łódź', 'aero-lodz'],
  ['  Sand & wax!  ', 'sand-wax'],
  ['Saint Francis, right hand, with bird', 'saint-francis-right-hand'],
  ['День 2', 'день-2'],
  ['Йод', 'йод'],
  ['が ぎ', 'が-ぎ'],
  ['Donaudampfschifffahrtsgesellschaft', 'donaudampfschifffahrtsge'],
  ['&', ''],
])('%s is %s', (text, expected) => expect(slug(text, 24)).toBe(expected));

test('a name is found without its accents, and first with them', () => {
  expect(named('größe', ['grosse'])).toBe('grosse');
  expect(named('GROSSE', ['lion', 'Größe'])).toBe('Größe');
  expect(named('Bär', ['bar', 'Bär'])).toBe('Bär');
  expect(named('bar', ['Bär', 'bar'])).toBe('bar');
  expect(nearest('löwe', ['lowe-dunn', 'lion'])).toEqual(['lowe-dunn']);
});

/** NFKD and its combining marks are those of the Unicode standard, annex 15; so are these pairs. */
test.each([
  ['é', 'e'],
  ['ç', 'c'],
  ['ñ', 'n'],
  ['Å', 'a'],
  ['ﬁ', 'fi'],
])('%s is %s in plain letters', (letter, plainly) => expect(plainLetters(letter)).toBe(plainly));
