import { describe, expect, it } from 'vitest';
import { DARK_TEXT, DAY, LOOKS, NIGHT, NOW, ORANGE, PANEL, QUIET_TEXT, RAIL, TEXT } from '../../src/picture/palette.ts';

type Triple = readonly [number, number, number];

/** Linear sRGB of a colour, by IEC 61966-2-1. */
const linear = (hex: string): Triple =>
  [1, 3, 5].map((at) => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  }) as unknown as Triple;

const luminance = ([red, green, blue]: Triple) => 0.2126 * red + 0.7152 * green + 0.0722 * blue;

/** Contrast ratio as WCAG 2.2 defines it. */
function contrast(one: string, other: string): number {
  const [dark = 0, light = 0] = [luminance(linear(one)), luminance(linear(other))].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

/** CIE 1976 L*a*b* under D65. */
function lab([red, green, blue]: Triple): Triple {
  const f = (t: number) => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116);
  const x = f((0.4124564 * red + 0.3575761 * green + 0.1804375 * blue) / 0.95047);
  const y = f(0.2126729 * red + 0.7151522 * green + 0.072175 * blue);
  const z = f((0.0193339 * red + 0.119192 * green + 0.9503041 * blue) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/**
 * Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of Color Vision Deficiency", IEEE TVCG 15 (2009),
 * doi 10.1109/TVCG.2009.113: the matrices for severity 1.0, applied to linear RGB.
 */
const SIGHTS: Readonly<Record<string, readonly Triple[]>> = {
  'all colours': [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

function seen(hex: string, sight: readonly Triple[]): Triple {
  const [red, green, blue] = linear(hex);
  const through = sight.map(([r, g, b]) => Math.min(1, Math.max(0, r * red + g * green + b * blue)));
  return lab(through as unknown as Triple);
}

describe('the formulas of this test', () => {
  // WCAG 2.2: black on white is 21:1 by definition; #767676 on white is the usual example of just above 4.5:1, from memory.
  it('give what is known of them', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
    expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
    expect(lab(linear('#ffffff'))[0]).toBeCloseTo(100, 3);
  });
});

describe('a picture’s colours', () => {
  it.each([TEXT, QUIET_TEXT])('let text %s be read on the panel: at least 4.5 to 1 (WCAG 2.2, 1.4.3)', (text) => {
    expect(contrast(text, PANEL)).toBeGreaterThanOrEqual(4.5);
  });

  it.each(Object.entries(LOOKS))('let text be read on a full bar: %s', (_, { colour, pattern }) => {
    if (pattern === 'solid' || pattern === 'framed') expect(contrast(DARK_TEXT, colour)).toBeGreaterThanOrEqual(4.5);
  });

  // WCAG 2.2, 1.4.11: what must be told apart from its ground has at least 3 to 1.
  it.each([...Object.values(LOOKS).map(({ colour }) => colour), NOW, RAIL, ORANGE])(
    'let %s be seen by day, at night and on the panel',
    (colour) => {
      for (const behind of [PANEL, DAY, NIGHT]) expect(contrast(colour, behind)).toBeGreaterThanOrEqual(3);
    },
  );

  it.each(Object.entries(SIGHTS))('stay apart for eyes with %s', (_, sight) => {
    const colours = [...new Set(Object.values(LOOKS).map(({ colour }) => colour))];
    const close = colours.flatMap((one, index) =>
      colours.slice(index + 1).filter((other) => {
        const [a, b] = [seen(one, sight), seen(other, sight)];
        return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]) < 12;
      }),
    );
    expect(close).toEqual([]);
  });

  it('are never all that tells two states apart: each has a pattern and a word of its own', () => {
    const looks = Object.values(LOOKS);
    expect(new Set(looks.map(({ pattern }) => pattern)).size).toBe(looks.length);
    expect(new Set(looks.map(({ word }) => word)).size).toBe(looks.length);
  });
});
