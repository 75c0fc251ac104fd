import type { Pattern, What } from './palette.ts';

/** Pixels; the origin is at the upper left. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface PlacedText extends Box {
  readonly text: string;
  readonly size: number;
  readonly bold: boolean;
  readonly colour: string;
  /** The bar that it stands in; null for a text that stands free. */
  readonly within: Box | null;
}

export interface PlacedBar extends Box {
  readonly row: number;
  readonly lane: 'steps' | 'window';
  readonly what: What;
  readonly from: number;
  readonly until: number;
}

export type Shape =
  | { readonly as: 'rect'; readonly box: Box; readonly fill: string | null; readonly edge: string | null }
  | { readonly as: 'pattern'; readonly box: Box; readonly pattern: Pattern; readonly colour: string }
  | {
      readonly as: 'line';
      readonly points: readonly (readonly [number, number])[];
      readonly colour: string;
      readonly width: number;
      readonly dashed: boolean;
    }
  | {
      readonly as: 'dot';
      readonly x: number;
      readonly y: number;
      readonly radius: number;
      readonly fill: string;
      readonly edge: string;
    };

/** A picture before it is drawn: what is drawn first lies lowest, and texts lie above all. */
export interface Scene {
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
  readonly texts: readonly PlacedText[];
  readonly bars: readonly PlacedBar[];
}
