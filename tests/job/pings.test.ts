import { describe, expect, test } from 'vitest';
import { pingsOf } from '../../src/job/pings.ts';
import { under } from '../support/conditions.ts';
import {
  closed,
  cure,
  decided,
  did,
  ended,
  fixed,
  given,
  held,
  poured,
  recoat,
  resumed,
  started,
  step,
  t,
  touched,
  undid,
} from '../support/given.ts';

const first = given(started(), did('seal', '08:30'), did('coat-1', '09:00'));
const due = (history: typeof first) => pingsOf(history.job, under()).map((ping) => [ping.kind, ping.dueAt]);
const ids = (history: typeof first) => Object.fromEntries(pingsOf(history.job, under()).map((ping) => [ping.kind, ping.id]));
const waiting = (wait: Parameters<typeof step>[1]) =>
  given(started('08:00', { steps: [step('a', wait), step('b')] }), did('a', '09:00'));

describe('kinds and times', () => {
  test('a recoat window opens, closes, is missed; the holder is told', () => {
    expect(due(first)).toEqual([
      ['recoat-open', t('09:45')],
      ['recoat-closing', t('11:30')],
      ['recoat-missed', t('12:00')],
    ]);
    for (const ping of pingsOf(first.job, under())) expect(ping).toMatchObject({ job: 'lion', step: 'coat-2', to: ['dana'] });
  });
  test('a cure', () => expect(due(waiting(cure(120)))).toEqual([['cure-done', t('11:00')]]));
  test('a fixed wait', () => expect(due(waiting(fixed(15)))).toEqual([['step-due', t('09:15')]]));
  test('a window without an end does not close', () =>
    expect(due(waiting(recoat(45, null)))).toEqual([['recoat-open', t('09:45')]]));
  test('no wait, no ping; nor before the first step, nor after the last', () => {
    expect(due(waiting(null))).toEqual([]);
    expect(due(given(started()))).toEqual([]);
    expect(due(waiting(null).and(did('b', '09:10')))).toEqual([]);
  });
  test('what is open at once needs no ping to say so', () =>
    expect(due(waiting(recoat(0, 60)))).toEqual([
      ['recoat-closing', t('09:45')],
      ['recoat-missed', t('10:00')],
    ]));

  test.each([
    // A quarter of the window, but 5 minutes at least and 30 at most; none before it opens.
    [recoat(45, 85), t('10:15')],
    [recoat(45, 60), t('09:55')],
    [recoat(45, 50), undefined],
    [recoat(45, 24 * 60), t('08:30', 1)],
  ])('closing of %j', (wait, at) => expect(due(waiting(wait)).find(([kind]) => kind === 'recoat-closing')?.[1]).toBe(at));
});

describe('silence', () => {
  test('on hold, until it is taken up again', () => {
    expect(due(first.and(held('09:10')))).toEqual([]);
    expect(ids(first.and(held('09:10'), resumed('09:20')))).toEqual(ids(first));
  });
  test('closed', () => expect(due(first.and(closed('09:10')))).toEqual([]));
  test('a poured cup: somebody is at it, for its pot life and the hands-on time, and no longer', () => {
    const without = due(first);
    const closing = without.find(([kind]) => kind === 'recoat-closing')?.[1] as number;
    const kinds = (at: string) => due(first.and(poured('cup-1', 'coat-2', at)));
    expect(closing).toBeGreaterThan(t('11:00'));
    expect(kinds('09:50')).toEqual(without);
    expect(kinds('11:20').map(([kind]) => kind)).toEqual(['recoat-open', 'recoat-missed']);
    expect(kinds('11:50').at(-1)).toEqual(['recoat-missed', t('12:25')]);
  });
  test('a cup poured before the window opened silences nothing', () =>
    expect(due(first.and(poured('cup-1', 'coat-2', '09:20')))).toEqual(due(first)));
  test('a cup for something else silences nothing', () =>
    expect(due(first.and(poured('cup-1', null, '10:00')))).toEqual(due(first)));
  test('a cup that was thrown away silences nothing any more', () =>
    expect(due(first.and(poured('cup-1', 'coat-2', '10:00'), ended('cup-1', 'discarded', '10:05')))).toEqual(due(first)));
  test('a cup poured too late silences nothing', () =>
    expect(due(first.and(poured('cup-1', 'coat-2', '12:05')))).toEqual(due(first)));
  test('touched past, and decided', () => {
    expect(due(first.and(touched('coat-1', 'past', '10:00')))).toEqual([]);
    expect(due(first.and(decided('coat-2', 'abrade', '12:10')))).toEqual([]);
  });
});

describe('ids', () => {
  test('the same however often they are worked out, whatever else happens', () => {
    expect(ids(first.and(held('09:10'), resumed('09:11'), started('09:20', { job: 'owl' })))).toEqual(ids(first));
    const values = Object.values(ids(first));
    expect(new Set(values).size).toBe(values.length);
  });
  test('new when a step is redone after an undo', () => {
    const redone = first.and(undid(3, '09:05'), did('coat-1', '09:10'));
    for (const id of Object.values(ids(redone))) expect(Object.values(ids(first))).not.toContain(id);
  });
  test('new when a coat is redone after it was scrapped', () => {
    const redone = first.and(decided('coat-2', 'scrap', '12:10'), did('coat-1', '12:30'));
    expect(due(redone).map(([kind]) => kind)).toEqual(['recoat-open', 'recoat-closing', 'recoat-missed']);
    for (const id of Object.values(ids(redone))) expect(Object.values(ids(first))).not.toContain(id);
  });
  test('"not yet" pings anew that it opens, and not twice that it closes', () => {
    const wet = first.and(touched('coat-1', 'not-yet', '09:45'));
    expect(due(wet)[0]).toEqual(['recoat-open', t('09:57')]);
    expect(ids(wet)['recoat-open']).not.toBe(ids(first)['recoat-open']);
    expect(ids(wet)['recoat-closing']).toBe(ids(first)['recoat-closing']);
    expect(ids(wet)['recoat-missed']).toBe(ids(first)['recoat-missed']);
  });
  test('"ready" needs no ping that it opens, and not a second one that it closes', () => {
    const ready = first.and(touched('coat-1', 'ready', '11:35'));
    expect(ids(ready)).toEqual({
      'recoat-closing': ids(first)['recoat-closing'],
      'recoat-missed': ids(first)['recoat-missed'],
    });
  });
  test('"not yet" at the end of the window never announces an opening that there is not', () => {
    for (const at of ['11:57', '12:30'])
      expect(due(first.and(touched('coat-1', 'not-yet', at))).map(([kind]) => kind)).not.toContain('recoat-open');
  });
});
