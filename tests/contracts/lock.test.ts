import { expect, it } from 'vitest';
import { MemoryLock } from '../../src/bench/lock.ts';
import { lockContract } from './lock.ts';

lockContract('MemoryLock', () => new MemoryLock());

it('MemoryLock keeps no key that is not in use', async () => {
  const lock = new MemoryLock();
  const works = Array.from({ length: 100 }, (_, index) =>
    lock.run(`key ${index % 10}`, async () => {
      if (index % 3 === 0) throw new Error('no matter');
    }),
  );
  expect(lock.busy).toBe(10);
  await Promise.allSettled(works);
  expect(lock.busy).toBe(0);
});
