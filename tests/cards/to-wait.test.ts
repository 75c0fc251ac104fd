import { describe, expect, test } from 'vitest';
import { type Ping, pingsOf } from '../../src/bench/pings.ts';
import { jobCard } from '../../src/cards/job-card.ts';
import { pingCard } from '../../src/cards/ping-card.ts';
import { say } from '../../src/words/text.ts';
import { did, given, recoat, started, step, t } from '../support/given.ts';
import { hours, studio } from '../support/studio.ts';

/** One pair of hands from 08:00 until 16:00, Monday to Friday. */
const ONE = studio({
  shifts: { hours: [hours('08:00-16:00')], days: [1, 2, 3, 4, 5] },
  duty: { always: ['ann'], byShift: {} },
  hands: { all: 1, byShift: {} },
});
/** `b` is open from 12:45 on; where `c` may follow it 16 to 17 hours later only, it must begin at 14:45, so that `c` is at 08:00. */
const lion = (wait: ReturnType<typeof recoat>) =>
  given(started('08:00', { steps: [step('a', recoat(45, 360)), step('b', wait), step('c')] }), did('a', '12:00'));
const cardsAt = (wait: ReturnType<typeof recoat>, now: number) => {
  const { state, job } = lion(wait);
  const [ping] = pingsOf(state, ONE, now).filter(({ kind }) => kind === 'recoat-open') as [Ping];
  return {
    ping: pingCard(ping, { channel: 'bench', state, studio: ONE, now, late: false }),
    job: jobCard({ job, state, studio: ONE, now }, say`Lion`),
  };
};

describe('a step that is open', () => {
  test('calls nobody to work as long as the rest would find no place', () => {
    const { ping, job } = cardsAt(recoat(960, 1020), t('12:45'));
    expect([ping.tone, job.tone]).toEqual(['calm', 'calm']);
    expect(ping.buttons.map(({ label }) => label)).toEqual(['Show its plan', 'Coat done', 'Snooze']);
    expect(job.buttons.map(({ label }) => label)).toEqual(['Show its plan', 'Coat done']);
  });
  test('calls to work from the planned minute on, and where all fits', () => {
    for (const { ping, job } of [cardsAt(recoat(960, 1020), t('14:45')), cardsAt(recoat(45, 180), t('12:45'))])
      expect([ping.tone, job.tone, ping.buttons[0]?.label]).toEqual(['go', 'go', 'Coat done']);
  });
});
