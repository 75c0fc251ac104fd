import { describe, expect, it, test } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { labels, ping, roomEach, START } from '../support/room.ts';

const here = roomEach();
const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);
const potLife = (message: MessageObject | undefined, key: string) =>
  (message?.data[key] as { potLifeMinutes: number | null } | undefined)?.potLifeMinutes;
const scaleLines = (message: MessageObject | undefined) =>
  message?.text.split('\n').filter((each) => each.includes('scale shows'));

/** Each with the temperatures that the shipped list gives for its material. */
const WEIGH_OUTS = [
  ['/mix material:brush-urethane amount:500 g', 'mix', 'Brush-on urethane rubber is made for 15 to 32 °C'],
  ['/cast material:cast-resin-fast volume:412 mL', 'cast', 'Fast casting resin is made for 15 to 32 °C'],
  [
    '/laminate mats:2 x 450 area:1.2 m2 material:laminate-polyester',
    'laminate',
    'Polyester laminating resin is made for 15 to 30 °C',
  ],
  ['/plaster 0.4 L', 'plaster', 'Casting plaster is made for 5 to 38 °C'],
] as const;

describe.each(WEIGH_OUTS)('%s', (typed, key, made) => {
  it.each(['3 C', '45 C'])('at %s tells no pot life, in one line, and weighs out all the same', async (value) => {
    const usual = await last(typed);
    const card = await last(`/temp log value:${value}`, typed);
    const untold = card?.text.split('\n').filter((each) => each.includes('no pot life can be told')) ?? [];
    expect(untold).toEqual([`At ${value.replace('C', '°C')} no pot life can be told: ${made}. Watch the cup.`]);
    expect(card?.text).not.toMatch(/Use (each cup )?within|pour (by|within)|Pour within/);
    expect(potLife(card, key)).toBeNull();
    expect(scaleLines(card)).toEqual(scaleLines(usual));
    expect(labels(card)).toEqual(labels(usual));
  });

  it('within the range tells one, and no warning', async () => {
    const card = await last('/temp log value:18 C', typed);
    expect(card?.text).not.toContain('can be told');
    expect(card?.text).toMatch(/(Use|Use each cup|Pour) within/);
    expect(potLife(card, key)).toBeGreaterThan(0);
  });
});

test('what is expected counts too, and customary readers see their own degrees first', async () => {
  const night = await last('/studio set units:customary', '/temp expect day:8 C night:8 C', '/mix brush-urethane amount:500 g');
  expect(night?.text).toContain(
    'At 46 °F (8 °C) no pot life can be told: Brush-on urethane rubber is made for 59 to 90 °F (15 to 32 °C)',
  );
});

test('inside the range the data say what the card does: 20 min at 23 °C, 2^0.6 times as long at 17 °C', async () => {
  expect(potLife(await last('/temp log value:17 C', '/mix brush-urethane amount:500 g'), 'mix')).toBeCloseTo(20 * 2 ** 0.6, 4);
});

const CUP = '/cup start material:brush-urethane amount:100 g';
const cupOf = (message: MessageObject | undefined) => message?.data['cup'] as { goodUntil: string | null };
const boardCup = (message: MessageObject | undefined) =>
  (message?.data['board'] as { cups: { goodUntil: string | null; over: boolean }[] } | undefined)?.cups[0];

describe('a cup at 8 °C', () => {
  it('has no end that could be told: on its card, the board and the brief', async () => {
    const [, cup, board, brief] = await here.type('/temp log value:8 C', CUP, '/board', '/handover brief');
    expect(cup?.title).toBe('cup-1: watch it, no clock can tell');
    expect(cup?.text).toContain('At 8 °C no pot life can be told');
    expect(cupOf(cup).goodUntil).toBeNull();
    expect(labels(cup)).toEqual(['Cup spent', 'Discard cup', 'Poured wrong']);
    expect(boardCup(board)).toMatchObject({ goodUntil: null, over: false });
    expect(board?.text).toMatch(/cup-1: .*no clock can tell how long it is good: look at it/);
    expect(`${cup?.text}${board?.text}${brief?.text}`).not.toMatch(/good until|use it by/);
  });

  it('rings when the clock says so, and says to look at the cup', async () => {
    await here.type('/temp log value:8 C', CUP);
    // Q10 = 2 and fifteen kelvin below the sheet’s: 20 min × 2^1.5 = 56.57 min; 5 min before it the first.
    const rung = (await here.type('+2h')).filter(ping);
    expect(rung.map((message) => [ping(message)?.kind, message.at.slice(11, 16)])).toEqual([
      ['pot-low', '08:51'],
      ['pot-over', '08:56'],
    ]);
    for (const message of rung) {
      expect(message.title).toBe('Look at cup-1: no clock can tell how long it is good');
      expect(message.text).toContain('At 8 °C no pot life can be told');
      expect(`${message.title}${message.text}`).not.toMatch(/is over|do not brush|good until|ends/);
      expect(labels(message)?.slice(0, 2)).toEqual(['Cup spent', 'Discard cup']);
    }
  });

  it('is put right without a word of its end', async () => {
    const fixed = await last('/temp log value:8 C', CUP, '+3h', '/fix material:brush-urethane poured:50 g A, 50 g B');
    expect(fixed?.title).toMatch(/^Add /);
    expect(fixed?.text).toContain('At 8 °C no pot life can be told');
    expect(fixed?.text).not.toMatch(/pot life of cup-1/);
  });

  it('of a job says so too', async () => {
    await here.type(START, '[Step done]', '+20m', '/temp log value:8 C', '/cup start amount:240 g');
    const rung = (await here.type('+2h')).filter((message) => ping(message)?.kind === 'pot-over');
    expect(rung.map(({ title }) => title)).toEqual(['Look at cup-1 (Lion head): no clock can tell how long it is good']);
  });
});

describe('a cup that was mixed at 23 °C', () => {
  it('cannot be told any more once it got too cold, also when it is warm again', async () => {
    await here.type('/temp log value:23 C', CUP, '+5m');
    const log = await last('/temp log value:8 C');
    expect(log?.text).toContain('no clock can tell any more how long it is good; watch it');
    expect(log?.data['movedCups']).toMatchObject([{ cup: 'cup-1', goodUntil: null }]);
    expect(boardCup(await last('+5m', '/temp log value:23 C', '/board'))?.goodUntil).toBeNull();
  });

  it('was over before that, and stays so', async () => {
    const board = await last('/temp log value:23 C', CUP, '+30m', '/temp log value:8 C', '/board');
    expect(boardCup(board)).toMatchObject({ goodUntil: '2026-03-02T08:20:00+01:00', over: true });
    expect(board?.text).toContain('over since 08:20: do not brush it on');
  });
});

test('what is mixed and what its cup says agree, whatever is in it', async () => {
  const cases = [
    'shell-paste amount:250 g',
    'laminate-epoxy amount:700 g',
    'cast-epoxy amount:1,2 kg by:volume',
    'shell-paste amount:14 oz',
  ];
  await here.type('/temp log value:20 C');
  for (const typed of cases) {
    const [mix, cup] = await here.type(`/mix material:${typed}`, '[Cup poured]');
    const told = Number(/Use within (\d+) min/.exec(mix?.text ?? '')?.[1]);
    const minutes = (Date.parse(cupOf(cup).goodUntil ?? '') - Date.parse('2026-03-02T08:00:00+01:00')) / 60_000;
    // To the minute in which they are told: clocks show whole ones.
    expect(Math.abs(told - minutes), typed).toBeLessThanOrEqual(1);
    expect(told, typed).toBeGreaterThan(0);
  }
});
