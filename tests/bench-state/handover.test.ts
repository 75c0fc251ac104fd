import { describe, expect, test } from 'vitest';
import type { NumberedEvent } from '../../src/bench/fold.ts';
import { giveOver, takeOver } from '../../src/bench/handover.ts';
import { type Ping, pingsOf } from '../../src/bench/pings.ts';
import { closed, did, given, held, offered, poured, started, t, taken } from '../support/given.ts';
import { studio } from '../support/studio.ts';

const first = given(started(), did('seal', '08:30'), did('coat-1', '09:00'));
type History = typeof first;

const ANY = { job: null, offer: null, from: null };
const all = (history: History, now = '09:10') => pingsOf(history.state, studio(), t(now));
const of = (kind: Ping['kind'], pings: Ping[]) => pings.filter((ping) => ping.kind === kind);

describe('a handover', () => {
  const offer = first.and(offered(['kim', 'lee'], '09:20'));
  const untaken = (history: History, now: string) => of('handover', all(history, now));

  test('untaken when the next window opens, it reaches both sides', () =>
    expect(untaken(offer, '09:30')).toMatchObject([{ dueAt: t('09:45'), to: ['dana', 'kim', 'lee'] }]));
  test('untaken while a window is open, it does so after the grace time', () =>
    expect(untaken(first.and(offered(['kim'], '10:00')), '10:01')).toMatchObject([{ dueAt: t('10:10') }]));
  test('while it waits, both sides hear what concerns the job', () => {
    const pings = all(offer.and(poured('cup-1', 'coat-2', '09:20', { by: 'dana' })), '09:21');
    for (const kind of ['pot-low', 'pot-over'] as const)
      expect(of(kind, pings).map(({ to }) => to)).toEqual([['dana', 'kim', 'lee']]);
    expect(of('recoat-open', all(offer)).map(({ to }) => to)).toEqual([['dana', 'kim', 'lee']]);
  });
  test('taken, the pings follow the new holder', () => {
    const over = offer
      .when((_, state) => takeOver(state, offer.log as NumberedEvent[], ANY, { by: 'kim', at: t('09:25'), now: t('09:25') }))
      .yields({
        type: 'HandoverTaken',
        jobs: ['lion'],
      });
    expect(over.state.offers).toEqual([]);
    for (const ping of all(over, '09:30')) expect(ping.to).toEqual(['kim']);
    expect(untaken(over, '09:30')).toEqual([]);
    over
      .when((_, state) => takeOver(state, over.log as NumberedEvent[], ANY, { by: 'kim', at: t('09:26'), now: t('09:26') }))
      .refuses('already-yours');
  });
  test('who had one of the offered jobs already has taken it all', () => {
    const history = first.and(started('09:10', { job: 'owl', by: 'kim' }), offered(['kim'], '09:20', { jobs: ['lion', 'owl'] }));
    const over = history
      .when((_, state) => takeOver(state, history.log as NumberedEvent[], ANY, { by: 'kim', at: t('09:25'), now: t('09:25') }))
      .yields({ jobs: ['lion'] });
    expect(over.state.offers).toEqual([]);
  });
  test('taken in part, the rest still waits', () => {
    const history = first.and(started('09:10', { job: 'owl' }), offered(['kim', 'lee'], '09:20', { jobs: ['lion', 'owl'] }));
    expect(history.and(taken('kim', '09:25', { jobs: ['owl'] })).state.offers.map((each) => each.jobs)).toEqual([['lion']]);
  });
  test('closed or held meanwhile: nobody needs to take it', () => {
    expect(untaken(offer.and(closed('09:25')), '09:30')).toEqual([]);
    expect(untaken(offer.and(held('09:25')), '09:30')).toEqual([]);
  });
  test('to somebody else, of an open job', () => {
    const said = { by: 'dana', at: t('09:20'), now: t('09:20') };
    first.when((job) => giveOver([job], ['dana'], null, said)).refuses('nobody-to-take');
    first.when((job) => giveOver([job], [], null, said)).refuses('nobody-to-take');
    first
      .and(closed('09:10'))
      .when((job) => giveOver([job], ['kim'], null, said))
      .refuses('nothing-to-hand-over');
    first.when((job) => giveOver([job], ['dana', 'kim'], null, said)).yields({ to: ['kim'], jobs: ['lion'] });
  });
});
