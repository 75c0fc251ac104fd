import { describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { jobEvent } from '../../src/job/events.ts';
import { started } from '../support/given.ts';
import { code, roomEach } from '../support/room.ts';

// What bonds, lets go, heats and inhibits is common practice of the trade, no source.
const here = roomEach();
const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);
type Concern = { kind: string; fresh: string; under: string | null };
const concerns = (message: MessageObject | undefined) =>
  ((message?.data['concerns'] ?? []) as Concern[]).map(({ kind, fresh, under }) => [kind, fresh, under]);
const job = (rest: string) => `/job start name:Lion head area:0.4 m2 ${rest}`;
const TO_COAT = ['[Step done]', '+20m'];

describe('a job that begins', () => {
  it('is warned of what its model carries', async () => {
    const card = await last(job('skin:brush-silicone-platinum shell:shell-paste surface:sulfur clay'));
    expect(concerns(card)).toEqual([['inhibition', 'brush-silicone-platinum', 'sulfur clay']]);
    expect(card?.text).toContain('“sulfur clay” may carry sulphur');
    expect(card?.text).toContain('test a small patch where it does not show');
  });

  it('is told to test where nobody said what the model is of, and only if the skin minds anything but damp', async () => {
    const card = await last(job('skin:brush-silicone-platinum shell:shell-paste'));
    expect(concerns(card)).toEqual([['test-patch', 'brush-silicone-platinum', null]]);
    expect(card?.text).toContain('kept from curing by sulphur, amines, tin, latex and uncured acrylate: test a small patch');
    expect((await last(job('skin:brush-silicone-tin shell:shell-paste')))?.text).not.toContain('patch first');
  });

  it('is warned of a detail that the skin does not hold on, of heat and of what bonds', async () => {
    const card = await last(
      job(
        'recipe:skin-paste-fine detail:detail-silicone skin:brush-urethane shell:shell-paste casting:cast-resin-fast surface:wax',
      ),
    );
    expect(concerns(card)).toEqual([
      ['no-bond', 'brush-urethane', 'detail-silicone'],
      ['release', 'shell-paste', 'brush-urethane'],
    ]);
    expect(card?.text).toContain('Brush-on urethane rubber does not hold on Platinum silicone detail skin');
  });

  it('says in one line what bonds to the same skin, and in the studio’s units what is too hot for it', async () => {
    const hot = job('skin:brush-urethane shell:shell-paste casting:cast-resin-fast surface:wood, shellac, waxed');
    const card = await last(hot);
    expect(concerns(card)).toEqual([
      ['heat', 'cast-resin-fast', 'brush-urethane'],
      ['release', 'shell-paste', 'brush-urethane'],
      ['release', 'cast-resin-fast', 'brush-urethane'],
    ]);
    expect(card?.text).toContain('heats itself to 85 °C, and Brush-on urethane rubber stands 80 °C');
    expect(card?.text.match(/Release/g)).toHaveLength(1);
    expect((await last('/studio set units:customary', hot))?.text).toContain('185 °F (85 °C)');
  });

  it('that has nothing to fear is not warned', async () => {
    const card = await last(job('skin:brush-silicone-tin shell:shell-paste casting:casting-plaster surface:wood, shellac'));
    expect(concerns(card)).toEqual([]);
  });
});

describe('a mix for the job', () => {
  it('is warned of the model with its first coat, and with no other', async () => {
    const first = await last(job('skin:brush-urethane shell:shell-paste surface:plaster'), ...TO_COAT, '/mix');
    expect(concerns(first)).toEqual([
      ['inhibition', 'brush-urethane', 'plaster'],
      ['release', 'brush-urethane', 'plaster'],
    ]);
    expect(first?.text).toContain('foams: dry it right through and seal it');
    expect(first?.text).toContain('Seal and release “plaster” first');
    const second = await last('[Coat done]', '+1h', '/mix');
    expect(second?.title).toContain('Second coat');
    expect(concerns(second)).toEqual([]);
  });

  it('is not asked again what the model is of', async () => {
    const first = await last(job('skin:brush-silicone-platinum shell:shell-paste'), ...TO_COAT, '/mix');
    expect(first?.title).toContain('First coat');
    expect(concerns(first)).toEqual([]);
  });

  it('goes by the surface that is named with it', async () => {
    const lines = [job('skin:brush-silicone-platinum shell:shell-paste surface:latex'), ...TO_COAT];
    expect(concerns(await last(...lines, '/mix surface:wax'))).toEqual([]);
    expect(concerns(await last('/mix'))).toEqual([['inhibition', 'brush-silicone-platinum', 'latex']]);
  });

  it('is told of the release with the first cup of the shell, and with no other', async () => {
    const lines = [
      job('skin:brush-urethane shell:shell-paste surface:wax'),
      ...['seal', 'coat-1', 'coat-2', 'coat-3', 'coat-4', 'trim', 'wax'].map((step) => `/done step:${step} early:yes`),
      '+1d',
    ];
    const first = await last(...lines, '/mix');
    expect(first?.title).toContain('Lay the shell');
    expect(concerns(first)).toEqual([['release', 'shell-paste', 'brush-urethane']]);
    const second = await last('[Cup poured]', '/mix');
    expect(second?.title).toContain('cup 2 of');
    expect(concerns(second)).toEqual([]);
  });

  it('of a casting that was chosen late is held against the mould’s face', async () => {
    const done = ['seal', 'coat-1', 'coat-2', 'coat-3', 'coat-4', 'trim', 'wax', 'shell', 'demould', 'wash'];
    const mix = await last(
      job('skin:brush-urethane shell:shell-paste surface:wax'),
      ...done.map((step) => `/done step:${step} early:yes`),
      '/mix material:cast-resin-fast amount:200 g',
    );
    expect(concerns(mix)).toEqual([
      ['heat', 'cast-resin-fast', 'brush-urethane'],
      ['release', 'cast-resin-fast', 'brush-urethane'],
    ]);
  });
});

