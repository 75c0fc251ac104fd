import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, room, START } from '../support/room.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'coatbell-studio.'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const partsOf = (message: MessageObject | undefined) =>
  (message?.data['mix'] as { parts: { part: string; grams: number; scaleReading: number }[] } | undefined)?.parts ?? [];

const given = (name: string, content: string | Uint8Array) => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};

describe('/studio set', () => {
  it('changes what mixes are rounded to, and stays changed', async () => {
    const dataDir = join(folder, 'data');
    const first = await room({ dataDir });
    await first.type('/studio set scale:0,1 g carries:2 kg name:Stillwater Moulds');
    const [mix] = await first.type('/mix material:brush-urethane amount:33,3 g');
    const readings = partsOf(mix).map((part) => part.scaleReading);
    expect(readings).toHaveLength(2);
    expect(readings.every((reading) => Math.abs(reading * 10 - Math.round(reading * 10)) < 1e-9)).toBe(true);
    expect(readings.some((reading) => reading % 1 !== 0)).toBe(true);
    await first.close();
    const second = await room({ dataDir });
    expect((await second.type('/studio show'))[0]?.data['studio']).toMatchObject({
      name: 'Stillwater Moulds',
      scaleStepGrams: 0.1,
      scaleMostGrams: 2000,
    });
    await second.type('/studio set carries:any');
    expect((await second.type('/studio show'))[0]?.data['studio']).toMatchObject({ scaleMostGrams: null, scaleStepGrams: 0.1 });
    await second.close();
  });

  it.each([
    ['/studio set', 'nothing-to-set'],
    ['/studio set scale:5 mL', 'wrong-unit'],
    ['/studio set scale:2 kg', 'bad-setting'],
    ['/studio set carries:1 g', 'bad-setting'],
    ['/studio set snooze:0 min', undefined],
    ['/studio set waste:150 %', undefined],
    [`/studio set name:${'x'.repeat(81)}`, 'bad-setting'],
  ])('refuses %s', async (line, expected) => {
    const { type, close } = await room();
    const [before] = await type('/studio show');
    const [answer] = await type(line);
    expect(answer?.kind).toBe('refusal');
    if (expected) expect(code(answer)).toBe(expected);
    expect((await type('/studio show'))[0]?.data).toEqual(before?.data);
    await close();
  });
});

describe('/studio forget', () => {
  it('asks first, then deletes all benches, rings no more, and leaves nothing in the files', async () => {
    const dataDir = join(folder, 'data');
    const { type, close } = await room({ dataDir });
    await type(START, '[Step done]', '#bench-2', '/job start name:Frieze skin:brush-urethane shell:shell-paste');
    const [asked] = await type('#bench', '/studio forget');
    expect(asked?.data['forget']).toEqual({ jobs: 2, channels: 2, done: false });
    expect((await type('/job list'))[0]?.data['jobs']).toHaveLength(1);
    const [told] = await type('[Forget everything]');
    expect(told?.data['forget']).toEqual({ jobs: 2, channels: 2, done: true });
    expect(await type('+2d')).toEqual([]);
    expect((await type('/job list'))[0]?.data['jobs']).toEqual([]);
    expect(code((await type('[Step done]'))[0])).toBe('no-such-button');
    // A job of the same name is rung for anew, although its pings have the names of those that were forgotten.
    await type(START, '[Step done]');
    expect((await type('+20m')).map(({ kind }) => kind)).toEqual(['ping']);
    await close();
    const again = await room({ dataDir });
    expect((await again.type('/job list'))[0]?.data['jobs']).toHaveLength(1);
    expect((await again.type('#bench-2', '/job list'))[0]?.data['jobs']).toEqual([]);
    await again.close();
  });

  it('does not, if the answer is no', async () => {
    const { type, close } = await room();
    await type(START);
    await type('/studio forget confirm:no');
    expect((await type('/job list'))[0]?.data['jobs']).toHaveLength(1);
    await close();
  });
});

const LIST = `materials:
  - id: river-rubber
    name: A rubber of our own
    family: urethane
    use: [skin]
    parts:
      - { part: A, density: 1.0 }
      - { part: B, density: 1.0 }
    ratio: { weight: { A: 1, B: 2 } }
    reference: { temperature: 23 C, mass: 100 g }
    potLife: 15 min
    recoat: { from: 20 min, until: 2 h }
    demould: 10 h
    source: an invented example
`;

describe('/material load and save', () => {
  it('gives the list as a file that can be changed and loaded again', async () => {
    const dataDir = join(folder, 'data');
    const { type, close } = await room({ dataDir });
    const [saved] = await type('/material save');
    const text = readFileSync(saved?.files[0] ?? '', 'utf8');
    expect(text).toContain('materials:');
    const [loaded] = await type(`/material load file:${given('mine.yaml', LIST)}`);
    expect(loaded?.data['materials']).toEqual([{ id: 'river-rubber' }]);
    const [mix] = await type('/mix material:river-rubber amount:300 g');
    expect(partsOf(mix)).toMatchObject([
      { part: 'A', grams: 100 },
      { part: 'B', grams: 200 },
    ]);
    expect(code((await type('/mix material:brush-urethane amount:300 g'))[0])).toBe('unknown-material');
    const [again] = await type('/material save');
    expect(readFileSync(again?.files[0] ?? '', 'utf8')).toBe(LIST);
    expect(again?.files[0]).not.toBe(saved?.files[0]);
    await type('/material reset');
    expect((await type('/mix material:brush-urethane amount:300 g'))[0]?.kind).toBe('reply');
    await close();
  });

  it.each([
    ['bad.yaml', LIST.replace('potLife: 15 min', 'potLife: soon'), 'bad-materials'],
    ['none.yaml', '', 'bad-materials'],
    ['binary.yaml', new Uint8Array([0xff, 0xfe, 0x00, 0x81]), 'not-text'],
    ['long.yaml', `${LIST}#${'x'.repeat(300_000)}`, 'list-too-large'],
  ])('refuses %s and keeps the list', async (name, content, expected) => {
    const { type, close } = await room();
    const [answer] = await type(`/material load file:${given(name, content)}`);
    expect(code(answer)).toBe(expected);
    if (name === 'bad.yaml') expect(answer?.text).toContain('materials.yaml:11 materials[0].potLife');
    expect((await type('/material show material:brush-urethane'))[0]?.kind).toBe('reply');
    await close();
  });

  it('refuses a path that leads nowhere', async () => {
    const { type, close } = await room();
    expect(code((await type('/material load file:./nowhere.yaml'))[0])).toBe('file-not-read');
    await close();
  });
});

describe('a button that asks for more', () => {
  it('gives the line to type, which then does what it says', async () => {
    const { type, close } = await room();
    await type(START, '/mix material:brush-urethane amount:500 g');
    const [asked] = await type('[Poured wrong]');
    expect(asked?.text).toMatch(/\/fix material:brush-urethane poured:/);
    const line = /(\/fix .*)$/m.exec(asked?.text ?? '')?.[1] ?? '';
    expect((await type(line))[0]?.data).toHaveProperty('correction');
    const [note] = await type('/job show', '[Write a note]').then((shown) => shown.slice(-1));
    expect(note?.text).toMatch(/\/job note job:lion-head text:/);
    await close();
  });
});
