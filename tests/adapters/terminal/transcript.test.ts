import { beforeEach, expect, it } from 'vitest';
import { Transcript } from '../../../src/adapters/terminal/transcript.ts';

let map: Map<string, string>;
/** A transcript over the same store, as after a restart. */
const again = () =>
  new Transcript({
    read: (key) => map.get(key),
    update: (key, change) => {
      const text = change(map.get(key));
      if (text !== null) map.set(key, text);
    },
  });
const way = (label: string, job: string) => ({ label, command: 'done', options: { job } });

beforeEach(() => {
  map = new Map();
});

it('finds the newest message with a label, whatever its case, also after a restart', () => {
  const before = again();
  before.remember('bench', { buttons: [way('Coat done', 'one'), way('Undo', 'one')] });
  before.remember('bench', { buttons: [way('Coat done', 'two')] });
  before.remember('bench-2', { buttons: [way('Coat done', 'three')] });
  expect(again().button('bench', ' coat  DONE')?.options).toEqual({ job: 'two' });
  expect(again().button('bench', 'undo')?.options).toEqual({ job: 'one' });
  expect(again().button('bench', 'Take over')).toBeUndefined();
  expect(again().labels('bench')).toEqual([['Coat done'], ['Coat done', 'Undo']]);
});

it('knows which pings were shown, each in its own channel', () => {
  again().remember('bench', { buttons: [], ping: 'p1' });
  expect(again().remember('bench', { buttons: [], ping: 'p1' })).toBe(false);
  expect(again().remember('bench', { buttons: [], ping: 'p2' })).toBe(true);
  expect(again().remember('bench-2', { buttons: [], ping: 'p1' })).toBe(true);
});

it('forgets the oldest', () => {
  const transcript = again();
  for (let n = 0; n < 450; n += 1) transcript.remember('bench', { buttons: [way(`B${n}`, 'x')], ping: `p${n}` });
  expect(transcript.labels('bench')).toHaveLength(40);
  expect(transcript.button('bench', 'B449')).toBeDefined();
  expect(transcript.button('bench', 'B409')).toBeUndefined();
  expect(transcript.remember('bench', { buttons: [], ping: 'p50' })).toBe(false);
  expect(transcript.remember('bench', { buttons: [], ping: 'p49' })).toBe(true);
});
