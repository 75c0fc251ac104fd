import { describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, labels, ping, room, roomEach, START } from '../support/room.ts';

const here = roomEach();

type Row = { step: string; state: string; opensAt: string | null; closesAt: string | null };
const row = (message: MessageObject | undefined, step: string) =>
  (message?.data as { timeline?: Row[] } | undefined)?.timeline?.find((each) => each.step === step);

describe('a coat after a coat', () => {
  it('says when the next one opens and closes, and how much to mix', async () => {
    const [, , , done] = await here.type(START, '[Step done]', '+20m', '[Coat done]');
    expect(row(done, 'coat-2')).toMatchObject({
      state: 'waiting',
      opensAt: '2026-03-02T09:05:00+01:00',
      closesAt: '2026-03-02T12:20:00+01:00',
    });
    // 0.4 m² × 0.72 mm × 1.125 g/mL (1:1 of 1.00 and 1.25) and 10 % waste: 356.4 g, by hand.
    expect(done?.text).toContain('356 g');
  });

  it('rings once when it opens, before it closes and when it was missed, and then asks for a decision', async () => {
    await here.type(START, '[Step done]', '+20m', '[Coat done]');
    const pings = await here.type('+6h');
    expect(pings.map((each) => [each.at.slice(11, 16), ping(each)?.kind, each.to])).toEqual([
      ['09:05', 'recoat-open', ['you']],
      ['11:50', 'recoat-closing', ['you']],
      ['12:20', 'recoat-missed', ['you']],
    ]);
    expect(labels(pings[2])).toEqual(['Done, begun in time', 'Abrade and go on', 'Snooze']);
    const [late, abraded, gone] = await here.type('/done', '[Abrade and go on]', '[Coat done]');
    expect(code(late)).toBe('window-missed');
    expect(row(abraded, 'coat-2')?.state).toBe('open');
    expect(row(gone, 'coat-2')?.state).toBe('done');
  });

  it('takes a coat that went on in time although it is told too late', async () => {
    const answers = await here.type(START, '[Step done]', '+20m', '[Coat done]', '+5h', '/done at:12:00');
    const [told, ring] = answers.slice(-2);
    expect(row(told, 'coat-2')?.state).toBe('done');
    expect(row(told, 'coat-3')?.opensAt).toBe('2026-03-02T12:45:00+01:00');
    // Its window has been open for a while, and nobody has been told.
    expect(ping(ring)).toMatchObject({ kind: 'recoat-open', step: 'coat-3', late: true });
  });

  it('tells the second of two people who was first', async () => {
    await here.type(START, '[Step done]', '+20m', '@dana', '[Coat done]');
    const [bare, named, pressed] = await here.type('@kim', '/done', '/done step:coat-1', '[Undo]');
    expect([code(bare), code(named), code(pressed)]).toEqual(['too-soon', 'already-done', undefined]);
    expect(bare?.text).toContain('@dana');
    expect(named?.text).toMatch(/@dana, done at 08:20/);
  });

  it('opens at once when a finger says so, and later when it says not yet', async () => {
    await here.type(START, '[Step done]', '+20m', '[Coat done]', '+30m');
    const [asked, ready] = await here.type('[Check tack]', '[Ready]');
    expect(labels(asked)).toEqual(['Not yet', 'Ready', 'Past']);
    expect(row(ready, 'coat-2')?.state).toBe('open');
    const [, notYet, ring] = await here.type('/undo', '/check result:not yet', '+20m');
    expect(row(notYet, 'coat-2')?.opensAt).toBe('2026-03-02T09:05:00+01:00');
    expect(ping(ring)?.kind).toBe('recoat-open');
  });
});

describe('the card of a button', () => {
  it('does just what its command does', async () => {
    const typed = await room();
    const byButton = await here.type(START, '[Step done]', '+20m', '[Mix next coat]', '[Cup poured]', '[Coat done]');
    const byCommand = await typed.type(
      START,
      '/done step:seal',
      '+20m',
      '/mix job:lion-head',
      '/cup start material:brush-urethane amount:277 g',
      '/done step:coat-1',
    );
    expect(byButton).toEqual(byCommand);
    await typed.close();
  });
});

describe('a handover', () => {
  const given = [START, '[Step done]', '+20m', '[Coat done]', '/handover give to:kim note:left ear runs thin'];

  it('is briefed, taken, and the pings follow', async () => {
    const answers = await here.type(...given, '@kim', '[Take over]', '+1h');
    const taken = answers.at(-2);
    expect(taken?.text).toContain('left ear runs thin');
    expect(taken?.text).toMatch(/Still to mix: 1307 g of Brush-on urethane rubber/);
    expect(answers.at(-1)?.to).toEqual(['kim']);
  });

  it('reaches both sides when nobody took it before the next window', async () => {
    const answers = await here.type(...given, '+1h');
    const handover = answers.find((each) => ping(each)?.kind === 'handover');
    expect(handover?.to).toEqual(['you', 'kim']);
    expect(handover?.at).toBe('2026-03-02T09:05:00+01:00');
    expect(answers.find((each) => ping(each)?.kind === 'recoat-open')?.to).toEqual(['you', 'kim']);
  });
});

describe('a cup', () => {
  it('rings before its pot life is over, and when it is', async () => {
    const pings = (await here.type('/cup start material:shell-paste amount:300 g', '+20m')).slice(1);
    // 9 min of working time for 100 g, 7 min for 300 g: common practice of such a paste, no source; a quarter is 1 min 45 s.
    expect(pings.map((each) => [each.at.slice(11, 19), ping(each)?.kind])).toEqual([
      ['08:05:15', 'pot-low'],
      ['08:07:00', 'pot-over'],
    ]);
  });

  it('counts as the beginning of its step, and ends with it', async () => {
    await here.type(START, '[Step done]', '+20m', '[Coat done]', '+3h55m');
    const answers = await here.type('/cup start amount:356 g', '+10m', '[Coat done]', '+30m');
    expect(answers.map((each) => ping(each)?.kind ?? each.title)).toEqual([
      'cup-1: use it by 12:35 (in 20 min)',
      'Lion head: Second coat done at 12:25',
    ]);
  });
});

describe('what is typed with gloves on', () => {
  it.each([
    ['/mix material:brush-uretane amount:500 g', 'unknown-material', 'brush-urethane'],
    ['/mix material:brush-urethane amount:1:1', 'ratio-not-amount', '500 g'],
    ['/mix material:brush-urethane amount:90:100', 'ratio-not-amount', '500 g'],
    ['/mix material:brush-urethane amount:1,200 g', 'number-ambiguous', '1200'],
    ['/mix material:brush-urethane amount:500', 'unit-missing', 'g'],
    ['/mix material:brush-urethane amount:10 g', 'batch-too-small', '69 g'],
    ['/mix material:shell-paste amount:3 kg', 'batch-too-large', '600 g'],
    ['/mix materail:brush-urethane amount:500 g', 'unknown-option', 'material'],
    ['/mxi material:brush-urethane amount:500 g', 'unknown-command', 'mix'],
    ['mix material:brush-urethane amount:500 g', 'not-a-command', '/mix'],
    ['/done job:nobody', 'unknown-job', ''],
    ['/done at:tomorrow', 'bad-time', '10m ago'],
  ])('%s is refused as %s', async (line, refused, offered) => {
    const [, answer] = await here.type(START, line);
    expect(answer?.kind).toBe('refusal');
    expect(code(answer)).toBe(refused);
    expect(answer?.text).toContain(offered);
  });
});
