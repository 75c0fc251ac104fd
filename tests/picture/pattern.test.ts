import fc from 'fast-check';
import { expect, it } from 'vitest';
import { LOOKS } from '../../src/picture/palette.ts';
import { strokesOf } from '../../src/picture/pattern.ts';

const patterns = Object.values(LOOKS).map(({ pattern }) => pattern);
const px = fc.integer({ min: 0, max: 900 });

it('fills a bar with strokes of which none leaves it', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...patterns),
      fc.record({ x: px, y: px, width: fc.double({ min: 0, max: 900, noNaN: true }), height: fc.integer({ min: 8, max: 40 }) }),
      (pattern, box) => {
        for (const [fromX, fromY, toX, toY] of strokesOf(pattern, box))
          for (const [x, y] of [
            [fromX, fromY],
            [toX, toY],
          ] as const) {
            expect(x).toBeGreaterThanOrEqual(box.x - 1e-9);
            expect(x).toBeLessThanOrEqual(box.x + box.width + 1e-9);
            expect(y).toBeGreaterThanOrEqual(box.y - 1e-9);
            expect(y).toBeLessThanOrEqual(box.y + box.height + 1e-9);
          }
      },
    ),
  );
});

const WITHOUT_STROKES: readonly string[] = ['solid', 'framed', 'outline'];

it.each(patterns.filter((pattern) => !WITHOUT_STROKES.includes(pattern)))(
  'is seen even in the narrowest bar of a legend: %s',
  (pattern) => {
    expect(strokesOf(pattern, { x: 0, y: 0, width: 20, height: 20 }).length).toBeGreaterThan(0);
  },
);
