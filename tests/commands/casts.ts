import { expect } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';

/** What `/cast` says in numbers. */
export interface Cast {
  material: string;
  pieces: number;
  cavityMillilitres: number | null;
  castMillilitres: number;
  gramsEach: number;
  totalGrams: number;
  mixedGrams: number;
  parts: { part: string; grams: number; scaleReading: number }[];
  layers: number;
  batches: { count: number; castings: number; grams: number }[];
  demouldAt: string | null;
  demouldMinutes: number | null;
  castingGrams: number;
  dryGrams: number | null;
  sizes: { modelMillimetres: number; mouldMillimetres: number; castingMillimetres: number } | null;
  castingBoxMillimetres: number[] | null;
  wallMillimetres: number | null;
  wallLeastMillilitres: number | null;
}
export const castOf = (message: MessageObject | undefined): Cast => {
  expect(message?.kind, message?.text).toBe('reply');
  return message?.data['cast'] as Cast;
};

export const FAST = '/cast material:cast-resin-fast';
