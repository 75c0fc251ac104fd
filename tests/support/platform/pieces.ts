/** One component of a message or a modal, read as it was sent. */
export interface Piece {
  readonly type: number;
  readonly [key: string]: unknown;
}

export const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

export const isPiece = (value: unknown): value is Piece => isRecord(value) && typeof value['type'] === 'number';

/** Every component with all that stand in it, in the order in which they are shown. */
export function* pieces(components: unknown): Generator<Piece> {
  for (const piece of Array.isArray(components) ? components : []) {
    if (!isPiece(piece)) continue;
    yield piece;
    yield* pieces(piece['components']);
    yield* pieces([piece['component'], piece['accessory']]);
  }
}
