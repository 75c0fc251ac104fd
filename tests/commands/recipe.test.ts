import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, example, labels, offered, room, roomEach } from '../support/room.ts';

/** As somebody in gloves would type it. */
const here = roomEach();
const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);

interface Shown {
  id: string;
  name: string;
  version: number;
  own: boolean;
  handsMinutes: number;
  steps: { id: string; title: string; handsMinutes: number; role: string | null; check: string | null }[];
}
const recipeOf = (message: MessageObject | undefined) => message?.data['recipe'] as Shown;
const stepOf = (message: MessageObject | undefined, id: string) => recipeOf(message).steps.find((step) => step.id === id);
const show = async (line = 'recipe:skin-paste') => recipeOf(await last(`/recipe show ${line}`));

describe('a look at recipes', () => {
  it('lists each with its steps, its hands-on time, and whose it is', async () => {
    const list = await last('/recipe list');
    expect(list?.title).toBe('5 recipes');
    // 30 + 4 × 15 + 20 + 15 + 60 + 30 + 15 + 20 min, as recipes.yaml has them.
    expect(list?.text).toContain('skin-paste: Brushed skin, paste shell; 11 steps, 4 h 10 min hands-on; the program’s');
    expect(list?.data).toMatchObject({
      recipes: expect.arrayContaining([expect.objectContaining({ id: 'skin-paste', version: 1, own: false, handsMinutes: 250 })]),
    });
  });

  it('shows a step in a line: hands, material and layer, wait, check', async () => {
    const shown = await last('/recipe show brushed skin, paste shell');
    expect(shown?.title).toBe('Brushed skin, paste shell: 11 steps, 4 h 10 min hands-on');
    expect(shown?.text).toContain(
      '2. First coat (coat-1): 15 min, skin 0.7 x, wait recoat. Check: Tacky, and nothing on the glove; no bubble, no bare spot.',
    );
    expect(shown?.text).toContain('6. Trim the flange (trim): 20 min. Check:');
  });

  it('offers what was meant', async () => {
    expect(recipeOf(await offered(here.type, '/recipe show skin-past', 'unknown-recipe')).id).toBe('skin-paste');
    expect(recipeOf(await offered(here.type, '/recipe show skin-paste version:7', 'unknown-version')).version).toBe(1);
  });
});

