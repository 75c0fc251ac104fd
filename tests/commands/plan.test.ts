import { describe, expect, test } from 'vitest';
import { code, example, labels, offered, ping, room, roomEach } from '../support/room.ts';
import { misfitOf, NEW, planOf, reserveOf, SHIFTS, startsOf } from './plans.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);

describe('a new job', () => {
  // By hand: 30 min and a wait of 15, four coats of 15 min with 45 min between, 16 h, 20 min, 15 min and a wait of 10, 1 h,
  // 14 h, 30 min, 15 min and a wait of 15, 20 min. The times are those of the shipped files, at 23 °C.
  test('forward from a start, each step at the first minute of its window at which somebody is there', async () => {
    const shown = await last(SHIFTS, `/plan name:Lion head ${NEW} start:tomorrow 8:00`);
    expect(shown?.title).toBe('Lion head: start Tue 08:00, ready Thu 09:20');
    expect(startsOf(shown)).toEqual({
      seal: '03 08:00',
      'coat-1': '03 08:45',
      'coat-2': '03 09:45',
      'coat-3': '03 10:45',
      'coat-4': '03 11:45',
      trim: '04 08:00',
      wax: '04 08:20',
      shell: '04 08:45',
      demould: '05 08:00',
      wash: '05 08:30',
      cast: '05 09:00',
    });
    expect(labels(shown)).toContain('Start this plan');
  });

  test('backward, as late as can be with the reserve that is wished for', async () => {
    const [usual, more, none] = [
      await last(SHIFTS, `/plan name:Lion head ${NEW} ready-by:fri 16:00`),
      await last(`/plan name:Lion head ${NEW} ready-by:fri 16:00 reserve:1 h`),
      await last(`/plan name:Lion head ${NEW} ready-by:fri 16:00 reserve:0 min`),
    ];
    expect(usual?.title).toBe('Lion head: start by Wed 11:30 to be ready by Fri 16:00');
    expect([usual, more, none].map((each) => planOf(each)?.readyAt.slice(8, 16))).toEqual(['06T15:30', '06T15:00', '06T16:00']);
    expect([usual, more, none].map((each) => reserveOf(each))).toEqual([30, 60, 0]);
    // Half an hour later than planned, each step of the usual one still fits.
    for (const { slackMinutes } of planOf(usual)?.steps ?? []) expect(slackMinutes).toBeGreaterThanOrEqual(30);
    expect(none?.text).toContain('just in time');
  });

  test('less reserve, where so much cannot be had', async () => {
    // The first casting ends at 09:20 at the earliest, so of 15 minutes 10 can be kept.
    const shown = await last(SHIFTS, `/plan name:Lion head ${NEW} ready-by:wed 9:35`);
    expect(reserveOf(shown)).toBe(10);
    expect(planOf(shown)?.readyAt).toContain('04T09:25');
  });

  test('without shifts any hour will do, and the card says so', async () => {
    const shown = await last(`/plan name:Lion head ${NEW}`);
    expect(startsOf(shown)).toMatchObject({ 'coat-4': '02 11:45', trim: '03 04:00', cast: '03 20:45' });
    expect(shown?.text).toContain('/shift set');
  });

  test.each([
    ['skin-paste', NEW],
    ['skin-paste-fine', `${NEW} detail:detail-urethane`],
    ['skin-laminate', 'skin:brush-urethane shell:laminate-epoxy'],
    ['skin-plaster', 'skin:brush-urethane shell:casting-plaster'],
    ['block-pour', 'skin:pour-urethane'],
  ])('by the shipped recipe %s, forward and backward', async (recipe, materials) => {
    const forward = await last(SHIFTS, `/plan name:Lion head recipe:${recipe} ${materials} area:0.4 m2`);
    expect(forward?.kind, forward?.text).toBe('reply');
    const steps = planOf(forward)?.steps ?? [];
    expect(steps.length).toBeGreaterThan(4);
    const backward = await last(`/plan name:Lion head recipe:${recipe} ${materials} ready-by:2026-03-20 15:00`);
    expect(backward?.kind, backward?.text).toBe('reply');
    for (const { startsAt, endsAt } of [...steps, ...(planOf(backward)?.steps ?? [])]) {
      expect(startsAt.slice(11, 16) >= '08:00').toBe(true);
      expect(endsAt.slice(11, 16) <= '16:00').toBe(true);
    }
  });

  test.each(['area:0,4 m2', 'shape:half sphere 30 cm', 'area:4 sq ft flange:2 in parting:4 ft'])(
    'with a size: %s',
    async (size) => {
      const shown = await last(SHIFTS, `/plan name:Lion head ${NEW} ${size}`);
      expect(shown?.kind, shown?.text).toBe('reply');
      const started = await last('[Start this plan]');
      expect(started?.text).toMatch(/Mix|In all: \d/);
    },
  );

  test('a customary studio reads its temperatures and its amounts in its own units', async () => {
    const shown = await last('/studio set units:customary', SHIFTS, `/plan name:Lion head ${NEW} room:63 F area:4 sq ft`);
    expect(shown?.text).toContain('a room at 63 °F');
    expect(shown?.text).toMatch(/\(\d lb \d+(?:\.\d)? oz\)/);
    const cold = await last('/temp log value:46 F', `/plan name:Lion head ${NEW}`);
    expect(cold?.text).toContain('made for 59 °F (15 °C) to 90 °F (32 °C)');
    const warm = labels(cold).find((label) => label.startsWith('Warm the room'));
    expect(planOf(await last(`[${warm}]`))).toBeTruthy();
  });

  test('a long name keeps the number that is needed in the title', async () => {
    const name = 'The very large head of a lion from the old town hall, second attempt';
    const shown = await last(SHIFTS, `/plan name:${name} ${NEW}`);
    expect(shown?.title).toContain('start 08:00, ready Wed 09:20');
    expect((await last('[Start this plan]'))?.title).toContain(name);
  });
});

