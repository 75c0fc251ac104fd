import { describe, expect, it } from 'vitest';
import type { Clock } from '../../src/bench/ports.ts';

export interface ClockHarness {
  readonly clock: Clock;
  /** Lets at least this much of the clock's time go by, and all rings that are due by then come to their end. */
  pass(ms: number): Promise<void>;
}

export function clockContract(name: string, make: () => ClockHarness): void {
  describe(`Clock: ${name}`, () => {
    it('goes on', async () => {
      const { clock, pass } = make();
      const before = clock.now();
      await pass(20);
      expect(clock.now()).toBeGreaterThanOrEqual(before + 20);
    });

    it('rings once, when it shows the time or later', async () => {
      const { clock, pass } = make();
      const rung: number[] = [];
      const at = clock.now() + 30;
      clock.wakeAt(at, async () => void rung.push(clock.now()));
      expect(rung).toEqual([]);
      await pass(60);
      await pass(30);
      expect(rung).toHaveLength(1);
      expect(rung[0]).toBeGreaterThanOrEqual(at);
    });

    it('rings soon for a time that is over, but not before `wakeAt` has returned', async () => {
      const { clock, pass } = make();
      let rung = 0;
      clock.wakeAt(clock.now() - 1000, async () => void rung++);
      expect(rung).toBe(0);
      await pass(10);
      expect(rung).toBe(1);
    });

    it('rings in the order of the times', async () => {
      const { clock, pass } = make();
      const rung: string[] = [];
      const now = clock.now();
      clock.wakeAt(now + 50, async () => void rung.push('second'));
      clock.wakeAt(now + 20, async () => void rung.push('first'));
      await pass(80);
      expect(rung).toEqual(['first', 'second']);
    });

    it('does not ring when called off; calling off late or twice does no harm', async () => {
      const { clock, pass } = make();
      const rung: string[] = [];
      const off = clock.wakeAt(clock.now() + 20, async () => void rung.push('off'));
      const kept = clock.wakeAt(clock.now() + 20, async () => void rung.push('kept'));
      off();
      off();
      await pass(50);
      kept();
      await pass(10);
      expect(rung).toEqual(['kept']);
    });

    it('takes a new ring while it rings', async () => {
      const { clock, pass } = make();
      let rung = 0;
      clock.wakeAt(clock.now() + 10, async () => {
        clock.wakeAt(clock.now() + 10, async () => void rung++);
      });
      await pass(60);
      expect(rung).toBe(1);
    });
  });
}
