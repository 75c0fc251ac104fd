import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plainText, withColour } from '../../src/chat/plain.ts';
import { away, clock, code, person, quoted, say, strong } from '../../src/words/text.ts';

const zone = 'Europe/Berlin';
const now = Date.parse('2026-03-27T14:00:00+01:00'); // a Friday; the clocks change on the Sunday
const shown = (text: Parameters<typeof plainText>[0], at = now) => plainText(text, { zone, now: at });

describe('times', () => {
  it.each([
    ['2026-03-27T14:05:00+01:00', '14:05'],
    ['2026-03-27T00:00:00+01:00', '00:00'],
    ['2026-03-28T00:00:00+01:00', 'Sat 00:00'],
    ['2026-03-31T07:30:00+02:00', 'Tue 07:30'],
    // A weekday alone is never that of yesterday and of next week.
    ['2026-04-01T23:59:00+02:00', 'Wed 23:59'],
    ['2026-04-02T00:00:00+02:00', 'Thu 2 Apr 00:00'],
    ['2026-04-03T00:00:00+02:00', 'Fri 3 Apr 00:00'],
    ['2026-03-26T23:59:00+01:00', 'Thu 23:59'],
    ['2026-03-20T23:59:00+01:00', 'Fri 20 Mar 23:59'],
    ['2026-10-25T01:59:00+02:00', 'Sun 25 Oct 01:59'],
    ['2026-10-25T02:00:00+02:00', 'Sun 25 Oct 02:00 summer time'],
    ['2026-10-25T02:59:00+01:00', 'Sun 25 Oct 02:59 winter time'],
    ['2026-10-25T03:00:00+01:00', 'Sun 25 Oct 03:00'],
  ])('%s is %s', (at, words) => {
    expect(shown(say`${clock(Date.parse(at))}`)).toBe(words);
  });

  it.each([
    [0, 'now'],
    [29_000, 'now'],
    [40 * 60_000, 'in 40 min'],
    [-10 * 60_000, '10 min ago'],
    [125 * 60_000, 'in 2 h 5 min'],
    [120 * 60_000, 'in 2 h'],
    [26.5 * 3_600_000, 'in 1 d 2 h'],
    [-48 * 3_600_000, '2 d ago'],
  ])('%d ms off is %s', (off, words) => {
    expect(shown(say`${away(now + off)}`)).toBe(words);
  });
});

describe('other spans', () => {
  it('names people where it can', () => {
    expect(shown(say`ask ${person('dana')}`)).toBe('ask @dana');
    expect(plainText(say`${person('7')}`, { zone, now, names: (id) => (id === '7' ? 'Sam\u001b[1m' : undefined) })).toBe('@Sam');
  });

  it('shows a line to type as words that steer nothing', () => {
    expect(shown(say`Type ${code('/mix amount:1 g note:`a`\u001b[31m')}`)).toBe('Type /mix amount:1 g note:`a`');
  });

  it('marks what is strong, where colour is wanted', () => {
    const text = say`Pour ${strong('now ', strong('all'))}.`;
    expect(shown(text)).toBe('Pour now all.');
    expect(withColour(text, { zone, now, colour: false })).toBe('Pour now all.');
    expect(withColour(text, { zone, now, colour: true })).toBe('Pour \u001b[1mnow all\u001b[22m.');
  });

  it.each([
    ['a\u001b[31mb\u001b[0m', 'ab'],
    ['a\u001b]0;title\u0007b', 'ab'],
    ['a\u001b]8;;https://x.example\u001b\\b', 'ab'],
    ['a\u009b2Jb', 'ab'],
    ['a\r\nb\tc', 'a b c'],
    ['a\u0000\u0008b', 'ab'],
    ['a\u202eb', 'ab'],
    ['Ångström 漢字 👋🏽', 'Ångström 漢字 👋🏽'],
  ])('%j cannot steer the terminal', (typed, words) => {
    expect(shown([quoted(typed)])).toBe(words);
  });

  it('lets no control character through, whatever was typed', () => {
    const steering = fc.array(fc.constantFrom('\u001b', '[', ']', '0', ';', 'm', '\u0007', '\u009b', '\\', 'a', '\n'), {
      maxLength: 20,
    });
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'binary' }),
          steering.map((parts) => parts.join('')),
        ),
        (typed) => {
          expect(shown([quoted(typed)])).not.toMatch(/\p{Cc}/u);
        },
      ),
    );
  });
});
