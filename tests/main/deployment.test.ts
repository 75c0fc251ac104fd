import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const read = (path: string) => readFileSync(join(root, path), 'utf8');
const all = (text: string, pattern: RegExp) => [...new Set([...text.matchAll(pattern)].map(([, name]) => name ?? ''))].sort();

const example = read('.env.example');
const service = read('config/coatbell.service');
const container = read('config/Containerfile');
const main = readdirSync(join(root, 'src/main'))
  .filter((name) => name.endsWith('.ts'))
  .map((name) => read(`src/main/${name}`))
  .join('\n');

const documented = all(example, /^#?([A-Z_]+)=/gm);
const used = all(main, /env\['((?:COATBELL|DISCORD)_[A-Z]+)'\]/g);
const OURS = /\b((?:COATBELL|DISCORD)_[A-Z]+)\b/g;

describe('the example of the settings', () => {
  test.each(documented)('%s is read by the program', (name) => {
    expect(used).toContain(name);
  });

  test('names every setting that the program reads', () => {
    expect(documented).toHaveLength(7);
    expect(used.filter((name) => !documented.includes(name))).toEqual([]);
  });

  test('explains each of them, and sets nothing but an empty token', () => {
    for (const name of documented) expect(example).toMatch(new RegExp(`^# .+\\.\\n#?${name}=`, 'm'));
    expect(example.split('\n').filter((line) => line !== '' && !line.startsWith('#'))).toEqual(['DISCORD_TOKEN=']);
  });
});

describe('the ways to run it for good', () => {
  test.each([
    ['service', service],
    ['container', container],
  ])('the %s names no setting that there is not', (_, text) => {
    const set = [...all(text, /^Environment=([A-Z_]+)=/gm), ...all(text, /^(?:ENV|ARG) ([A-Z_]+)/gm), ...all(text, OURS)];
    expect(set).toContain('COATBELL_DATA');
    expect(set.filter((name) => !documented.includes(name))).toEqual([]);
  });

  test('what is secret or private is never sent to the builder of an image', () => {
    const rules = read('.dockerignore')
      .split('\n')
      .filter((line) => line !== '' && !line.startsWith('#'));
    expect(rules[0]).toBe('*');
    expect(rules.slice(1).sort()).toEqual(['!.npmrc', '!commands', '!config', '!package-lock.json', '!package.json', '!src']);
  });

  test.each([
    ['service', /^ExecStart=\/usr\/bin\/env (node .*)$/m, service],
    ['container', /^ENTRYPOINT (\[.*\])$/m, container],
  ])('the %s starts the program as `npm start` does', (_, line, text) => {
    const found = line.exec(text)?.[1] ?? '';
    const [node, start, ...args] = found.startsWith('[') ? (JSON.parse(found) as string[]) : found.split(' ');
    expect([node, start]).toEqual(['node', 'src/main/start.mjs']);
    expect(readFileSync(join(root, 'package.json'), 'utf8')).toContain(`"start": "${node} ${start}"`);
    expect(['', 'serve']).toContain(args.join(' '));
  });

  test('a program that stands where it cannot write starts all the same, once it was made ready', () => {
    expect(spawnSync(process.execPath, ['src/main/start.mjs', 'help'], { cwd: root }).status).toBe(0);
    const before = writtenIn(join(root, '.build'));
    expect(spawnSync(process.execPath, ['src/main/start.mjs', 'check'], { cwd: root }).status).toBe(0);
    expect(writtenIn(join(root, '.build'))).toBe(before);
  });
});

/** The folder's time changes with every file that is made or deleted in it, a lock too. */
const writtenIn = (folder: string) => statSync(folder).mtimeMs;
