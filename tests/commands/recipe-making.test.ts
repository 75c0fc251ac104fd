import { describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { complete } from '../../src/chat/complete.ts';
import { suppliersFor } from '../../src/desk/suppliers.ts';
import { commands } from '../../src/main/registry.ts';
import { code, labels, offered, roomEach } from '../support/room.ts';

/** Recipes as a whole: steps that come, go and move; copies, names, versions. */
const here = roomEach();
const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);

interface Step {
  id: string;
  role: string | null;
  layer: unknown;
  wait: unknown;
}
interface Shown {
  version: number;
  own: boolean;
  steps: Step[];
}
const recipeOf = (message: MessageObject | undefined) => message?.data['recipe'] as Shown;
const ids = (message: MessageObject | undefined) => recipeOf(message).steps.map(({ id }) => id);
const SHIPPED = 'seal coat-1 coat-2 coat-3 coat-4 trim wax shell demould wash cast'.split(' ');

describe('steps', () => {
  it('come with what is usual of their kind, after the one that is named, or last', async () => {
    const waxed = await last('/recipe add skin-paste title:Second wax kind:finish hands:10 min after:wax wait:10-15 min');
    expect(waxed?.text).toContain('added after Wax the skin: Second wax, 10 min, wait 10 min to 15 min');
    expect(ids(waxed)).toEqual([...SHIPPED.slice(0, 7), 'second-wax', ...SHIPPED.slice(7)]);
    const coated = await last('/recipe add skin-paste title:Fifth coat kind:coat hands:15 min after:third coat');
    expect(recipeOf(coated).steps[4]).toMatchObject({
      id: 'fifth-coat',
      role: 'skin',
      layer: { timesUsualCoat: 1 },
      wait: { kind: 'recoat' },
    });
    const again = await last('/recipe add skin-paste title:Second wax kind:finish hands:10 min');
    expect(ids(again).at(-1)).toBe('second-wax-2');
    expect(ids(await last('/recipe add skin-paste title:Мыть kind:finish hands:5 min after:start'))[0]).toBe('step');
  });

  it.each([
    ['title:Stir kind:prepare hands:5 min after:9th coat', 'unknown-step'],
    ['title:Stir kind:coat hands:5 min role:none', 'bad-recipe'],
    ['title:Stir kind:finish hands:5 min wait:cure', 'bad-recipe'],
    ['title:Stir kind:coat hands:5 min thickness:block 12 mm', 'bad-recipe'],
    ['title:Stir kind:finish hands:5 min thickness:1 mm', 'layer-of-nothing'],
  ])('that cannot be are refused, with a line that can: %s', async (options, expected) => {
    expect(recipeOf(await offered(here.type, `/recipe add recipe:skin-paste ${options}`, expected)).version).toBe(2);
  });

  it('move, and go, but for the last one', async () => {
    const moved = await last('/recipe move skin-paste step:wash after:start');
    expect(moved?.text).toContain('Wash the mould: moved after Demould → first');
    expect(ids(moved)[0]).toBe('wash');
    expect(code(await last('/recipe move skin-paste step:wash after:start'))).toBe('nothing-to-change');
    expect(code(await last('/recipe move skin-paste step:wash after:wash'))).toBe('nothing-to-change');
    const gone = await last('/recipe remove skin-paste step:1');
    expect(gone?.text).toContain('removed: Wash the mould, 15 min, wait 15 min');
    for (const id of SHIPPED.filter((each) => !['wash', 'cast'].includes(each)))
      await here.type(`/recipe remove skin-paste step:${id}`);
    expect(ids(await offered(here.type, '/recipe remove skin-paste step:cast', 'last-step'))).toEqual(['cast']);
  });

  it('more than a card can show are refused', async () => {
    const lines = Array.from({ length: 49 }, (_, index) => `/recipe add block-pour title:Look ${index} kind:finish hands:1 min`);
    await here.type(...lines, ...lines.slice(0, 6));
    expect(code(await last('/recipe add block-pour title:Look again kind:finish hands:1 min'))).toBe('bad-recipe');
  });
});