describe('a mix without a job', () => {
  it.each([
    ['brush-silicone-platinum', '3D print', ['inhibition']],
    ['brush-silicone-platinum', 'filament print', []],
    ['brush-silicone-platinum', 'sugar paste', ['test-patch']],
    ['brush-urethane', 'bronze', ['release']],
    ['brush-urethane', 'silicone', []],
  ])('of %s on %s', async (material, surface, kinds) => {
    const mix = await last(`/mix material:${material} amount:300 g surface:${surface}`);
    expect(concerns(mix).map(([kind]) => kind)).toEqual(kinds);
    expect(mix?.text.split('\n').filter((each) => each.includes('“'))).toHaveLength(kinds.length);
  });

  it('escapes and shortens what was typed', async () => {
    const mix = await last(`/mix material:brush-urethane amount:300 g surface:${'x'.repeat(300)}`);
    expect(mix?.text).toContain(`“${'x'.repeat(59)}…”`);
  });
});

describe('a pair that is looked up', () => {
  it.each([
    ['cast-resin-fast', 'brush-urethane', 'it gets too hot for it', ['heat', 'release'], true],
    ['cast-resin-slow', 'brush-urethane', 'it needs a release', ['release'], true],
    ['cast-resin-fast', 'Brush-on tin silicone rubber', 'it lets go', [], false],
    ['brush-silicone-platinum', 'brush-silicone-tin', 'it may not cure', ['inhibition', 'release'], true],
    ['brush-silicone-platinum', 'sulphur clay', 'it may not cure', ['inhibition'], null],
    ['brush-urethane', 'plaster', 'only when it is dry', ['inhibition', 'release'], null],
    ['brush-urethane', 'casting-plaster', 'only when it is dry', ['inhibition', 'release'], false],
    ['brush-urethane', 'sugar paste', 'not known, test it', ['test-patch'], null],
    ['brush-urethane', 'wood, shellac, waxed', 'it lets go', [], null],
  ])('%s on %s: %s', async (material, on, verdict, kinds, bonds) => {
    const card = await last(`/material pair material:${material} on:${on}`);
    expect(card?.title.endsWith(verdict)).toBe(true);
    expect(concerns(card).map(([kind]) => kind)).toEqual(kinds);
    expect(card?.data['pair']).toMatchObject({ fresh: material, bonds });
    expect(card?.text.includes('does not hold')).toBe(bonds === false);
  });

  it('of a material that there is not is refused, with a line that works', async () => {
    const refused = await last('/material pair material:brush-uretane on:plaster');
    expect(code(refused)).toBe('unknown-material');
    const line = /^For example: (.*)$/m.exec(refused?.text ?? '')?.[1] ?? '';
    expect((await last(line))?.title).toContain('Brush-on urethane rubber on “plaster”');
  });
});

it('a job says what its model is of, where somebody said so', async () => {
  const shown = await last(job('skin:brush-urethane shell:shell-paste surface:  wax '), '/job show');
  expect(shown?.text).toContain('The model: wax.');
  expect((await last('#other', job('skin:brush-urethane shell:shell-paste'), '/job show'))?.text).not.toContain('The model');
});

it('a job that was started before surfaces were asked for has none', () => {
  const { surface: _, ...before } = started() as Extract<ReturnType<typeof started>, { type: 'JobStarted' }>;
  expect(jobEvent.parse(before)).toMatchObject({ surface: null });
});