describe('when, as people write it', () => {
  test.each([
    ['tomorrow 7:00', '2026-03-03T07:00'],
    ['fri 16:00', '2026-03-06T16:00'],
    ['in 2h', '2026-03-02T10:00'],
    ['6.3. 16:00', '2026-03-06T16:00'],
    ['6 Mar 16:00', '2026-03-06T16:00'],
    ['2026-03-06 16:00', '2026-03-06T16:00'],
    ['14:00', '2026-03-02T14:00'],
    ['now', '2026-03-02T08:00'],
    ['Mon 8am', '2026-03-02T08:00'],
  ])('start:%s', async (typed, expected) => {
    expect(planOf(await last(`/plan name:Lion head ${NEW} start:${typed}`))?.startsAt).toMatch(expected);
  });

  test.each([
    ['start:soon', 'bad-time'],
    ['start:fri', 'which-time'],
    ['start:yesterday 8:00', 'in-past'],
    ['ready-by:in 500 days', 'too-far'],
    ['ready-by:whenever', 'bad-time'],
    ['start:fri 16:00 ready-by:2026-03-05 12:00', 'ready-before-start'],
    ['extra:somebody', 'not-extra'],
    ['room:100 C', 'bad-temperature'],
    ['room:50 C', 'no-room'],
    ['room:warm', 'temperature-unreadable'],
    ['reserve:a bit', 'duration-unreadable'],
  ])('%s is refused with a line that works, and nothing is stored', async (typed, expected) => {
    await here.type(SHIFTS);
    const answer = await offered((line) => here.type(line), `/plan name:Lion head ${NEW} ${typed}`, expected);
    expect(answer?.data).toHaveProperty('plan');
    expect(code(await last('/plan'))).toBe('nothing-to-plan');
    expect((await last('/shift show'))?.text).not.toContain('Extra hours:');
  });

  test('nothing at all is answered with a line that works', async () => {
    const answer = await offered((line) => here.type(line), '/plan', 'nothing-to-plan');
    expect(planOf(answer)).toBeTruthy();
  });
});

