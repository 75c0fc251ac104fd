import { expect } from 'vitest';
import type { Bench } from '../../src/bench/bench.ts';
import { UNDOABLE } from '../../src/bench/events.ts';
import { fold, type NumberedEvent } from '../../src/bench/fold.ts';

/** What stands in memory is what the disk leads to, and each undo leads back to where it was before. */
export async function historyHolds(bench: Bench, log: NumberedEvent[]): Promise<void> {
  expect(await bench.log()).toEqual(log);
  expect(await bench.state()).toEqual(fold(log));
  const gone = new Set(log.flatMap((event) => (event.type === 'Undone' ? [event.target] : [])));
  for (const [index, event] of log.entries()) {
    if (!UNDOABLE.has(event.type) || gone.has(event.seq)) continue;
    const stamp = { version: 1 as const, at: event.at, enteredAt: event.enteredAt, by: 'dana' };
    const before = log.slice(0, index);
    const undone = { ...stamp, type: 'Undone' as const, target: event.seq, seq: event.seq + 1 };
    const { toldAt: _, ...state } = fold([...before, event, undone]);
    expect(state).toEqual({ ...fold(before), toldAt: undefined });
  }
}
