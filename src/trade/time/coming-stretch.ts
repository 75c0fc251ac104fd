import { withOffset } from './coming.ts';

/**
 * "2026-10-25T02:30+02:00/2026-10-25T02:00+01:00": from one instant until another, each with its offset, so that it can be said
 * of the hour that comes twice. Milliseconds since the epoch; null if it is nothing of the kind, or ends before it begins.
 */
export function exactStretch(text: string): { readonly from: number; readonly until: number } | null {
  const [from = null, until = null, ...more] = text.split('/').map((end) => withOffset(end.trim().toLowerCase()));
  return from === null || until === null || more.length > 0 || until <= from ? null : { from, until };
}
