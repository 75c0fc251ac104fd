import { bench, describe } from 'vitest';
import { advance, fold, type NumberedEvent } from '../../src/bench/fold.ts';
import { pingsOf } from '../../src/bench/pings.ts';
import { did, given, sent, started } from '../support/given.ts';
import { studio } from '../support/studio.ts';

/** A bench that has seen `jobs` jobs come and go, each with its pings. Compare the rows of one run with one another. */
function history(jobs: number): NumberedEvent[] {
  const events = Array.from({ length: jobs }, (_, job) => {
    const id = `job-${job}`;
    const rung = Array.from({ length: 10 }, (_, ping) =>
      sent({ id: `${id}/${ping}`, kind: 'step-due', job: id, step: null, dueAt: 0, to: [], until: null } as never, '09:00'),
    );
    return [started('08:00', { job: id }), did('seal', '08:30', { job: id }), did('coat-1', '09:00', { job: id }), ...rung];
  });
  return given(...events.flat()).log as NumberedEvent[];
}

const small = history(100);
const large = history(200);
const state = fold(large);
const more = [{ ...did('coat-2', '10:00', { job: 'job-0' }), seq: large.length + 1 }] as NumberedEvent[];

describe('a long history', () => {
  bench('fold, 100 jobs', () => void fold(small));
  bench('fold, 200 jobs', () => void fold(large));
  bench('one more event on 200 jobs', () => void advance(state, more, large));
  bench('pings of 200 open jobs', () => void pingsOf(state, studio(), Date.UTC(2026, 2, 2, 9)));
});