describe('a step', () => {
  it('changes in what is given, the old and the new said, as this studio’s own', async () => {
    const changed = await last(
      '/recipe step skin-paste step:2 hands:20 min wait:45 min - 2,5 h check:tacky, no smear: no bubbles',
    );
    expect(changed?.title).toBe('Brushed skin, paste shell: version 2');
    expect(changed?.text).toContain('First coat: hands 15 min → 20 min, wait recoat → 45 min to 2 h 30 min, check “Tacky,');
    expect(changed?.text).toContain('→ “tacky, no smear: no bubbles”');
    expect(changed?.text).toContain('This is the studio’s own version from now on; the program’s stays version 1.');
    expect(changed?.text).toContain('no longer by its material’s data sheet, and no cold slows it.');
    const shown = await show();
    expect(shown).toMatchObject({ id: 'skin-paste', version: 2, own: true, handsMinutes: 255 });
    expect(shown.steps[1]).toMatchObject({ handsMinutes: 20, role: 'skin', check: 'tacky, no smear: no bubbles' });
    expect(shown.steps[2]).toMatchObject({ id: 'coat-2', handsMinutes: 15 });
  });

  it('is found by its id, its number or its title, and a slip is answered with the nearest', async () => {
    for (const [step, hands] of [
      ['coat-1', '16 min'],
      ['2', '17 min'],
      ['#2', '18 min'],
      ['first COAT', '19 min'],
    ] as const)
      expect(stepOf(await last(`/recipe step skin-paste step:${step} hands:${hands}`), 'coat-1')?.handsMinutes).toBe(
        Number.parseInt(hands, 10),
      );
    expect(
      stepOf(await offered(here.type, '/recipe step skin-paste step:frist coat hands:25 min', 'unknown-step'), 'coat-1'),
    ).toMatchObject({ handsMinutes: 25 });
    expect(code(await last('/recipe step skin-paste step:12 hands:25 min'))).toBe('unknown-step');
    for (const [step, id] of [
      ['last coat', 'coat-4'],
      ['the 3rd coat', 'coat-3'],
      ['second skin coat', 'coat-2'],
      ['last step', 'cast'],
    ] as const)
      expect(stepOf(await last(`/recipe step skin-paste step:${step} hands:${id.length + 20} min`), id)?.handsMinutes).toBe(
        id.length + 20,
      );
    const beyond = await offered(here.type, '/recipe step skin-paste step:7th coat hands:31 min', 'unknown-step');
    expect(stepOf(beyond, 'coat-4')?.handsMinutes).toBe(31);
  });

  it('goes back with one press, but not over what somebody has changed since', async () => {
    await here.type('/recipe step skin-paste step:wax hands:20 min');
    const back = await last('[Change it back]');
    expect(back?.title).toBe('Brushed skin, paste shell: version 3, as version 1 was');
    expect(back?.text).toContain('Wax the skin: hands 20 min → 15 min');
    await here.type(
      '/recipe step skin-paste step:wax hands:25 min',
      '@kim',
      '/recipe step skin-paste step:trim hands:5 min',
      '@you',
    );
    const refused = await last('/recipe back recipe:skin-paste to:3 version:4');
    expect(code(refused)).toBe('recipe-changed');
    expect(refused?.text).toContain('Brushed skin, paste shell is at version 5 now, by @kim; this was meant for version 4.');
    expect((await show()).steps.find(({ id }) => id === 'trim')?.handsMinutes).toBe(5);
  });

  it.each([
    ['step:trim', 'nothing-to-set', 'hands, wait, thickness, role, title, check or advice'],
    ['step:trim hands:20 min', 'nothing-to-change', 'is like that already'],
    ['step:trim hands:22', 'unit-missing', 'Which unit?'],
    ['step:coat-1 hands:30 h', 'bad-recipe', 'at most 24 h of hands-on time, got 1 d 6 h'],
    ['step:trim wait:recoat', 'bad-recipe', 'a wait for recoat takes its time from that role'],
    ['step:trim wait:4 h to 15 min', 'wait-backwards', 'the longer time second'],
    ['step:trim wait:overnight', 'wait-unreadable', 'recoat, cure, none'],
    ['step:coat-1 role:none', 'bad-recipe', 'a coat uses up a material'],
    ['step:coat-1 thickness:none', 'bad-recipe', 'a coat adds a layer'],
    ['step:coat-1 thickness:50 mm', 'bad-recipe', 'a coat of at most 20 mm, got 50 mm'],
    ['step:coat-1 check:', 'option-empty', 'check has no value'],
    ['step:coat-1 advice:', 'option-empty', 'advice has no value'],
    ['step:coat-1 hands:', 'option-empty', 'hands has no value'],
    ['step:coat-1 wait:', 'option-empty', 'wait has no value'],
    ['step:coat-1 thickness:', 'option-empty', 'thickness has no value'],
    ['step:coat-1 title:', 'option-empty', 'title has no value'],
    ['step:coat-1 wait:45 min…4', 'wait-backwards', 'the longer time second'],
    ['step:coat-1 thickness:block 12 mm', 'bad-recipe', 'a step of the kind shell'],
    ['step:coat-1 thickness:0,8', 'unit-missing', '0,8 mm, or 0,8 times the usual coat'],
    ['step:trim thickness:1 mm', 'layer-of-nothing', 'the role whose material it takes'],
    ['step:trim title:!!', 'name-missing', 'a name with letters or digits'],
    [`step:trim title:${'trim it '.repeat(10)}`, 'too-long', 'at most 60 characters'],
    [`step:trim check:${'look '.repeat(50)}`, 'too-long', 'at most 200 characters'],
    ['step:trim hands:22 min version:3', 'recipe-changed', 'is at version 1 now; this was meant for version 3'],
  ])('is refused with %s, and nothing changes', async (options, expected, words) => {
    const before = await show();
    const refused = await last(`/recipe step recipe:skin-paste ${options}`);
    expect(code(refused)).toBe(expected);
    expect(refused?.text).toContain(words);
    expect(await show()).toEqual(before);
    const answer = await last(example(refused));
    expect(answer?.kind, `${example(refused)}: ${answer?.text}`).toBe('reply');
  });

  it('loses its check and its advice with none', async () => {
    const changed = await last('/recipe step skin-paste step:trim check:none advice:none');
    expect(changed?.text).toMatch(/check “The flange is even, .*” → none, advice “Cut the flange even; .*” → none/);
    expect(stepOf(changed, 'trim')).toMatchObject({ check: null, advice: null });
  });
});

