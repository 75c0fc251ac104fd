import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isSnowflake, markup, markupWithin, mentionOf } from '../../../../src/adapters/discord/rendering/markup.ts';
import { away, clock, code, person, plain, quoted, type Span, say, strong, type Text } from '../../../../src/words/text.ts';
import { hostile } from './hostile.ts';

const now = Date.parse('2026-03-02T07:00:00.900Z');
const reader = { now, zone: 'Europe/Berlin' };
const said = (text: Text) => markup(text, reader);

/** A simple reading of markup that holds words alone: a backslash gives the mark after it, some characters are not seen. */
const read = (written: string) => written.replace(/\\([!-/:-@[-`{-~])/g, '$1').replaceAll('\u200b', '');

/** What remains of somebody's words: told character by character. */
function remains(words: string): string {
  const turning = [0x61c, 0x200b, 0x200e, 0x200f, 0xfeff];
  let kept = '';
  for (const character of words.replace(/[\t\n\v\f\r\u0085\u2028\u2029]+/g, ' ')) {
    const code = character.codePointAt(0) ?? 0;
    if (code < 0x20 || (code >= 0x7f && code < 0xa0) || turning.includes(code)) continue;
    if ((code >= 0x202a && code <= 0x202e) || (code >= 0x2060 && code <= 0x2069)) continue;
    kept += code >= 0xd800 && code <= 0xdfff ? '\ufffd' : character;
  }
  return kept;
}

function expectPowerless(written: string) {
  expect(written).not.toMatch(/@everyone|@here|@[!&]?\d/);
  expect(written).not.toMatch(/https?:\/\/|discord\.gg\//);
  const bare = written.replace(/\\[!-/:-@[-`{-~]/g, '¤');
  expect(bare).not.toMatch(/[\\*_~`|<>#[\]()]/);
  expect(bare).not.toMatch(/^\s*(?:[-+]|\d+\.)(?:\s|$)/m);
  expect(bare).not.toMatch(/:[\w+-]+:/);
}

describe('words', () => {
  it.each([
    ['1 * 2', '1 \\* 2'],
    ['> 20 °C', '\\> 20 °C'],
    ['1. Part A', '1\\. Part A'],
    ['- cup', '\\- cup'],
    ['# 1', '\\# 1'],
    ['2.5 g - 3 g, brush-urethane 14:05', '2.5 g - 3 g, brush-urethane 14:05'],
    ['first\n2. second', 'first\n2\\. second'],
  ])('of ours are shown as they are: %s', (words, expected) => {
    expect(said([plain(words)])).toBe(expected);
  });

  it('are escaped across the joints of spans', () => {
    expect(said(say`${1}. ${'Lion'}`)).toBe('1\\. Lion');
    expect(said([plain('https:'), quoted('//example.org')])).toBe('https:\u200b//example.org');
    expect(said([plain('@'), quoted('everyone')])).toBe('@\u200beveryone');
  });

  it('of somebody else are on one line and mention nobody', () => {
    expect(said(say`Note: ${'a\nb\tc @everyone <@12345678> \u202eevil'}`)).toBe(
      'Note: a b c @\u200beveryone \\<@\u200b12345678\\> evil',
    );
    expect(said(say`${'https://example.org and example.org/x'}`)).toBe('https:\u200b//example.org and example.org\u200b/x');
  });

  it('give back just themselves, whatever they are', () => {
    fc.assert(
      fc.property(hostile, (words) => {
        const written = said(say`${words}`);
        expectPowerless(written);
        expect(read(written)).toBe(remains(words));
      }),
      { numRuns: 1000 },
    );
  });

  it('have no power when they stand for a person whom the platform does not know', () => {
    fc.assert(
      fc.property(hostile, (words) => {
        const written = said([person(`x${words}`)]);
        expectPowerless(written);
        expect(read(written)).toBe(`@x${remains(words)}`);
      }),
    );
    expect(markup([person('dana')], { ...reader, names: () => 'Dana *K*' })).toBe('@\u200bDana \\*K\\*');
  });
});

describe('what must be seen first', () => {
  it('is bold once, however often it is said', () => {
    expect(said(say`a ${strong('b', strong('c'), plain(' '))}d`)).toBe('a **bc** d');
    expect(said([strong('a'), strong('b'), quoted('\u200b'), strong('c')])).toBe('**abc**');
    expect(said([strong(), strong(' ')])).toBe(' ');
    expect(said([strong('a*'), plain('*b')])).toBe('**a\\***\\*b');
  });

  it('never gives an asterisk too many', () => {
    const span: fc.Arbitrary<Span> = fc.oneof(
      hostile.map(quoted),
      hostile.map((words) => strong(words)),
      fc.constantFrom(strong(), strong('a', strong('b')), plain(' '), strong(clock(now)), person('12345678')),
    );
    fc.assert(
      fc.property(fc.array(span, { maxLength: 6 }), (text) => {
        const bare = said(text).replace(/\\[!-/:-@[-`{-~]/g, '¤');
        expect(bare).not.toContain('***');
        expect(bare.split('**').length % 2).toBe(1);
        expect(bare.replaceAll('**', '')).not.toContain('*');
      }),
    );
  });
});

