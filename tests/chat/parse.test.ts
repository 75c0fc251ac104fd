import { describe, expect, it } from 'vitest';
import { type Call, parseCall, parseLine } from '../../src/chat/parse.ts';
import { plainText } from '../../src/chat/plain.ts';
import { isRefusal, type Refusal } from '../../src/words/refusal.ts';
import { type Desk, studio } from './example.ts';

const accepted = (line: string): Call<Desk> => {
  const call = parseLine(studio, line);
  if (isRefusal(call)) throw new Error(`${call.code}: ${words(call)}`);
  return call;
};
const refused = (line: string): Refusal => {
  const call = parseLine(studio, line);
  if (!isRefusal(call)) throw new Error(`accepted: ${JSON.stringify(call.raw)}`);
  return call;
};
const words = (refusal: Refusal) => plainText(refusal.message, { zone: 'utc', now: 0 });

describe('a line that is understood', () => {
  it.each([
    ['/mix material:skin-x amount:150 g of B', { material: 'skin-x', amount: 150 }],
    ['  /MIX   Material:skin-x   AMOUNT: 150 g  ', { material: 'skin-x', amount: 150 }],
    ['/mix amount:150 g material:skin-x', { material: 'skin-x', amount: 150 }],
    ['/ mix skin-x amount:150 g', { material: 'skin-x', amount: 150 }],
    ['/mix "skin x" amount:150 g', { material: 'skin x', amount: 150 }],
    ['/mix material:x amount:1 g scale:2 by:VOLUME brief:Y', { material: 'x', amount: 1, scale: 2, by: 'volume', brief: true }],
    ['/mix material:x amount:1 g brief:false', { material: 'x', amount: 1, brief: false }],
    ['/mix material:"say amount:5 g" amount:1 g', { material: 'say amount:5 g', amount: 1 }],
    ['/mix material:“say amount:5 g” amount:1 g', { material: 'say amount:5 g', amount: 1 }],
    ['/mix material:"a ""b"" c" amount:1 g', { material: 'a "b" c', amount: 1 }],
    ['/mix material:"Now" it said amount:1 g', { material: '"Now" it said', amount: 1 }],
    ['/mix material:"open amount:1 g', { material: '"open', amount: 1 }],
    ['/mix material:see https://a.example/b at 14:05 amount:1 g', { material: 'see https://a.example/b at 14:05', amount: 1 }],
    ['/job start name:Left hand holder:@dana', { name: 'Left hand', holder: 'dana' }],
    ['/job start Left hand holder:<@!77>', { name: 'Left hand', holder: '77' }],
    ['/job note text:Sam said: wait job:left', { text: 'Sam said: wait', job: 'left' }],
    ['/job note Sam: wait', { text: 'Sam: wait' }],
    ['/job LIST', {}],
    ['/check not yet', { result: 'not-yet' }],
    ['/check result:Not-Yet', { result: 'not-yet' }],
    ['/check result:notyet', { result: 'not-yet' }],
    ['/shift set hours:08:00-17:00', { hours: '08:00-17:00' }],
    ['/help job start', { topic: 'job start' }],
    ['/help', {}],
  ])('%s', (line, input) => {
    expect(accepted(line).input).toEqual(input);
  });

  it('keeps what was typed, under the declared names', () => {
    expect(accepted('/mix skin-x AMOUNT:150 g').raw).toEqual({ material: 'skin-x', amount: '150 g' });
  });

  it('runs with the typed input', async () => {
    const desk: Desk = { said: [] };
    const { declaration, input } = accepted('/mix skin-x amount:150 g by:volume');
    await declaration.run(input, desk);
    expect(desk.said).toEqual(['skin-x 150 volume']);
  });
});

