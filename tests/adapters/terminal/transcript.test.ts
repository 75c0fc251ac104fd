import { Keyv } from 'keyv';
import { beforeEach, expect, it } from 'vitest';
import { Transcript } from '../../../src/adapters/terminal/transcript.ts';

let map: Map<string, unknown>;
/** A transcript over the same store, as after a restart. */
const again = () => new Transcript(new Keyv({ store: map, throwOnErrors: true }));
const way = (label: string, job: string) => ({ label, command: 'done', options: { job } });

beforeEach(() => {
  map = new Map();
});

it('finds the newest message with a label, whatever its case, also after a restart', async () => {
  const before = again();
  await before.remember('bench', { buttons: [way('Coat done', 'one'), way('Undo', 'one')] });
  await before.remember('bench', { buttons: [way('Coat done', 'two')] });
  await before.remember('bench-2', { buttons: [way('Coat done', 'three')] });
  expect((await again().button('bench', ' coat  DONE'))?.options).toEqual({ job: 'two' });
  expect((await again().button('bench', 'undo'))?.options).toEqual({ job: 'one' });
  expect(await again().button('bench', 'Take over')).toBeUndefined();
  expect(await again().labels('bench')).toEqual([['Coat done'], ['Coat done', 'Undo']]);
});

it('knows which pings were shown, each in its own channel', async () => {
  await again().remember('bench', { buttons: [], ping: 'p1' });
  expect(await again().shown('bench', 'p1')).toBe(true);
  expect(await again().shown('bench', 'p2')).toBe(false);
  expect(await again().shown('bench-2', 'p1')).toBe(false);
});

it('loses nothing when several are remembered at once, and forgets the oldest', async () => {
  const transcript = again();
  const all = Array.from({ length: 450 }, (_, index) => index);
  await Promise.all(all.map((n) => transcript.remember('bench', { buttons: [way(`B${n}`, 'x')], ping: `p${n}` })));
  expect(await transcript.labels('bench')).toHaveLength(40);
  expect(await transcript.button('bench', 'B449')).toBeDefined();
  expect(await transcript.button('bench', 'B409')).toBeUndefined();
  expect(await transcript.shown('bench', 'p50')).toBe(true);
  expect(await transcript.shown('bench', 'p49')).toBe(false);
});

it('rejects when the store does not take it', async () => {
  const keyv = new Keyv({ throwOnErrors: true });
  keyv.set = async () => false;
  await expect(new Transcript(keyv).remember('bench', { buttons: [way('Undo', 'x')] })).rejects.toThrow('not remembered');
});
