import type { Offer } from '../bench/fold.ts';
import type { JobState } from '../job/state.ts';
import type { Way } from '../words/refusal.ts';

/** Takes just this offer: once somebody has it, the button takes it from nobody. */
export const takeWay = ({ seq, at }: Pick<Offer, 'seq' | 'at'>): Way => ({
  label: 'Take over',
  command: 'handover take',
  options: { offer: `${seq}-${at.toString(36)}` },
});

/** What such a button says; null where it says nothing. */
export function offerIn(typed: string | undefined): { seq: number; at: number } | null {
  const [, seq, at] = /^(\d{1,9})-([0-9a-z]{1,10})$/.exec(typed?.trim().toLowerCase() ?? '') ?? [];
  return seq === undefined || at === undefined ? null : { seq: Number(seq), at: Number.parseInt(at, 36) };
}

/** Takes the job from whoever has it now, as long as they still do. */
export const takeFromWay = (job: JobState): Way => ({
  label: 'Take over',
  command: 'handover take',
  options: { job: job.id, from: job.holder },
});
