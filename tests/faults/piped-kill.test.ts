import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, it } from 'vitest';

const start = fileURLToPath(new URL('../../src/main/start.mjs', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'coatbell-kill.'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

type Message = { at: string; kind: string; title: string; text: string; data: { ping?: { id: string; dueAt: string } } };

function chat(data: string, at: string): { child: ChildProcess; messages: Message[]; ended: Promise<void> } {
  const child = spawn(process.execPath, [start, 'chat', '--json', '--at', at, '--zone', 'Europe/Berlin', '--data', data]);
  const messages: Message[] = [];
  const lines = createInterface({ input: child.stdout });
  lines.on('line', (line) => messages.push(JSON.parse(line)));
  child.stdin.on('error', () => {}); // It is killed while it is being typed to.
  return { child, messages, ended: new Promise((resolve) => lines.on('close', resolve)) };
}

const until = async (holds: () => boolean) => {
  while (!holds()) await new Promise((resolve) => setTimeout(resolve, 2));
};

const LINES = [
  '/job start name:Lion head skin:brush-urethane shell:shell-paste area:0.4 m2',
  '[Step done]',
  '+20m',
  '/cup start amount:277 g',
  '+25m',
  '/cup spent',
  '[Coat done]',
  '/job note text:first',
  '+50m',
  '[Coat done]',
  '+5h',
];

/** The pings of an undisturbed run in which only the first `replies` commands were typed, by their ids. */
const undisturbed = new Map<number, Promise<string[]>>();
function pingsAfter(replies: number): Promise<string[]> {
  const known = undisturbed.get(replies);
  if (known) return known;
  let left = replies;
  const typed = LINES.filter((line) => (line.startsWith('+') ? left > 0 : left-- > 0));
  const { child, messages, ended } = chat(join(folder, `whole-${replies}`), '2026-03-02T08:00');
  child.stdin?.end([...typed, '+24h'].join('\n'));
  const ids = ended.then(() => messages.flatMap(({ data }) => data.ping?.id ?? []).sort());
  undisturbed.set(replies, ids);
  return ids;
}

it('has something to lose', async () => expect((await pingsAfter(7)).length).toBeGreaterThanOrEqual(7));

/** After how many messages the process is killed, mid-line: most of these fall into the deliveries of a `+` line. */
it.each([1, 2, 3, 4, 5, 6, 8, 9, 10, 12])(
  'kill -9 after %i messages loses nothing that was answered, and no ping comes twice or never',
  async (count) => {
    const data = join(folder, `killed-${count}`);
    const first = chat(data, '2026-03-02T08:00');
    first.child.stdin?.write(`${LINES.join('\n')}\n`);
    await until(() => first.messages.length >= count);
    first.child.kill('SIGKILL');
    await first.ended;
    const answered = first.messages.filter(({ kind }) => kind === 'reply');
    const at = first.messages.at(-1)?.at.slice(0, 16) ?? '';
    const second = chat(data, at);
    second.child.stdin?.end('/job show\n+24h\n');
    await second.ended;
    const shown = second.messages.find(({ kind }) => kind === 'reply');
    for (const { title } of answered)
      for (const [, step] of title.matchAll(/^Lion head: (.*) done at/g)) expect(shown?.text).toContain(`✓ ${step}`);
    if (answered.some(({ title }) => title.startsWith('Noted'))) expect(shown?.text).toContain('first');
    const ids = [...first.messages, ...second.messages].flatMap(({ data: { ping } }) => ping?.id ?? []);
    expect(new Set(ids).size).toBe(ids.length);
    // The channel's own record holds each ping once. A kill between the record and the pipe, two writes in a row, is the one
    // thing that no order of writes can close: at most the last message of the killed process may be kept and not be seen.
    const record = readFileSync(join(data, 'shown.jsonl'), 'utf8').trim().split('\n');
    const kept = record.map((line) => JSON.parse(line)).flatMap(({ channel, ping }) => (ping ? [`${channel}/${ping}`] : []));
    expect(new Set(kept).size).toBe(kept.length);
    expect(kept).toEqual(expect.arrayContaining(ids));
    expect(kept.length - ids.length).toBeLessThanOrEqual(1);
    // One more command may have been stored without its answer having got out.
    const either = await Promise.all([pingsAfter(answered.length), pingsAfter(answered.length + 1)]);
    expect(either).toContainEqual(kept.sort());
  },
);
