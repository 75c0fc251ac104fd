import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readShapes } from '../../../src/trade/body/shapes.ts';
import { Refusal } from '../../../src/words/refusal.ts';
import { good, refused, words } from '../asks.ts';
import { bodyOf, same } from './read-bodies.ts';

describe('refusals', () => {
  it.each([
    ['', 'shape-missing', 'box 30 x 20 x 10 cm'],
    ['30 x 20 cm', 'shape-missing', 'plate 30 x 20 cm'],
    ['30 x 20 x 10 cm', 'shape-missing', 'box 30 x 20 x 10 cm'],
    ['box 30x20x10 cm +', 'shape-missing', 'box 30 x 20 x 10 cm'],
    ['pipe d 5 cm h 30 cm', 'shape-unknown', null],
    ['bax 30x20x15 cm', 'shape-unknown', 'box 30 x 20 x 15 cm'],
    ['bell 30 cm', 'shape-unknown', 'sphere 30 cm'],
    ['torso 30 x 20 cm', 'shape-unknown', 'torus 30 x 20 cm'],
    ['half shell 20 cm', 'shape-unknown', null],
    ['black box 30x20x10 cm', 'shape-words', 'box 30 x 20 x 10 cm'],
    ['cylinder 12 banana x 30 cm', 'shape-words', 'cylinder d 12 cm h 30 cm'],
    ['box 30 x 20 cm', 'shape-measures', 'box 30 x 20 x 10 cm'],
    ['cone', 'shape-measures', 'cone d 10 cm h 15 cm'],
    ['cylinder d 12 cm d 30 cm', 'shape-measures', 'cylinder d 12 cm h 30 cm'],
    ['half sphere 1 m 20 cm 5 mm 3 mm', 'shape-measures', 'half sphere 20 cm'],
    ['plate 30 x 20', 'unit-missing', 'plate 30 x 20 cm'],
    ['half sphere 20', 'unit-missing', 'half sphere 20 cm'],
    ['plate 0 x 30 cm', 'length-zero', 'plate 30 x 20 cm'],
    ['plate -3 x 30 cm', 'number-negative', 'plate 3 cm x 30 cm'],
    ['plate 1,200 x 300 mm', 'number-ambiguous', 'plate 1200 mm x 300 mm'],
    ['box 200 m x 3 m x 2 m', 'shape-absurd', 'box 30 x 20 x 10 cm'],
    ['sphere 0.001 mm', 'shape-absurd', 'sphere 20 cm'],
    ['cone 5 x 5 cm + '.repeat(50), 'shape-absurd', 'box 30 x 20 x 10 cm'],
    ['0 x cone 5 x 5 cm', 'shape-absurd', 'cone d 10 cm h 15 cm'],
    ['5000 cones 5 x 5 cm', 'shape-absurd', 'cone d 10 cm h 15 cm'],
    ['cap ball d 5 in h 6 in', 'shape-impossible', 'cap d 20 cm h 4 cm'],
    ['torus ring 5 cm tube 20 cm', 'shape-impossible', 'torus ring 30 cm tube 5 cm'],
    ['half torus outer 25 cm inner 35 cm', 'shape-impossible', 'half torus ring 30 cm tube 5 cm'],
    ['half sphere 40 cm on box 30x20x10 cm', 'shape-no-room', 'half sphere 40 cm + box 30x20x10 cm'],
    ['cone 5 x 5 cm on half sphere 40 cm', 'shape-no-room', 'cone 5 x 5 cm + half sphere 40 cm'],
  ])('%s: %s', (text, code, example) => {
    const refusal = refused(readShapes(text));
    expect(refusal.code).toBe(code);
    if (example !== null) expect(refusal.example).toBe(example);
    good(readShapes(refusal.example ?? ''));
  });

  it('says what was expected of which shape, in the words that were typed', () => {
    expect(words(refused(readShapes('black box 30x20x10 cm')))).toContain(
      'I do not know “black” here; of a box I expected its length',
    );
    expect(words(refused(readShapes('ellipsoid 3 cm')))).toContain('Of an ellipsoid I expected three whole axes');
  });

  it('whatever is typed, there is an answer, and its example works', () => {
    const pieces = [
      'box',
      'half',
      'sphere',
      'torus',
      'ring',
      'd',
      'r',
      'h',
      '30',
      '2',
      '1,200',
      '0',
      'cm',
      '"',
      ' ',
      ' ',
      ' x ',
      '+',
      ' on ',
      ',',
      '-',
      '/',
    ];
    const typed = fc.oneof(
      fc.string({ maxLength: 40 }),
      fc.array(fc.constantFrom(...pieces), { maxLength: 14 }).map((parts) => parts.join('')),
      fc.array(fc.constantFrom(...pieces), { maxLength: 14 }).map((parts) => parts.join(' ')),
    );
    fc.assert(
      fc.property(typed, (text) => {
        const read = readShapes(text);
        if (read instanceof Refusal) return good(readShapes(read.example ?? '')).body.areaSquareMetres > 0;
        expect(read.body.areaSquareMetres).toBeGreaterThan(0);
        same(bodyOf(read.spoken), read.body, 1e-3);
        return true;
      }),
      { numRuns: 2000 },
    );
  });
});