describe('the order of coats', () => {
  const ADD = '/recipe add skin-paste title:Fifth coat kind:coat hands:15 min after:';
  const waits = (message: MessageObject | undefined) =>
    (recipeOf(message).steps as (Shown['steps'][number] & { wait: { kind: string } })[]).flatMap(({ id, wait }) =>
      /^coat-[34]|^fifth/.test(id) ? [`${id} ${wait.kind}`] : [],
    );

  it('a coat after the last one waits as that one did, which waits for recoat, and the card says so', async () => {
    const added = await last(`${ADD}last coat`);
    expect(waits(added)).toEqual(['coat-3 recoat', 'coat-4 recoat', 'fifth-coat cure']);
    expect(added?.text).toContain('Fifth coat is the last coat now and waits as Fourth coat did: cure.');
    expect(added?.text).not.toContain('Should it');
  });
  it('a coat between others leaves them as they are', async () => {
    const added = await last(`${ADD}coat-3`);
    expect(waits(added)).toEqual(['coat-3 recoat', 'fifth-coat recoat', 'coat-4 cure']);
    expect(added?.text).not.toMatch(/last coat now|Should it/);
  });
  it('points out a cure before a coat, and a recoat before what is no coat, once', async () => {
    const added = await last(`${ADD}coat-4 wait:cure`);
    expect(added?.text).toContain('Fourth coat waits to cure, and Fifth coat follows: a coat bonds to a tacky one.');
    expect((await last('/recipe step skin-paste step:wax hands:25 min'))?.text).not.toContain('Should it');
    const removed = await last('/recipe remove skin-paste step:fifth-coat', '/recipe remove skin-paste step:coat-4');
    expect(removed?.text).toContain('Third coat waits for recoat, and Trim the flange follows, which is no coat');
    const moved = await last('/recipe back skin-paste to:1', '/recipe move skin-paste step:coat-4 after:coat-1');
    expect(moved?.text).toContain('Fourth coat waits to cure, and Second coat follows');
    expect(moved?.text).toContain('And 1 more like it.');
  });
});

describe('a job', () => {
  const START = '/job start name:Lion head skin:brush-urethane shell:shell-paste area:0.4 m2 recipe:';

  it('keeps the steps it began with, says which version they are, and asks for their checks', async () => {
    const dataDir = mkdtempSync(join(tmpdir(), 'coatbell-recipe.'));
    const first = await room({ dataDir });
    const [, started] = await first.type('/recipe step skin-paste step:coat-1 check:no smear on the glove', `${START}skin-paste`);
    expect(started?.text).toContain('Brushed skin, paste shell, version 2: 11 steps');
    expect(started?.data['job']).toMatchObject({ recipe: 'skin-paste', recipeVersion: 2 });
    const before = (await first.type('/job show'))[0];
    expect(before?.text).toContain('By the recipe Brushed skin, paste shell, version 2.');
    await first.type(
      '/recipe step skin-paste step:coat-2 hands:40 min title:Another coat check:quite another thing',
      '/recipe remove skin-paste step:coat-1',
      '/recipe drop skin-paste',
    );
    expect((await first.type('/job show'))[0]).toEqual(before);
    await first.close();
    // After a restart, too; and the check comes when it matters: with the coat that is next, and when its window opens.
    const second = await room({ dataDir, at: null });
    const messages = await second.type('[Step done]', '+20m', '/done', '+46m');
    expect(messages.at(-2)?.text).toContain('Check first: no smear on the glove');
    expect(messages.at(-1)?.title).toBe('Lion head: ready for Second coat');
    expect(messages.at(-1)?.text).toContain('Check first: no smear on the glove');
    // A finger has checked it.
    expect((await second.type('/check result:ready'))[0]?.text).not.toContain('Check first');
    await second.close();
    rmSync(dataDir, { recursive: true });
  });

  it('of a recipe that says nothing of a check is told what every coat must be', async () => {
    await here.type('/recipe step skin-paste step:coat-1 check:none', `${START}skin-paste`, '[Step done]', '+20m', '[Coat done]');
    expect((await last('+46m'))?.text).toContain('it should be tacky and leave nothing on the glove');
  });

  it('of the program’s recipe says nothing of versions', async () => {
    expect((await last(`${START}skin-paste`))?.text).toContain('Brushed skin, paste shell: 11 steps');
    expect((await last('/job show'))?.text).not.toContain('version');
  });

  it('can follow a recipe of the studio’s own', async () => {
    await here.type('/recipe copy skin-paste name:Bust, thin', '/recipe step bust-thin step:coat-4 thickness:0,8mm');
    const started = await last(`${START}Bust, thin`);
    expect(started?.data['job']).toMatchObject({ recipe: 'bust-thin', recipeVersion: 2 });
    expect(labels(started)).toEqual(['Step done']);
  });
});
