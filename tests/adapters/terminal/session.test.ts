import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { SystemClock } from '../../../src/adapters/system-clock/clock.ts';
import { room, START } from '../../support/room.ts';

const codes = (messages: { data: Readonly<Record<string, unknown>> }[]) =>
  messages.map(({ data }) => (data['refusal'] as { code: string } | undefined)?.code);
const pings = (messages: { kind: string; at: string; data: Readonly<Record<string, unknown>> }[]) =>
  messages.filter(({ kind }) => kind === 'ping').map(({ at, data }) => `${at} ${(data['ping'] as { kind: string }).kind}`);

it('takes a job through its first coats, each ping at its own time', async () => {
  const { type, troubles, close } = await room();
  const [started] = await type('; a new job', '', '@dana', START);
  expect(started).toMatchObject({ at: '2026-03-02T08:00:00+01:00', channel: 'bench', kind: 'reply' });
  expect(started?.buttons.map(({ label }) => label)).toContain('Step done');
  await type('[Step done]');
  expect(pings(await type('+20m'))).toEqual(['2026-03-02T08:15:00+01:00 step-due']);
  const [coat] = await type('[coat done]');
  expect(coat).toMatchObject({ at: '2026-03-02T08:20:00+01:00', kind: 'reply' });
  expect(pings(await type('+until 12:30'))).toEqual([
    '2026-03-02T09:05:00+01:00 recoat-open',
    '2026-03-02T11:50:00+01:00 recoat-closing',
    '2026-03-02T12:20:00+01:00 recoat-missed',
  ]);
  expect(troubles).toEqual([]);
  await close();
});

it('keeps the channels apart', async () => {
  const { type, close } = await room();
  await type(START);
  const elsewhere = await type('#bench-2', '[Step done]', '/board');
  expect(codes(elsewhere)[0]).toBe('no-such-button');
  expect(elsewhere.map(({ channel }) => channel)).toEqual(['bench-2', 'bench-2']);
  const pinged = await type('#bench', '[Step done]', '#bench-2', '+20m');
  expect(pinged.map(({ channel, kind }) => [channel, kind])).toEqual([
    ['bench', 'reply'],
    ['bench', 'ping'],
  ]);
  await close();
});

it('says at once what a late entry has made due', async () => {
  const { type, close } = await room();
  await type(START, '[Step done]', '+4h');
  const told = await type('/done at:08:20');
  expect(told[0]?.kind).toBe('reply');
  expect(told.slice(1).every(({ kind, at }) => kind === 'ping' && at === '2026-03-02T12:00:00+01:00')).toBe(true);
  expect(told.length).toBeGreaterThan(1);
  await close();
});

it('lets somebody else say one thing and go on', async () => {
  const { type, session, close } = await room();
  const [reply] = await type('@kim /job start name:Frieze skin:brush-urethane shell:shell-paste casting:casting-plaster');
  expect(reply?.data['job']).toMatchObject({ holder: 'kim' });
  expect(session.who).toBe('kim');
  await close();
});

it.each([
  ['job list', 'not-a-command', '/job list'],
  ['hello there', 'not-a-command', '/help'],
  ['@dana hello', 'not-a-command', '/help'],
  ['+soon', 'not-a-span', '+40m'],
  ['+99999d', 'not-a-span', '+40m'],
  ['+until noon', 'not-a-wall-clock', '+until 07:30'],
  ['[Coat dun]', 'no-such-button', ''],
])('refuses %j and names what would do', async (line, code, example) => {
  const { type, close } = await room();
  const said = await type(line);
  expect(codes(said)).toEqual([code]);
  expect(said[0]?.text).toContain(example);
  await close();
});

it('offers the nearest button', async () => {
  const { type, close } = await room();
  await type(START);
  expect((await type('[Stap done]'))[0]?.text).toContain('Did you mean [Step done]?');
  await close();
});

it('does not move a real clock', async () => {
  const { type, close } = await room({ clock: new SystemClock() });
  expect(codes(await type('+40m'))).toEqual(['clock-is-real']);
  await close();
});

it('shows a ping only once, and its buttons work, after a kill between the message and its record', async () => {
  const dataDir = mkdtempSync(join(tmpdir(), 'coatbell-session.'));
  try {
    const first = await room({ dataDir });
    await first.type(START, '[Step done]');
    // What a kill right after the message leaves behind: shown and remembered, but not recorded by the bench.
    const buttons = [{ label: 'Coat done', command: 'done', options: { job: 'lion-head' } }];
    first.transcript.show({ channel: 'bench', buttons, ping: 'lion-head/coat-1/step-due/2' }, () => {});
    await first.close();
    const second = await room({ dataDir });
    expect(await second.type('+20m')).toEqual([]);
    expect((await second.type('[Coat done]'))[0]?.kind).toBe('reply');
    await second.close();
  } finally {
    rmSync(dataDir, { recursive: true, force: true });
  }
});

it('goes on after a command that breaks, and says so', async () => {
  const { type, house, troubles, close } = await room();
  const { bench } = house;
  house.bench = () => {
    throw new Error('a wire came loose');
  };
  expect(codes(await type('/board'))).toEqual(['internal']);
  expect(String(troubles[0])).toContain('a wire came loose');
  house.bench = bench;
  expect((await type('/board'))[0]?.kind).toBe('reply');
  await close();
});