describe('no plan', () => {
  test('nobody is there at that time: another start, or one more person', async () => {
    const shown = await last(SHIFTS, `/plan name:Lion head ${NEW} start:18:00`);
    expect(misfitOf(shown)).toMatchObject({ step: 'seal', cause: { kind: 'nobody' } });
    expect(shown?.text).toContain('nobody is on shift from 16:00 until Tue 08:00');
    expect(misfitOf(shown)?.changes).toMatchObject([
      { kind: 'start', at: expect.stringContaining('02T15:30'), laterMinutes: -150 },
      { kind: 'hands' },
    ]);
  });

  test('a shift too short for a step', async () => {
    const shown = await last(SHIFTS, `/plan name:Lion head ${NEW} start:15:45`);
    expect(misfitOf(shown)).toMatchObject({ step: 'seal', cause: { kind: 'too-long', handsMinutes: 30 } });
    expect(labels(shown)).toEqual(['Start 15 min earlier: 15:30', 'One person until 16:15']);
  });

  test('all hands are at work', async () => {
    await here.type(SHIFTS, '/job start name:Bear recipe:block-pour skin:pour-urethane');
    // The bear is boxed from 08:00 to 08:45, and nothing of it can wait for the lion.
    const shown = await last(`/plan name:Lion head ${NEW} start:now`);
    expect(planOf(shown) ?? misfitOf(shown)).toBeTruthy();
    if (misfitOf(shown)) expect(misfitOf(shown)?.cause.kind).toBe('busy');
    else expect(shown?.text).toContain('Bear makes way');
  });

  test('a bench too cold for the material', async () => {
    const shown = await last(SHIFTS, '/temp log value:8 C', `/plan name:Lion head ${NEW} start:9:00`);
    expect(misfitOf(shown)).toMatchObject({ cause: { kind: 'outside', celsius: 8 } });
    expect(misfitOf(shown)?.changes.map(({ kind }) => kind)).toContain('room');
    expect(shown?.text).toContain('made for 15 °C to 32 °C');
  });

  test('too late by a known time', async () => {
    const shown = await last(SHIFTS, `/plan name:Lion head ${NEW} ready-by:tue 16:00`);
    expect(misfitOf(shown)).toMatchObject({ cause: { kind: 'late', readyAt: expect.stringContaining('04T09:20') } });
    expect(labels(shown)).toEqual(['Ready by Wed 09:20']);
  });

  test.each([
    ['start:18:00', []],
    ['start:15:45', []],
    ['start:sat 12:00', []],
    ['start:9:00', ['/temp log value:8 C']],
    ['start:9:00', ['/temp expect day:18 C night:6 C', '/shift set hours:08:00-12:00 days:daily']],
    ['ready-by:tue 16:00', []],
    ['start:12:40 ready-by:wed 12:00', []],
    ['start:tomorrow 8:00', ['/shift set hours:08:00-11:00 days:daily']],
  ])('%s: each button gives a plan, and that can be started', async (typed, before) => {
    const asked = `/plan name:Lion head ${NEW} ${typed}`;
    const shown = await last(SHIFTS, ...before, asked);
    expect(planOf(shown)).toBeFalsy();
    expect(labels(shown).length).toBeGreaterThan(0);
    for (const label of labels(shown)) {
      const answer = await last(asked, `[${label}]`);
      expect(planOf(answer), `${label}: ${answer?.text}`).toBeTruthy();
    }
    expect((await last('[Start this plan]'))?.title).toMatch(/^Lion head (?:has started|is planned)/);
    expect((await last('/plan'))?.data).not.toHaveProperty('troubles');
  });

  test('pressed later, when its time has passed, it leads on to a plan', async () => {
    const asked = `/plan name:Lion head ${NEW} start:15:45`;
    const answer = await last(SHIFTS, asked, '+until 15:40', '[Start 15 min earlier: 15:30]');
    // A line that works is offered in its place.
    const next = answer?.kind === 'refusal' ? await last(example(answer)) : answer;
    expect(next?.kind, next?.text).toBe('reply');
  });
});