describe('names', () => {
  it('are taken once', async () => {
    const renamed = await offered(here.type, '/recipe rename block-pour name:Fine brushed SKIN, paste shell', 'recipe-exists');
    expect(renamed?.text).toContain('name “Poured block” → “Fine brushed SKIN, paste shell 2”');
    expect(recipeOf(await offered(here.type, '/recipe copy block-pour name:skin-paste', 'recipe-exists')).version).toBe(1);
    expect(code(await last('/recipe rename block-pour'))).toBe('nothing-to-set');
    expect((await last('/recipe rename block-pour summary:For coins.'))?.text).toContain('→ “For coins.”');
  });

  it('of a copy make its id, and say where it came from', async () => {
    const copy = await last('/recipe copy poured block name:Coins & medals');
    expect(copy?.text).toContain('Id: coins-medals. Copied from Poured block: 5 steps.');
    expect(copy?.data['basedOn']).toEqual({ id: 'block-pour', version: 1 });
    expect(ids(await last('/recipe show coins & medals'))).toEqual(ids(await last('/recipe show block-pour')));
    expect((await last('/recipe history coins-medals'))?.text).toContain('copied from Poured block, version 1');
    expect((await last('/recipe list'))?.text).toContain('coins-medals: Coins & medals; 5 steps');
  });
});

describe('versions', () => {
  const EDITS = [
    '@dana',
    '/recipe step skin-paste step:wax hands:20 min',
    '+10m',
    '@kim',
    '/recipe step skin-paste step:trim hands:25 min',
  ];

  it('all stay to be looked at, with who changed what, and when', async () => {
    const history = await last(...EDITS, '/recipe history skin-paste');
    expect(history?.text.split('\n')).toEqual([
      'Version 3, 08:10, @kim: Trim the flange: hands 20 min → 25 min',
      'Version 2, 08:00, @dana: Wax the skin: hands 15 min → 20 min',
      'Version 1: the program’s',
    ]);
    const second = await last('/recipe show skin-paste version:2');
    expect(second?.text).toContain('Not what counts now: that is version 3.');
    expect(labels(second)).toEqual(['Back to version 2', 'History']);
    const back = await last('[Back to version 2]');
    expect(back?.title).toBe('Brushed skin, paste shell: version 4, as version 2 was');
    expect(code(await last('/recipe back skin-paste to:2'))).toBe('nothing-to-change');
    expect((await last('/recipe history skin-plaster'))?.title).toBe('Brushed skin, plaster shell: never changed');
  });

  it('are dropped and brought back; what was never changed cannot be', async () => {
    expect(code(await last('/recipe drop skin-paste'))).toBe('no-own-recipe');
    expect(code(await last('/recipe back skin-paste to:1'))).toBe('no-own-recipe');
    const dropped = await last(...EDITS, '/recipe drop skin-paste');
    expect(dropped?.title).toBe('Brushed skin, paste shell: the program’s counts again');
    expect(recipeOf(await last('/recipe show skin-paste'))).toMatchObject({ version: 1, own: false });
    await here.type('/recipe drop skin-paste');
    const back = await last('[Bring it back]');
    expect(recipeOf(back)).toMatchObject({ version: 4, own: true });
    expect((await last('/recipe history skin-paste'))?.text).toContain('Dropped, 08:10, @kim');
    // A number never means another version again.
    expect(recipeOf(await last('/recipe drop skin-paste', '/recipe step skin-paste step:wax hands:5 min')).version).toBe(5);
  });

  it('of a recipe that only this studio had come back, too', async () => {
    const gone = await last('/recipe copy block-pour name:Coins', '/recipe drop coins');
    expect(gone?.title).toBe('Coins is dropped');
    expect(code(await last('/recipe show coins'))).toBe('unknown-recipe');
    expect(recipeOf(await last('[Bring it back]'))).toMatchObject({ version: 2, own: true });
  });

  it('go away only for those who manage the server', () => {
    const managed = [...commands.declarations.values()].filter(({ path, manage }) => path.startsWith('recipe ') && manage);
    expect(managed.map(({ path }) => path)).toEqual(['recipe drop']);
  });
});

describe('completion', () => {
  const tab = async (line: string) => {
    const { candidates } = complete(commands, line, await suppliersFor(await here.session.desk(), []));
    return candidates;
  };

  it('offers recipes, the steps of the one that is named, and of one’s own what can be dropped', async () => {
    await here.type('/recipe copy block-pour name:Coins', '/recipe step skin-paste step:wax title:Wax it');
    expect(await tab('/recipe show recipe:skin-p')).toEqual(['skin-paste', 'skin-paste-fine', 'skin-plaster']);
    expect(await tab('/recipe step recipe:coins step:')).toEqual(['seal', 'pour', 'demould', 'wash', 'cast']);
    expect(await tab('/recipe move recipe:coins step:pour after:de')).toEqual(['demould']);
    expect(await tab('/recipe drop recipe:')).toEqual(['skin-paste', 'coins']);
  });
});
