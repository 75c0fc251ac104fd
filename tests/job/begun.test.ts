import { expect, test } from 'vitest';
import { done } from '../../src/job/decide.ts';
import type { Refusal } from '../../src/words/refusal.ts';
import { did, given, started, t, told } from '../support/given.ts';

const bare = { step: null, note: null, early: false, begun: null };
const first = given(started(), did('seal', '08:30'), did('coat-1', '09:00'));
const times = (refusal: Refusal) => refusal.message.flatMap((span) => (span.as === 'time' ? [span.at] : []));

test('hands that a window closed over were in time, once somebody says so', () => {
  const late = (begun: string | null, at = '12:15') =>
    first.when((job) => done(job, { ...bare, note: 'thin', begun: begun === null ? null : t(begun) }, told('12:15', { at })));
  const [, , way] = late(null).refuses('window-missed').ways;
  expect(way).toMatchObject({ label: 'Begun in time', command: 'done' });
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
  // A coat of 15 minutes that was done at 12:16 was not begun by 12:00.
  expect(first.when((job) => done(job, bare, told('12:16'))).refuses('window-missed').ways).toHaveLength(2);
  expect(times(late('12:16').refuses('out-of-order'))).toEqual([t('12:15'), t('12:16')]);
  expect(times(late('08:59').refuses('out-of-order'))).toEqual([t('08:59'), t('09:00')]);
  first.when((job) => done(job, { ...bare, begun: t('11:00') }, told('11:30'))).yields({ type: 'StepDone', note: null });
});