describe('a line that is refused', () => {
  it.each([
    ['mix material:x amount:1 g', 'no-slash', '/mix', '/mix material:brush-urethane amount:500 g'],
    ['', 'no-slash', 'empty line', '/help'],
    ['/', 'unknown-command', 'slash alone', '/help'],
    ['/mux x', 'unknown-command', '/mix', '/mix material:brush-urethane amount:500 g'],
    ['/zzzzzzzz', 'unknown-command', '/help', '/help'],
    ['/job', 'subcommand-missing', 'start, note, list', '/job start name:Left hand'],
    ['/job name:x', 'subcommand-missing', 'start, note, list', '/job start name:Left hand'],
    ['/job nte x', 'unknown-subcommand', 'nte', '/job note text:The rim is thin job:left-hand'],
    ['/mix material:x', 'option-missing', 'amount', '/mix material:brush-urethane amount:500 g'],
    ['/mix', 'option-missing', 'material', '/mix material:brush-urethane amount:500 g'],
    ['/mix material: amount:1 g', 'option-empty', 'material', '/mix material:brush-urethane amount:500 g'],
    ['/mix material:"" amount:1 g', 'option-empty', 'material', '/mix material:brush-urethane amount:500 g'],
    ['/mix material:x amout:1 g', 'unknown-option', 'Did you mean amount', '/mix material:x amount:1 g'],
    ['/mix materail:x amount:1 g', 'unknown-option', 'Did you mean material', '/mix material:x amount:1 g'],
    [
      '/mix material:x amount:1 g zzzzzz:4',
      'unknown-option',
      'scale, material, amount, by, brief',
      // What else was typed stays.
      '/mix material:x amount:1 g',
    ],
    ['/job note tetx:hello', 'unknown-option', 'Did you mean text', '/job note text:hello'],
    ['/mix material:x amount:1 g amount:2 g', 'option-repeated', 'amount', '/mix material:brush-urethane amount:500 g'],
    ['/mix y material:x amount:1 g', 'stray-text', 'y', '/mix material:brush-urethane amount:500 g'],
    ['/job list all', 'stray-text', 'no options', '/job list'],
    ['/job list all:yes', 'unknown-option', 'takes none', '/job list'],
    ['/check redy', 'unknown-choice', 'not-yet, ready, past', '/check result:ready'],
    ['/mix x amount:lots', 'bad-amount', 'lots', '/mix material:brush-urethane amount:500 g'],
    ['/mix x amount:1 g scale:4', 'not-a-number', 'from 0 to 3', '/mix material:x amount:1 g scale:0'],
    ['/mix x amount:1 g scale:1.5', 'not-a-number', 'whole', '/mix material:x amount:1 g scale:0'],
    ['/mix x amount:1 g brief:maybe', 'not-yes-or-no', 'maybe', '/mix material:x amount:1 g brief:yes'],
    [`/mix x amount:${'1'.repeat(6001)}`, 'option-too-long', '6000', '/mix material:brush-urethane amount:500 g'],
  ])('%s', (line, code, says, example) => {
    const refusal = refused(line);
    expect(refusal.code).toBe(code);
    expect(words(refusal)).toContain(says);
    expect(refusal.example).toBe(example);
  });

  it('offers the nearest choice as a way on, with all that was typed', () => {
    expect(refused('/mix x amount:1 g by:volum').ways).toEqual([
      { label: 'volume', command: 'mix', options: { material: 'x', amount: '1 g', by: 'volume' } },
    ]);
  });

  it('offers the line with a slip of an option’s name put right', () => {
    expect(refused('/mix x amout:1 g by:weight').ways).toEqual([
      { label: 'amount:1 g', command: 'mix', options: { material: 'x', amount: '1 g', by: 'weight' } },
    ]);
  });

  it('puts two mistakes right at once', () => {
    expect(refused('/mix x amout:1 g by:wieght').example).toBe('/mix material:x amount:1 g by:weight');
  });

  it('says of a number that no computer counts what it takes', () => {
    const refusal = refused(`/mix x amount:1 g scale:${'9'.repeat(400)}`);
    expect(words(refusal)).toMatch(/^scale is a whole number from 0 to 3\. Got 9{79}…\.$/);
  });

  it('quotes what was typed, and never as words of its own', () => {
    const quotedWords = refused('/@everyone').message.filter((span) => span.as === 'quoted');
    expect(quotedWords).toEqual([{ as: 'quoted', text: '@everyone' }]);
  });
});

describe('a call with its options apart', () => {
  it('is validated in the same way', () => {
    const call = parseCall(studio, { command: 'job start', options: { Name: 'Left amount:1', holder: 'dana' } });
    expect(call).toMatchObject({ input: { name: 'Left amount:1', holder: 'dana' }, raw: { name: 'Left amount:1' } });
  });

  it.each([
    [{ command: 'mix', options: { material: 'x' } }, 'option-missing'],
    [{ command: 'mix', options: { material: 'x', amount: 'lots' } }, 'bad-amount'],
    [{ command: 'mix', options: { material: 'x', amount: '1 g', colour: 'red' } }, 'unknown-option'],
    [{ command: 'mix', options: JSON.parse('{"__proto__":"x"}') as Record<string, string> }, 'unknown-option'],
    [{ command: 'job', options: {} }, 'subcommand-missing'],
    [{ command: 'mix now', options: {} }, 'stray-text'],
    [{ command: 'gone', options: {} }, 'unknown-command'],
  ])('%j is refused', (call, code) => {
    expect(parseCall(studio, call)).toMatchObject({ code });
  });
});
