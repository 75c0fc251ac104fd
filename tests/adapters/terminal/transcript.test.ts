import { appendFileSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Transcript } from '../../../src/adapters/terminal/transcript.ts';

let folder: string;
let path: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'coatbell-transcript.'));
  path = join(folder, 'shown.jsonl');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const way = (label: string, job: string) => ({ label, command: 'done', options: { job } });
/** Whether a message with this ping is shown. */
const shows = (transcript: Transcript, channel: string, ping: string) => {
  let shown = 0;
  const said = transcript.show({ channel, buttons: [], ping }, () => {
    shown += 1;
  });
  expect(shown).toBe(said ? 1 : 0);
  return said;
};

describe.each([
  ['in a file', () => () => new Transcript(path)],
  [
    'in memory',
    () => {
      const only = new Transcript(null);
      return () => only;
    },
  ],
])('%s', (_, make) => {
  it('finds the newest message with a label, whatever its case', () => {
    const again = make();
    for (const [channel, ways] of [
      ['bench', [way('Coat done', 'one'), way('Undo', 'one')]],
      ['bench', [way('Coat done', 'two')]],
      ['bench-2', [way('Coat done', 'three')]],
    ] as const)
      again().show({ channel, buttons: ways }, () => {});
    expect(again().button('bench', ' coat  DONE')?.options).toEqual({ job: 'two' });
    expect(again().button('bench', 'undo')?.options).toEqual({ job: 'one' });
    expect(again().button('bench', 'Take over')).toBeUndefined();
    expect(again().labels('bench')).toEqual([['Coat done'], ['Coat done', 'Undo']]);
  });

  it('shows a ping once in its channel', () => {
    const again = make();
    expect([shows(again(), 'bench', 'p1'), shows(again(), 'bench', 'p1'), shows(again(), 'bench-2', 'p1')]).toEqual([
      true,
      false,
      true,
    ]);
  });

  it('forgets the oldest', () => {
    const transcript = make()();
    for (let n = 0; n < 450; n += 1) transcript.show({ channel: 'bench', buttons: [way(`B${n}`, 'x')], ping: `p${n}` }, () => {});
    expect(transcript.labels('bench')).toHaveLength(40);
    expect([transcript.button('bench', 'B410'), transcript.button('bench', 'B409')].map(Boolean)).toEqual([true, false]);
    expect([shows(transcript, 'bench', 'p50'), shows(transcript, 'bench', 'p49')]).toEqual([false, true]);
  });
});

it('sees what another program on the same file has shown', () => {
  const [one, other] = [new Transcript(path), new Transcript(path)];
  expect([shows(one, 'bench', 'p1'), shows(other, 'bench', 'p1')]).toEqual([true, false]);
  other.show({ channel: 'bench', buttons: [way('Undo', 'x')] }, () => {});
  expect(one.button('bench', 'Undo')).toBeDefined();
});

it('passes over a torn line', () => {
  shows(new Transcript(path), 'bench', 'p1');
  appendFileSync(path, '{"channel":"ben\n');
  expect([shows(new Transcript(path), 'bench', 'p1'), shows(new Transcript(path), 'bench', 'p2')]).toEqual([false, true]);
});

it('cuts a large file down to what still counts', () => {
  shows(new Transcript(path), 'bench', 'p1');
  const line = `${JSON.stringify({ channel: 'bench', buttons: [way('Old', 'x'.repeat(1000))] })}\n`;
  appendFileSync(path, line.repeat(1100));
  const after = new Transcript(path);
  expect(statSync(path).size).toBeLessThan(100_000);
  expect([shows(after, 'bench', 'p1'), shows(after, 'bench', 'p2')]).toEqual([false, true]);
  expect(after.labels('bench')).toHaveLength(40);
});

it('does not keep what could not be shown', () => {
  const transcript = new Transcript(path);
  expect(() =>
    transcript.show({ channel: 'bench', buttons: [], ping: 'p1' }, () => {
      throw new Error('the pipe is broken');
    }),
  ).toThrow('broken');
  expect(shows(transcript, 'bench', 'p1')).toBe(true);
});