describe('a line to type', () => {
  it('can be copied as it stands', () => {
    expect(said(say`For example: ${code('/shift set hours:06:00-14:00 note:*thin*')}.`)).toBe(
      'For example: `/shift set hours:06:00-14:00 note:*thin*`.',
    );
    expect(said(say`${code('/handover give to:<@12345678>')}`)).toBe('`/handover give to:<@12345678>`');
    expect(said([code(''), code('\u200b')])).toBe('');
    // Asterisks within would end the bold.
    expect(said([strong('Type ', code('a**b'), ' now')])).toBe('**Type** `a**b` **now**');
    expect(markupWithin([plain('Type '), code('/done job:lion')], reader, 13)).toBe('Type `/done`…');
  });

  it('cannot be broken out of', () => {
    fc.assert(
      fc.property(fc.array(hostile, { minLength: 1, maxLength: 3 }), hostile, (lines, words) => {
        const written = said([plain('\\`'), ...lines.map(code), quoted(words), ...lines.map(code)]);
        expect(written).not.toMatch(/@everyone|@here|[\n\r]/);
        // An escaped mark is no fence; what is within two fences is no mark.
        const outside = written.replace(/\\[!-/:-@[-`{-~]|`[^`]+`/g, (part) => (part.startsWith('\\') ? part : ''));
        expectPowerless(outside);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('times and people', () => {
  it('shows the time of day for today, else the day as well, and a distance', () => {
    const midnight = Date.parse('2026-03-02T23:00:00Z');
    expect(said([clock(now)])).toBe('<t:1772434800:t>');
    expect(said([clock(midnight - 1)])).toBe('<t:1772492399:t>');
    expect(said([clock(midnight)])).toBe('<t:1772492400:f>');
    // Half past midnight of the next day, where the text is read.
    expect(markup([clock(midnight - 1)], { ...reader, now: midnight + 1_800_000 })).toBe('<t:1772492399:f>');
    expect(said([strong(away(now + 60_000))])).toBe('**<t:1772434860:R>**');
    expect(said([clock(-1)])).toBe('<t:-1:f>');
  });

  it('mentions people and roles of the platform only', () => {
    expect(said([person('80351110224678912'), plain(' '), person('&165511591545143296')])).toBe(
      '<@80351110224678912> <@&165511591545143296>',
    );
    expect(['1234', '012345', '99999999999999999999', '12345\n', '&12345', '１２３４５'].filter(isSnowflake)).toEqual([]);
    expect(mentionOf('&&12345')).toBeUndefined();
    expect(said([])).toBe('');
  });
});

describe('a text that must fit', () => {
  it('is cut within words, never within an escape, a bold stretch, a time or half a character', () => {
    const text = say`*${strong(clock(now), '**👩')} and ${'more'}`;
    const whole = said(text);
    const cuts = Array.from({ length: whole.length }, (_, most) => markupWithin(text, reader, most + 1));
    expect(new Set(cuts)).toEqual(
      new Set([
        '…',
        '\\*…',
        '\\***<t:1772434800:t>**…',
        '\\***<t:1772434800:t>\\***…',
        '\\***<t:1772434800:t>\\*\\***…',
        '\\***<t:1772434800:t>\\*\\*👩**…',
        ...['a', 'an', 'and', 'and m', 'and mo'].map((end) => `\\***<t:1772434800:t>\\*\\*👩** ${end}…`),
        whole,
      ]),
    );
  });

  it('is never longer than asked', () => {
    fc.assert(
      fc.property(hostile, fc.integer({ min: 1, max: 60 }), (words, most) => {
        expect(markupWithin(say`${words}${strong(words)}`, reader, most).length).toBeLessThanOrEqual(most);
      }),
    );
  });
});
