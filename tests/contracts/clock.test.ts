import { describe, expect, it } from 'vitest';
import { SystemClock } from '../../src/adapters/system-clock/clock.ts';
import { StandingClock } from '../../src/bench/standing-clock.ts';
import { clockContract } from './clock.ts';

const [SECOND, MINUTE, DAY] = [1000, 60_000, 86_400_000];

clockContract('SystemClock', () => ({
  clock: new SystemClock(),
  pass: (ms) => new Promise((resolve) => setTimeout(resolve, ms + 5)),
}));

clockContract('StandingClock', () => {
  const clock = new StandingClock(1_700_000_000_000);
  return { clock, pass: (ms) => clock.advanceTo(clock.now() + ms) };
});

/** A machine whose wall clock can be `set` while its timers count on, and whose timers stop while it sleeps. */
function machine() {
  let running = 0;
  let offset = 1_700_000_000_000;
  const timers = new Set<{ due: number; work: () => void }>();
  const waits: number[] = [];
  const now = () => running + offset;
  const after = (ms: number, work: () => void) => {
    waits.push(ms);
    const timer = { due: running + ms, work };
    timers.add(timer);
    return () => void timers.delete(timer);
  };
  const run = (ms: number) => {
    const end = running + ms;
    const first = () => [...timers].filter(({ due }) => due <= end).sort((a, b) => a.due - b.due)[0];
    for (let next = first(); next; next = first()) {
      timers.delete(next);
      running = next.due;
      next.work();
    }
    running = end;
  };
  const set = (ms: number) => {
    offset += ms;
  };
  return { clock: new SystemClock({ now, after }), now, run, set, timers, waits };
}

describe('SystemClock on a machine with troubles', () => {
  function ringing(inMs: number) {
    const made = machine();
    const rung: number[] = [];
    const at = made.now() + inMs;
    const off = made.clock.wakeAt(at, async () => void rung.push(made.now() - at));
    return { ...made, rung, off };
  }

  it('waits on when the clock was turned back', () => {
    const { run, set, rung } = ringing(10 * MINUTE);
    run(5 * MINUTE);
    set(-60 * MINUTE);
    run(64 * MINUTE);
    expect(rung).toEqual([]);
    run(MINUTE);
    expect(rung).toEqual([0]);
  });

  it('waits on when the clock was turned back in the last moment', () => {
    const { run, set, rung } = ringing(90 * SECOND);
    run(89 * SECOND);
    set(-10 * SECOND);
    run(10 * SECOND);
    expect(rung).toEqual([]);
    run(SECOND);
    expect(rung).toEqual([0]);
  });

  it('rings within a minute when the clock was turned forward, or the machine slept past the time', () => {
    const { run, set, rung } = ringing(10 * 60 * MINUTE);
    run(5 * MINUTE + SECOND);
    set(12 * 60 * MINUTE);
    expect(rung).toEqual([]);
    run(MINUTE);
    expect(rung).toHaveLength(1);
  });

  it('keeps far-off times, beyond what one timer holds', () => {
    const { run, rung, waits } = ringing(60 * DAY);
    run(60 * DAY - 1);
    expect(rung).toEqual([]);
    run(1);
    expect(rung).toEqual([0]);
    expect(Math.max(...waits.slice(0, 1000))).toBe(MINUTE);
  });

  it('leaves no timer when called off on the way', () => {
    const { run, off, timers, rung } = ringing(10 * MINUTE);
    run(3 * MINUTE);
    off();
    expect(timers.size).toBe(0);
    run(DAY);
    expect(rung).toEqual([]);
  });

  it('hands on the error of a ring that failed', async () => {
    const failed = await new Promise((resolve) => {
      const clock = new SystemClock({ failed: resolve });
      clock.wakeAt(clock.now(), () => Promise.reject(new Error('the ring broke')));
    });
    expect(failed).toEqual(new Error('the ring broke'));
  });
});

describe('StandingClock', () => {
  it('shows each ring its own time, and awaits it before the next', async () => {
    const clock = new StandingClock(100);
    const log: string[] = [];
    const ring = (label: string) => async () => {
      const began = clock.now();
      await new Promise((resolve) => setTimeout(resolve, 5));
      log.push(`${label} ${began} ${clock.now()}`);
    };
    clock.wakeAt(300, async () => {
      await ring('c')();
      clock.wakeAt(350, ring('d'));
      clock.wakeAt(401, ring('too late'));
    });
    clock.wakeAt(200, ring('b'));
    clock.wakeAt(50, ring('a'));
    await clock.advanceTo(400);
    expect(log).toEqual(['a 100 100', 'b 200 200', 'c 300 300', 'd 350 350']);
    expect(clock.now()).toBe(400);
  });

  it('settles without moving', async () => {
    const clock = new StandingClock(100);
    const rung: string[] = [];
    clock.wakeAt(100, async () => void rung.push('due'));
    clock.wakeAt(101, async () => void rung.push('not yet'));
    await clock.settle();
    expect([rung, clock.now()]).toEqual([['due'], 100]);
  });

  it('refuses to go back, and stops at a ring that fails', async () => {
    const clock = new StandingClock(100);
    await expect(clock.advanceTo(99)).rejects.toThrow(RangeError);
    await expect(clock.advanceTo(Number.NaN)).rejects.toThrow(RangeError);
    clock.wakeAt(150, () => Promise.reject(new Error('the ring broke')));
    await expect(clock.advanceTo(200)).rejects.toThrow('the ring broke');
    expect(clock.now()).toBe(150);
  });
});
