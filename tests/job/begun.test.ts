import { describe, expect, test } from 'vitest';
import { done } from '../../src/job/decide.ts';
import type { Refusal } from '../../src/words/refusal.ts';
import { did, given, poured, started, t, told, touched } from '../support/given.ts';

const bare = { step: null, note: null, early: false, begun: null };
const first = given(started(), did('seal', '08:30'), did('coat-1', '09:00'));
const times = (refusal: Refusal) => refusal.message.flatMap((span) => (span.as === 'time' ? [span.at] : []));

test('hands that a window closed over were in time, once somebody says so', () => {
  const late = (begun: string | null, at = '12:15') =>
    first.when((job) => done(job, { ...bare, note: 'thin', begun: begun === null ? null : t(begun) }, told('12:15', { at })));
  const [, , way] = late(null).refuses('window-missed').ways;
  expect(way).toMatchObject({ label: 'Done, begun in time', command: 'done' });
  expect(way?.options).toEqual({ job: 'lion', step: 'coat-2', begun: new Date(t('12:00')).toISOString(), note: 'thin' });
  expect(late(null, '12:10').refuses('window-missed').ways[2]?.options).toMatchObject({
    at: new Date(t('12:10')).toISOString(),
  });
  expect(
    late('12:00')
      .yields({ type: 'StepDone', at: t('12:15') })
      .job.notes.map((each) => each.text),
  ).toEqual(['coat-2: thin; begun before its window closed']);
  // Said, and not in time: no button asks again.
  expect(late('12:01').refuses('window-missed').ways).toHaveLength(2);
  // A coat of 15 minutes that was begun by 12:00 is done by 12:45 at the latest: it may take half an hour more.
  expect(first.when((job) => done(job, bare, told('12:45'))).refuses('window-missed').ways).toHaveLength(3);
  expect(first.when((job) => done(job, bare, told('12:46'))).refuses('window-missed').ways).toHaveLength(2);
  expect(times(late('12:16').refuses('out-of-order'))).toEqual([t('12:15'), t('12:16')]);
  expect(times(late('08:59').refuses('out-of-order'))).toEqual([t('08:59'), t('09:00')]);
  first.when((job) => done(job, { ...bare, begun: t('11:00') }, told('11:30'))).yields({ type: 'StepDone', note: null });
});

test('what was begun in time is not said to be done hours later, unless somebody says when', () => {
  const done12 = (now: string, more: { at?: string } = {}) =>
    first.when((job) => done(job, { ...bare, begun: t('12:00') }, told(now, more)));
  // Twice 15 minutes, or half an hour more.
  done12('12:45').yields({ type: 'StepDone', at: t('12:45') });
  const refusal = done12('12:46').refuses('begun-long-ago');
  expect(refusal.ways[0]).toMatchObject({ label: 'It was done 31 min ago', options: { at: new Date(t('12:15')).toISOString() } });
  expect(refusal.example).toBe('/done job:lion step:coat-2 begun:46m ago at:31m ago');
  // Whoever says that it is done just now knows it.
  const said = { ...bare, begun: t('12:00'), whenTold: true };
  first.when((job) => done(job, said, told('12:46'))).yields({ type: 'StepDone', at: t('12:46') });
  done12('15:00', { at: '12:50' }).yields({ type: 'StepDone', at: t('12:50') });
});

test('nothing is begun before its window opens', () => {
  const begun = (at: string, early = false) => first.when((job) => done(job, { ...bare, early, begun: t(at) }, told('10:00')));
  expect(times(begun('09:30').refuses('too-soon'))).toEqual([t('09:45'), t('09:30')]);
  begun('09:30', true).yields({ type: 'StepDone', offPlan: 'early' });
  begun('09:45').yields({ type: 'StepDone', offPlan: null });
});

describe('a cup that was poured in time', () => {
  const inHand = first.and(poured('c1', 'coat-2', '11:59'));
  test('is the beginning: it was done before the cup set', () => {
    const [, , way] = inHand.when((job) => done(job, bare, told('13:30'))).refuses('window-missed').ways;
    expect(way).toMatchObject({ label: 'Done, begun in time', options: { begun: new Date(t('11:59')).toISOString() } });
    const at = Date.parse(way?.options['at'] ?? '');
    expect(at).toBeGreaterThan(t('12:00'));
    const options = { ...bare, begun: Date.parse(way?.options['begun'] ?? '') };
    inHand.when((job) => done(job, options, { ...told('13:30'), at })).yields({ type: 'StepDone', at });
  });
  test('whenever that is said', () => {
    const at = (now: string) => inHand.when((job) => done(job, bare, told(now))).refuses('window-missed').ways[2]?.options['at'];
    expect(at('12:35')).toBe(at('14:00'));
  });
  test('poured after the end, it is none', () =>
    expect(
      first
        .and(poured('c1', 'coat-2', '12:01'))
        .when((job) => done(job, bare, told('13:30')))
        .refuses('window-missed').ways,
    ).toHaveLength(2));
});

test('what a finger found past was not begun in time', () =>
  expect(
    first
      .and(touched('coat-1', 'past', '11:55'))
      .when((job) => done(job, bare, told('12:05')))
      .refuses('window-missed').ways,
  ).toHaveLength(2));