describe('started as planned', () => {
  test('it begins when it was planned to: board, ping and plan agree', async () => {
    const shown = await last(SHIFTS, `/plan name:Lion head ${NEW} start:tomorrow 9:00`);
    await here.type('[Start this plan]');
    expect(startsOf(await last('/plan'))).toEqual(startsOf(shown));
    const board = await last('/board');
    const timeline = (board?.data['timeline'] ?? []) as { step: string; opensAt: string | null }[];
    expect(timeline.find(({ step }) => step === 'seal')?.opensAt).toContain('03T09:00');
    const rung = await here.type('+until 09:00', '+until 09:00');
    const due = rung.filter((each) => ping(each)?.kind === 'step-due');
    expect(due.map((each) => each.at.slice(0, 16))).toEqual(['2026-03-03T09:00']);
    expect(ping(due[0])).toMatchObject({ step: 'seal', late: false });
  });

  test('the hands and the room that it counts on are told to the studio and the bench', async () => {
    const asked = `/plan name:Lion head ${NEW} start:fri 15:40 extra:fri 16:00-16:10 room:21 C`;
    const shown = await last(SHIFTS, asked);
    expect(planOf(shown)).toBeTruthy();
    expect((await last('/shift show'))?.text).not.toContain('Extra hours:');
    await here.type('[Start this plan]');
    expect((await last('/shift show'))?.text).toContain('16:00 to Fri 16:10');
    expect((await last('/temp show'))?.text).toContain('21 °C');
    expect(startsOf(await last('/plan'))).toEqual(startsOf(shown));
    expect((await last('/plan'))?.data).not.toHaveProperty('troubles');
  });

  test('shopping list and calendar of the plan agree with it', async () => {
    await here.type(SHIFTS, `/plan name:Lion head ${NEW} area:0.4 m2 start:tomorrow 9:00`, '[Start this plan]');
    const plan = planOf(await last('/plan'));
    const calendar = await last('/calendar');
    expect(calendar?.text).toMatch(/Tue 09:00 +Seal and release the model: Lion head/);
    expect(calendar?.text).toContain(`Lion head ready at Thu ${plan?.readyAt.slice(11, 16)}`);
    const shopping = await last('/shopping');
    expect(shopping?.title).toMatch(/^Shopping for Lion head: 1\d{3} g of Brush-on urethane rubber/);
  });
});

describe('holidays and the changes of the clocks', () => {
  const on = async (at: string, ...lines: string[]) => {
    const other = await room({ at });
    const shown = (await other.type(...lines)).at(-1);
    await other.close();
    return shown;
  };

  test('nothing is planned on a holiday', async () => {
    const shown = await last(SHIFTS, '/shift holiday days:tomorrow', `/plan name:Lion head ${NEW}`);
    expect(startsOf(shown)).toMatchObject({ 'coat-4': '02 11:45', trim: '04 08:00', demould: '05 08:00' });
  });

  // Europe/Berlin: clocks go forward on 29 March 2026 at 02:00 and back on 25 October 2026 at 03:00 (zone files of IANA).
  // 16 h after 12:00 are 05:00 in the first night, 03:00 in the second; 04:00 in any other.
  test.each([
    ['2026-03-28T08:00', '29 05:00'],
    ['2026-10-24T08:00', '25 03:00'],
    ['2026-03-02T08:00', '03 04:00'],
  ])('from %s, the cure of a night is over at %s', async (at, expected) => {
    expect(startsOf(await on(at, `/plan name:Lion head ${NEW} start:now`))['trim']).toBe(expected);
  });

  test.each(['2026-03-28T08:00', '2026-10-24T08:00'])('from %s, night shifts from ten to six hold each step', async (at) => {
    const shown = await on(at, '/shift set hours:22:00-06:00 days:daily', `/plan name:Lion head ${NEW}`);
    const steps = planOf(shown)?.steps ?? [];
    expect(steps.length).toBe(11);
    for (const { startsAt, endsAt } of steps) {
      const [from, until] = [startsAt.slice(11, 16), endsAt.slice(11, 16)];
      expect(from >= '22:00' || from < '06:00').toBe(true);
      expect(until > '22:00' || until <= '06:00').toBe(true);
    }
  });
});
