import { describe, expect, it, test } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, example, labels, offered, room, roomEach } from '../support/room.ts';
import { NEW, troublesOf } from './plans.ts';

/** It is Monday, 2 March 2026, 08:00. */
const SHIFTS = '/shift set hours:06:00-14:00, 14:00-22:00 days:mon-fri';
const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);
const missing = (message: MessageObject | undefined) =>
  (message?.data['shift'] as { missing: { from: string; until: string; hands: number }[] } | undefined)?.missing.map(
    ({ from, until, hands }) => `${from.slice(5, 16)} ${until.slice(5, 16)} ${hands}`,
  );

describe('/shift missing', () => {
  test.each([
    ['', ['03-02T06:00 03-02T14:00 1']],
    ['hands:2', ['03-02T06:00 03-02T14:00 2']],
    ['hours:10-16', ['03-02T10:00 03-02T16:00 1']],
    ['on:tomorrow hours:14-22', ['03-03T14:00 03-03T22:00 1']],
    // Saturday and Sunday have no shift.
    ['on:6 Mar to 9 Mar hours:6-14', ['03-06T06:00 03-06T14:00 1', '03-09T06:00 03-09T14:00 1']],
  ])('%s', async (options, expected) =>
    expect(missing(await last(SHIFTS, `/shift missing ${options}`.trim()))).toEqual(expected),
  );

  it('means the shift that comes next where none runs, and the only one of a day', async () => {
    await here.type('/shift set hours:10:00-18:00 days:mon-fri');
    expect(missing(await last('/shift missing'))).toEqual(['03-02T10:00 03-02T18:00 1']);
    expect(missing(await last('/shift missing on:fri'))?.at(-1)).toBe('03-06T10:00 03-06T18:00 1');
  });

  it('asks in which shift, where a day has several', async () => {
    const asked = await last(SHIFTS, '/shift missing on:fri hands:2');
    expect([code(asked), labels(asked)]).toEqual(['which-shift', ['06:00-14:00', '14:00-22:00']]);
    expect(missing(await last('[14:00-22:00]'))).toEqual(['03-06T14:00 03-06T22:00 2']);
  });

  it('says who is left', async () => {
    const first = await last(SHIFTS, '/shift hands count:2 hours:6-14', '/shift missing on:fri hours:6-14');
    expect(first?.text).toContain('1 pair of hands is left.');
    const partly = await last('/shift missing on:fri hours:13-16');
    expect(partly?.title).toBe('Short of hands Fri 13:00 to Fri 16:00: 1 pair of hands missing');
    // With one of two ill in the morning, nobody is left from 13:00 on.
    expect(partly?.text).toContain('Nobody is left: nothing is planned there.');
    const evening = await last('/shift missing on:thu hours:12-16');
    expect(evening?.text).toContain('Nobody is left from Thu 14:00 until Thu 16:00: nothing is planned there.');
  });

  it('counts the extra hours, and the least over all days', async () => {
    await here.type('/shift set hours:06:00-10:00, 14:00-18:00 days:mon-fri', '/shift hands count:3');
    // Nobody is missed between the shifts.
    expect((await last('/shift missing on:fri hours:6-18 hands:2'))?.text).toContain('1 pair of hands is left.');
    expect((await last('/shift missing on:thu hours:6-8 hands:2', '/shift missing on:thu hours:6-10'))?.text).toContain(
      'Nobody is left from Thu 06:00 until Thu 08:00',
    );
    await here.type('/shift extra on:wed hours:6-10');
    expect((await last('/shift missing on:wed hours:6-18 hands:2'))?.text).toContain('1 pair of hands is left at the least.');
    expect((await last('/shift missing on:tue to fri hours:6-10'))?.text).toContain(
      'Nobody is left from Thu 06:00 until Thu 08:00, from Fri 06:00 until Fri 10:00: nothing is planned there.',
    );
  });

  it('says that the same hours count once, and how to say that two are ill', async () => {
    await here.type(SHIFTS, '/shift hands count:3', '/shift missing on:fri hours:6-14');
    const again = await last('/shift missing on:fri hours:6-14');
    const both = '/shift missing on:2026-03-06 hours:06:00-14:00 hands:2';
    expect(again?.text).toContain(`In place of what was told before for the same hours. If both are missing: ${both}`);
    expect(missing(await last(both))).toEqual(['03-06T06:00 03-06T14:00 2']);
    expect((await last(both))?.text).not.toContain('If both are missing');
    expect(missing(await last('[Take back]'))).toEqual([]);
  });

  it('drops a shift with all its hands, however many', async () => {
    const all = await last(SHIFTS, '/shift hands count:3', '/shift missing on:fri hours:6-14 hands:all');
    expect(all?.title).toBe('Short of hands Fri 06:00 to Fri 14:00: all hands missing');
    expect(all?.text).toContain('Missing: Fri 06:00 to Fri 14:00 (all hands).');
  });

  it('takes back those hours alone, and is asked so where the day is said, too', async () => {
    await here.type(
      SHIFTS,
      '/shift missing on:fri hours:6-14',
      '/shift missing on:fri hours:8-10',
      '/shift missing on:thu hours:6-14',
    );
    expect(missing(await last('/shift missing on:fri hours:6-14 off'))).toEqual([
      '03-05T06:00 03-05T14:00 1',
      '03-06T08:00 03-06T10:00 1',
    ]);
    // Of the day that is meant, where that has some.
    expect(example(await last('/shift missing on:fri hours:9-10 off'))).toBe('/shift missing on:2026-03-06 hours:off');
    expect(missing(await last('/shift missing on:fri off'))).toEqual(['03-05T06:00 03-05T14:00 1']);
    expect(missing(await last('/shift missing hours:9-12', '/shift missing off'))).toEqual(['03-05T06:00 03-05T14:00 1']);
  });

  describe('in a night shift, after midnight', () => {
    const NIGHTS = '/shift set hours:14:00-22:00, 22:00-06:00 days:mon-fri';
    it.each(['[Take back]', '/shift missing hours:off', '/shift missing hours:22-6 off', '/shift missing off'])(
      'what is missing in it is taken back: %s',
      async (line) => {
        const told = await last(NIGHTS, '+until 02:00', '/shift missing');
        expect(missing(told)).toEqual(['03-02T22:00 03-03T06:00 1']);
        expect(missing(await last(line))).toEqual([]);
      },
    );
    it('also as the list says, and by each example', async () => {
      const shown = await last(NIGHTS, '+until 02:00', '/shift missing', '/shift show');
      const [line = ''] = /\/shift missing hours:\S+ off|\/shift missing hours:"[^"]+"/.exec(shown?.text ?? '') ?? [];
      expect(missing(await last(line))).toEqual([]);
      await offered((typed) => here.type(typed), '/shift missing hands:0', 'bad-hands');
      await offered((typed) => here.type(typed), '/shift missing on:tommorow', 'not-a-day');
    });
    it('extra hours are taken back as well, and "until" means this morning', async () => {
      await here.type(NIGHTS, '+until 20:30', '/shift extra on:today hours:22-4', '+until 02:00');
      expect((await last('[Take back]'))?.title).toBe('Extra hours taken back: Mon 22:00 to 04:00');
      expect((await last('/shift extra until:7'))?.title).toBe('Extra hours 06:00 to 07:00: 1 pair of hands');
    });
  });

  it.each([['/shift missing on:29 Mar hours:2-3'], ['/shift extra on:29 Mar hours:2-3']])(
    'knows the hours that a night leaves out: %s',
    async (line) => {
      // Directive 2000/84/EC: in March clocks go on an hour at 01:00 UTC.
      await here.type('/shift set hours:14:00-22:00, 22:00-06:00 days:daily');
      expect((await offered((typed) => here.type(typed), line, 'no-such-hours'))?.kind).toBe('reply');
    },
  );

  it.each([
    ['2026-10-20T08:00', '/shift missing on:24 Oct to 25 Oct hours:22-2:30', 1],
    ['2026-03-25T08:00', '/shift missing on:28 Mar to 29 Mar hours:22-2:30', 1],
    ['2026-03-25T08:00', '/shift missing on:27 Mar to 30 Mar hours:22-2:30', 1],
  ])('from %s, [Take back] of %s takes back those, and no others', async (at, line, left) => {
    const there = await room({ at, zone: 'Europe/Berlin' });
    const day = /\d+ \w+/.exec(line)?.[0];
    await there.type('/shift set hours:06:00-14:00, 22:00-06:00 days:daily', `/shift missing on:${day} hours:6-14`, line);
    expect(missing((await there.type('[Take back]')).at(-1))).toHaveLength(left);
    await there.close();
  });

  it('by day, extra hours until some time follow the shift that runs, or the last one', async () => {
    await here.type('/shift set hours:06:00-14:00, 14:00-22:00 days:mon-fri', '+until 12:50');
    expect((await last('/shift extra until:15:00'))?.title).toBe('Extra hours 14:00 to 15:00: 1 pair of hands');
    expect((await last('/shift extra until:23:00'))?.title).toBe('Extra hours 22:00 to 23:00: 1 pair of hands');
  });

  it('offers nothing that would tell, where something was to be taken back', async () => {
    await here.type(SHIFTS, '/shift missing on:fri hours:6-14');
    expect(example(await last('/shift missing on:2026-02-20 hours:off'))).toBe('/shift missing on:2026-03-06 hours:off');
  });

  it('mends the day alone, where the rest does', async () => {
    await here.type(SHIFTS);
    expect(example(await last('/shift missing on:tomorow hours:14-22 hands:2'))).toBe(
      '/shift missing on:tomorrow hours:14-22 hands:2',
    );
    // No shift on that day: the next one, then.
    expect(example(await last('/shift missing on:saturdey hours:14-22'))).toBe('/shift missing on:2026-03-02 hours:06:00-14:00');
  });

  it('whoever comes next reads it in the brief', async () => {
    const brief = await last(SHIFTS, `/job start name:Owl ${NEW}`, '/shift missing hours:14-22', '/handover brief');
    expect(brief?.text).toContain('Missing: 14:00 to 22:00 (1 pair of hands).');
  });

  it('is taken back with one tap, by the hours, or by the day', async () => {
    await here.type(SHIFTS, '/shift missing on:fri hours:6-14', '/shift missing on:fri hours:14-22');
    expect(missing(await last('[Take back]'))).toEqual(['03-06T06:00 03-06T14:00 1']);
    await here.type('/shift missing on:fri hours:14-22');
    expect(missing(await last('/shift missing on:fri hours:6-14 off'))).toEqual(['03-06T14:00 03-06T22:00 1']);
    const none = await last('/shift missing on:fri hours:off');
    expect([none?.title, missing(none)]).toEqual(['Missing hands taken back: Fri 14:00 to Fri 22:00', []]);
  });

  it('is shown with how to take it back, until it is over', async () => {
    const shown = await last(SHIFTS, '/shift missing', '/shift show');
    expect(shown?.text).toContain('Missing: 06:00 to 14:00 (1 pair of hands).');
    expect(missing(await last(/\/shift missing on:2026-03-02 hours:off/.exec(shown?.text ?? '')?.[0] ?? ''))).toEqual([]);
    expect(missing(await last('/shift missing', '+7h', '/shift show'))).toEqual([]);
  });

  it.each([
    ['/shift missing on:sat', 'no-shift'],
    ['/shift missing hours:23-24', 'no-shift'],
    ['/shift missing hours:5-7', 'no-shift'],
    ['/shift missing hours:late', 'not-hours'],
    ['/shift missing on:firday', 'not-a-day'],
    ['/shift missing on:3/4', 'two-readings'],
    ['/shift missing on:fri hours:off', 'none-missing'],
    ['/shift missing on:thu hours:9-12 off', 'none-missing'],
    ['/shift missing hands:0', 'bad-hands'],
    ['/shift missing hands:some', 'bad-hands'],
    ['/shift missing on:fri hours:8-8', 'bad-length'],
    ['/shift missing on:fri hours:5-6', 'no-shift'],
    ['/shift missing on:thu hours:6-13 off', 'none-missing'],
  ])('refuses %s, and what it offers works', async (line, expected) => {
    await here.type(SHIFTS, '/shift missing on:thu hours:6-14');
    await offered((typed) => here.type(typed), line, expected);
  });

  it('needs shifts to be missing in', async () => {
    const refused = await last('/shift missing');
    expect([code(refused), (await last(example(refused)))?.kind]).toEqual(['no-shifts', 'reply']);
  });

  it('plans the bench anew, and says what no longer fits, and what fits again', async () => {
    await here.type(SHIFTS, `/job start name:Owl ${NEW} start:8:00`, '+30m', '/done job:owl', '+45m', '/done job:owl');
    const ill = await last('/shift missing on:today hours:9-22');
    expect(troublesOf(ill)).toMatchObject([{ job: 'owl', cause: { kind: 'nobody' } }]);
    const back = await last('[Take back]');
    expect(back?.text).toContain('Owl fits again');
  });

  it('a plan works around it', async () => {
    const startOf = async (...lines: string[]) =>
      ((await last(...lines))?.data['plan'] as { startsAt: string } | null)?.startsAt.slice(0, 16);
    expect(await startOf(SHIFTS, `/plan name:Owl ${NEW}`)).toBe('2026-03-02T08:00');
    expect(await startOf('/shift missing', '/shift missing hours:14-22', `/plan name:Owl ${NEW}`)).toBe('2026-03-03T06:00');
  });
});
