import { expect } from 'vitest';
import type { Body } from '../../../src/trade/body/body.ts';
import { readShapes } from '../../../src/trade/body/shapes.ts';
import { good } from '../asks.ts';

/** What a text that can be read describes. */
export const bodyOf = (text: string): Body => good(readShapes(text)).body;
/** Whether two bodies are the same within a relative tolerance. */
export const same = (got: Body, expected: Body, tolerance = 1e-9) => {
  const numbers = (body: Body) => [
    body.areaSquareMetres,
    body.volumeLitres,
    ...(body.boxMillimetres ?? [null]),
    body.outlineMillimetres,
    body.footSquareMetres,
    body.steepPercent,
    body.undercutPercent,
  ];
  numbers(got).forEach((value, index) => {
    const wanted = numbers(expected)[index] ?? null;
    if (wanted === null || value === null) expect(value).toBe(wanted);
    else expect(Math.abs(value - wanted)).toBeLessThanOrEqual(tolerance * Math.abs(wanted) + 1e-15);
  });
};