describe('a living body', () => {
  const EXAMPLE = /^For example: (.*)$/m;
  it.each([
    '/mix material:brush-silicone-platinum amount:300 g surface:my arm',
    job('skin:brush-urethane shell:shell-paste surface:baby foot'),
    '/material pair material:casting-plaster on:face',
  ])('is no surface: %s', async (typed) => {
    const refused = await last(typed);
    expect(code(refused)).toBe('living');
    expect(refused?.text).toContain('Not on a person or an animal.');
    expect(refused?.text).not.toContain('patch');
    expect(code(await last(EXAMPLE.exec(refused?.text ?? '')?.[1] ?? ''))).toBeUndefined();
  });
  it('that is refused begins no job', async () => {
    await here.type(job('skin:brush-urethane shell:shell-paste surface:dog'));
    expect((await last('/job list'))?.title).toContain('No open job');
  });
  it('that is made of something is a surface', async () => {
    expect(code(await last('/mix material:brush-urethane amount:300 g surface:a hand of wood'))).toBeUndefined();
    expect((await last('/material pair material:casting-plaster on:wax face'))?.title).toContain('it gets too hot for it');
  });
});

describe('a title says the thing to do', () => {
  it('of a job on what may keep its skin from curing', async () => {
    const grave = await last(job('skin:brush-silicone-platinum shell:shell-paste surface:sulphur clay'));
    expect(grave?.title).toBe('Lion head has started: it may not cure on sulphur clay');
    const text = grave?.text ?? '';
    expect(text.indexOf('test a small patch')).toBeGreaterThan(0);
    expect(text.indexOf('test a small patch')).toBeLessThan(text.indexOf('11 steps'));
    const plain = await last('#other', job('skin:brush-silicone-tin shell:shell-paste surface:sulphur clay'));
    expect(plain?.title).toBe('Lion head has started');
  });
  it.each([
    ['brush-silicone-platinum', 'plaster', 'only when it is sealed', 'Seal “plaster” first'],
    ['brush-silicone-platinum', 'sulphur clay, sealed', 'it may not cure', 'Its seal may not hold sulphur back'],
    ['brush-silicone-platinum', 'clay without sulphur', 'it lets go', ''],
    ['brush-silicone-platinum', 'latex gloves', 'it may not cure', 'wear nitrile or vinyl gloves'],
    ['brush-silicone-platinum', '3D pint', 'not known, test it', 'Did you mean 3d print?'],
    ['laminate-polyester', 'polystyrene foam', 'it dissolves it', 'Styrene in Polyester laminating resin dissolves'],
    ['laminate-epoxy', 'polystyrene foam, sealed, waxed', 'it lets go', ''],
  ])('%s on %s: %s', async (material, on, verdict, line) => {
    const pair = await last(`/material pair material:${material} on:${on}`);
    expect(pair?.title.endsWith(verdict)).toBe(true);
    expect(pair?.text).toContain(line);
  });
});

describe('a casting whose mould is known', () => {
  it('is held against the mould, the gravest first, before the reason', async () => {
    const cast = await last('/cast material:cast-resin-fast volume:200 mL mould:brush-urethane');
    expect(concerns(cast)).toEqual([
      ['heat', 'cast-resin-fast', 'brush-urethane'],
      ['release', 'cast-resin-fast', 'brush-urethane'],
    ]);
    const text = cast?.text ?? '';
    expect(text.indexOf('heats itself to 85 °C')).toBeGreaterThan(0);
    expect(text.indexOf('heats itself')).toBeLessThan(text.indexOf('Release Brush-on'));
    expect(text.indexOf('Release Brush-on')).toBeLessThan(text.indexOf('overpour'));
  });
  it('has nothing to fear in silicone, and is held against nothing where no mould is named', async () => {
    expect(concerns(await last('/cast material:cast-resin-fast volume:200 mL mould:brush-silicone-tin'))).toEqual([]);
    expect(concerns(await last('/cast material:cast-resin-fast volume:200 mL'))).toEqual([]);
  });
  it('that is thick is warned before anything is weighed', async () => {
    const text = (await last('/cast material:cast-resin-fast volume:700 mL'))?.text ?? '';
    expect(text.indexOf('grows hot')).toBeGreaterThan(0);
    expect(text.indexOf('grows hot')).toBeLessThan(text.indexOf('1. A'));
  });
  it('is told to dry it after the water, and of plaster to take no water', async () => {
    expect((await last('/cast material:cast-resin-fast water:200 g'))?.text).toContain(
      'After the water dry the mould right through',
    );
    expect((await last('/cast material:cast-resin-fast volume:200 mL'))?.text).not.toContain('After the water');
    expect((await last('/cast material:cast-resin-fast water:200 g mould:casting-plaster'))?.text).toContain('drinks water');
    const refused = await last('/cast material:cast-resin-fast mould:casting-plaster');
    expect(code(refused)).toBe('volume-missing');
    expect(refused?.text).not.toContain('Fill it with water');
    expect(code(await last(/^For example: (.*)$/m.exec(refused?.text ?? '')?.[1] ?? ''))).toBeUndefined();
    expect((await last('/cast material:cast-resin-fast mould:brush-urethane'))?.text).toContain('Fill it with water');
  });
});
