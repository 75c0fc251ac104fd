import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, it } from 'vitest';

const start = fileURLToPath(new URL('../../src/main/start.mjs', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'coatbell-program.'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Ended {
  code: number | null;
  out: string;
  err: string;
}

/** Runs the real program as a person does, and types `lines` into its pipe. */
const coatbell = (args: string[], lines: string[] = []) =>
  new Promise<Ended>((resolve) => {
    const child = spawn(process.execPath, [start, ...args], { env: { ...process.env, DISCORD_TOKEN: '' } });
    let [out, err] = ['', ''];
    child.stdout.on('data', (chunk) => {
      out += chunk;
    });
    child.stderr.on('data', (chunk) => {
      err += chunk;
    });
    child.on('close', (code) => resolve({ code, out, err }));
    child.stdin.on('error', () => {}); // It may end before it has read anything.
    child.stdin.end(lines.map((line) => `${line}\n`).join(''));
  });

const standing = (data: string) => ['--at', '2026-03-02T08:00', '--zone', 'Europe/Berlin', '--data', join(folder, data)];
const START = '/job start name:Lion head skin:brush-urethane shell:shell-paste casting:casting-plaster area:0.4 m2';

it('answers a pipe with one object a line, ends with 0, and remembers', async () => {
  const first = await coatbell(['chat', '--json', ...standing('a')], [START, '[Step done]', 'nonsense', '+20m']);
  expect(first).toMatchObject({ code: 0, err: '' });
  const kinds = first.out
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line).kind);
  expect(kinds).toEqual(['reply', 'reply', 'refusal', 'ping']);
  const second = await coatbell(['--json', ...standing('a')], ['[Coat done]', '/board']);
  expect(second.code).toBe(0);
  expect(second.out).toContain('lion-head');
});

it('sends what fell due meanwhile once, late, when it is started again', async () => {
  await coatbell(['chat', '--json', ...standing('late')], [START, '[Step done]']);
  const later = ['chat', '--json', ...standing('late').with(1, '2026-03-02T10:00')];
  const [ping] = (await coatbell(later)).out.trim().split('\n');
  expect(JSON.parse(ping ?? '')).toMatchObject({ kind: 'ping', data: { ping: { kind: 'step-due', late: true } } });
  expect((await coatbell(later)).out).toBe('');
});

it('speaks to people where no objects are asked for, on the real clock', async () => {
  const { code, out } = await coatbell(['--data', join(folder, 'real')], ['/board']);
  expect(code).toBe(0);
  expect(out).toMatch(/^Board at /);
});

it.each([
  [['chat', '--jsn'], '--jsn'],
  [['--at', 'tomorrow'], '--at 2026-03-02T08:00'],
  [['--zone', 'Berln'], 'Europe/Berlin'],
  [['chek'], 'check'],
  [['check', '--config', ''], '--config takes a folder'],
  [['--data', ''], '--data takes a folder'],
  [['--data', 'a', '--data', 'b'], '--data is given twice'],
  [['demo', '--json'], '--json'],
])('%j is no way to call it', async (args, hint) => {
  const { code, out, err } = await coatbell(args);
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(err).toContain(hint);
});

it('checks the configuration', async () => {
  const right = await coatbell(['check']);
  expect(right.code).toBe(0);
  expect(right.out).toMatch(/^materials\.yaml, recipes\.yaml and studio\.yaml are in order: \d+ materials, \d+ recipes\n/);
  expect(right.out).toMatch(
    /\nmaterials\.yaml: shipped, \d+ materials\nrecipes\.yaml: shipped, \d+ recipes\nstudio\.yaml: shipped\n$/,
  );
  writeFileSync(join(folder, 'studio.yaml'), 'studio: { zone: Nowhere/At-All, grace: soon }\n');
  const wrong = await coatbell(['check', '--config', folder]);
  expect(wrong.code).toBe(1);
  expect(wrong.err.trim().split('\n')).toHaveLength(2);
  expect((await coatbell(['chat', '--config', folder, '--data', join(folder, 'none')])).code).toBe(1);
});

it('names a data folder that it cannot use', async () => {
  const file = join(folder, 'studio-notes.txt');
  writeFileSync(file, 'not a folder');
  const { code, err } = await coatbell(['chat', '--data', file]);
  expect(code).toBe(1);
  expect(err).toContain(`${file}: cannot be used as the data folder`);
});

it.each(['/dev/null', '/dev/null/x', '/proc/nope/x', '/proc'])('a data folder at %s is a problem, not a crash', async (data) => {
  const { code, err } = await coatbell(['chat', '--data', data]);
  expect(code).toBe(1);
  expect(err).toContain(`${data}: cannot be used as the data folder`);
});

it('refuses a time that the clocks leave out, and takes the first of two', async () => {
  const at = (time: string, data: string) => coatbell(['chat', '--json', ...standing(data).with(1, time)], ['/board']);
  const none = await at('2026-03-29T02:30', 'gap');
  expect({ code: none.code, out: none.out }).toEqual({ code: 2, out: '' });
  expect(none.err).toMatch(/does not exist in Europe\/Berlin: the clocks go from 01:59 on to 03:00/);
  const twice = await at('2026-10-25T02:30', 'double');
  expect(twice.code).toBe(0);
  expect(twice.err).toMatch(/^2026-10-25T02:30 comes twice in Europe\/Berlin.*the first is taken/);
  expect((await at('2026-10-25T02:30+01:00', 'offset')).err).toBe('');
});

it('plays the demo to its end, with every line of it understood', async () => {
  const { code, out, err } = await coatbell(['demo']);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toContain('🔔');
  expect(out).not.toMatch(/Something broke|There is no button|no such command|begins with a slash|has no option/);
});
