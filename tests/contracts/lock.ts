import { describe, expect, it } from 'vitest';
import type { Lock } from '../../src/bench/ports.ts';

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));

export function lockContract(name: string, make: () => Lock): void {
  describe(`Lock: ${name}`, () => {
    it('runs the works of one key one at a time, in the order asked for', async () => {
      const lock = make();
      const log: string[] = [];
      const work = (label: string, ms: number) =>
        lock.run('key', async () => {
          log.push(`${label} begins`);
          await pause(ms);
          log.push(`${label} ends`);
        });
      await Promise.all([work('a', 15), work('b', 5), work('c', 0)]);
      expect(log).toEqual(['a begins', 'a ends', 'b begins', 'b ends', 'c begins', 'c ends']);
    });

    it('does not let one key wait for another', async () => {
      const lock = make();
      let release = () => {};
      const held = lock.run('one', () => new Promise<void>((resolve) => (release = resolve)));
      await expect(lock.run('two', async () => 'done')).resolves.toBe('done');
      release();
      await held;
    });

    it('gives each caller its own result or error, and lets the next one in', async () => {
      const lock = make();
      const failing = lock.run('key', async () => Promise.reject(new Error('mine')));
      const throwing = lock.run('key', () => {
        throw new Error('at once');
      });
      const next = lock.run('key', async () => 7);
      await expect(failing).rejects.toThrow('mine');
      await expect(throwing).rejects.toThrow('at once');
      await expect(next).resolves.toBe(7);
    });
  });
}
