import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { labels, ping, room, roomEach } from '../support/room.ts';
import { NEW, planOf, SHIFTS, type ShownPlan, startsOf, troublesOf } from './plans.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);
const START = `/job start name:Lion head ${NEW}`;
/** Sealed at 08:30, two coats by 12:00: the third opens at 12:45, and the fourth must begin by 15:45, so the third by 14:45. */
const TWO_COATS = [SHIFTS, START, '+30m', '[Step done]', '+30m', '[Coat done]', '+until 12:00', '[Coat done]'];
const doesNotFit = /does not fit any more|clashes with|will not be ready in time/;

describe('what is logged late', () => {
  test('a coat after which a later one finds nobody: named at once, and what would do', async () => {
    await here.type(SHIFTS, START, '/done at:08:00', '+until 14:40');
    const shown = await last('/done');
    expect(troublesOf(shown)).toMatchObject([
      { job: 'lion-head', step: 'coat-3', cause: { kind: 'nobody' }, clash: [], changes: [{ kind: 'hands' }] },
    ]);
    expect(shown?.text).toContain('Third coat of Lion head does not fit any more.');
    expect(shown?.text).toContain('nobody is on shift from 16:00 until Tue 08:00');
    expect(labels(shown)).toContain('One person until 17:40');
  });

  test('it is said once, not with each command that follows', async () => {
    await here.type(SHIFTS, START, '/done at:08:00', '+until 14:40', '/done');
    for (const line of [
      '/job note text:thin at the left ear',
      '/temp log value:23 C',
      '/cup start material:shell-paste amount:200 g',
    ])
      expect((await last(line))?.text, line).not.toMatch(doesNotFit);
  });

  test('the button that is offered sets it right', async () => {
    await here.type(SHIFTS, START, '/done at:08:00', '+until 14:40', '/done');
    const extra = await last('[One person until 17:40]');
    expect(extra?.title).toContain('17:40');
    const plan = await last('/plan');
    expect(troublesOf(plan)).toEqual([]);
    expect(startsOf(plan)).toMatchObject({ 'coat-4': '02 17:25' });
  });

  test('undone, all fits again, and logged again it is said again', async () => {
    await here.type(SHIFTS, START, '/done at:08:00', '+until 14:40', '/done');
    await here.type('[Undo]');
    expect(troublesOf(await last('/plan'))).toEqual([]);
    expect((await last('/done'))?.text).toMatch(doesNotFit);
  });

  test('the end of a shift that is brought forward is answered with what does not fit any more', async () => {
    await here.type(...TWO_COATS);
    expect(troublesOf(await last('/plan'))).toEqual([]);
    const shown = await last('/shift set hours:08:00-13:30 days:mon-fri');
    expect(troublesOf(shown)).toMatchObject([{ job: 'lion-head', step: 'coat-4' }]);
  });

  test('a promise that cannot be kept any more', async () => {
    await here.type(SHIFTS, `/plan name:Lion head ${NEW} start:now ready-by:wed 12:00`, '[Start this plan]', '/done at:08:00');
    const shown = await last('+until 2026-03-02T15:30', '+until 15:30', '/done');
    expect(troublesOf(shown)).toMatchObject([{ job: 'lion-head' }]);
  });
});

describe('two jobs and one pair of hands', () => {
  const BOTH = [SHIFTS, START, `/job start name:Bear ${NEW}`];

  test('they are planned around each other', async () => {
    await here.type(...BOTH);
    const shown = await last('/plan');
    const plans = (shown?.data['plans'] ?? []) as ShownPlan[];
    const work = plans.flatMap(({ steps }) => steps).sort((a, b) => a.startsAt.localeCompare(b.startsAt));
    expect(work).toHaveLength(22);
    for (const [index, { startsAt }] of work.slice(1).entries()) expect(startsAt >= (work[index]?.endsAt ?? '')).toBe(true);
  });

  test('windows that close at the same time: named at once, with both jobs', async () => {
    await here.type(SHIFTS, START, `/job start name:Bear ${NEW}`, '/shift hands count:2', '+30m');
    await here.type('/done job:lion-head', '/done job:bear', '+30m', '/done job:lion-head', '/done job:bear', '+until 12:00');
    // After third coats at 14:50 the fourth ones open at 15:35, and each takes 15 of the 25 minutes that are left.
    await here.type('/done job:lion-head', '/done job:bear', '+until 14:50');
    await here.type('/done job:lion-head');
    const both = await last('/done job:bear');
    expect(troublesOf(both)).toEqual([]);
    const one = await last('/shift hands count:1');
    expect(troublesOf(one)).toMatchObject([{ cause: { kind: 'busy' }, clash: [expect.any(String)] }]);
    expect(one?.text).toMatch(/Fourth coat of (Bear clashes with Lion head|Lion head clashes with Bear)/);
    expect((await last('/job note text:hello job:bear'))?.text).not.toMatch(doesNotFit);
    const change = labels(one).find((label) => /person/.test(label));
    expect(change).toBeTruthy();
    await here.type(`[${change}]`);
    expect(troublesOf(await last('/plan'))).toEqual([]);
  });

  test('one that makes way is told with the step that moves', async () => {
    await here.type(SHIFTS, START, '/done at:08:00');
    const before = startsOf(await last('/plan'));
    const shown = await last(`/plan name:Bear recipe:block-pour skin:pour-urethane start:8:15`);
    const told = /Lion head makes way: (.+) at (\d\d:\d\d)/.exec(shown?.text ?? '');
    if (told) expect(before['coat-1']).not.toContain(told[2]);
    else expect(shown?.text).toContain('Planned around the other job');
  });

  test('a new one is planned around those under way', async () => {
    await here.type(SHIFTS, START);
    const shown = await last(`/plan name:Bear ${NEW}`);
    expect(shown?.text).toContain('Planned around the other job on this bench.');
    const lion = planOf(await last('/plan job:lion-head'));
    for (const mine of planOf(shown)?.steps ?? [])
      for (const other of lion?.steps ?? []) expect(mine.endsAt <= other.startsAt || mine.startsAt >= other.endsAt).toBe(true);
  });
});

describe('a step that must begin before its own window closes', () => {
  const closings = (messages: Awaited<ReturnType<typeof here.type>>) =>
    messages.filter((each) => ping(each)?.kind === 'plan-closing');

  test('rings half an hour ahead, once, and says what would not fit', async () => {
    await here.type(...TWO_COATS);
    expect(planOf(await last('/plan'))?.steps[0]).toMatchObject({ step: 'coat-3', latestAt: expect.stringContaining('T14:45') });
    const rung = closings(await here.type('+until 14:14', '+until 14:15', '+until 14:44'));
    expect(rung.map(({ at, title }) => [at.slice(11, 16), title])).toEqual([['14:15', 'Lion head: begin Third coat by 14:45']]);
    expect(rung[0]?.text).toContain('Fourth coat');
    expect(rung[0]?.text).toContain('the shift ends at 16:00');
  });

  test('not where somebody is at it, nor where it was done', async () => {
    await here.type(...TWO_COATS, '+until 13:00', '/done');
    expect(closings(await here.type('+until 15:30')).map((each) => ping(each)?.step)).not.toContain('coat-3');
  });

  test('also after a restart, and not twice', async () => {
    const dataDir = mkdtempSync(join(tmpdir(), 'coatbell-plan.'));
    const first = await room({ dataDir });
    await first.type(...TWO_COATS);
    await first.close();
    const second = await room({ dataDir, at: '2026-03-02T14:00' });
    expect(closings(await second.type('+20m'))).toHaveLength(1);
    await second.close();
    const third = await room({ dataDir, at: '2026-03-02T14:25' });
    expect(closings(await third.type('+10m'))).toEqual([]);
    await third.close();
    rmSync(dataDir, { recursive: true });
  });
});

describe('a cold night', () => {
  test('what is expected of it moves the plan, and so does what is read', async () => {
    await here.type(SHIFTS, START);
    const warm = startsOf(await last('/plan'));
    await here.type('/temp expect day:20 C night:10 C');
    const cold = startsOf(await last('/plan'));
    expect(warm).toMatchObject({ trim: '03 08:00', cast: '04 09:00' });
    // 16 h at 23 °C; by day 2^0.3 = 1.23 times as long, by night 2^1.3 = 2.46 times: from the fourth coat on for more than a day.
    expect(cold['trim'] ?? '').toMatch(/^03 1[3-5]:/);
    await here.type('/temp log value:17 C');
    expect((startsOf(await last('/plan'))['coat-2'] ?? '') > (cold['coat-2'] ?? '')).toBe(true);
  });

  test('a bench too cold to tell says so instead of a plan', async () => {
    await here.type(SHIFTS, START, '/done', '+30m', '/done');
    const shown = await last('/temp log value:9 C', '+1h', '/plan');
    expect(planOf(shown)).toBeFalsy();
    expect(shown?.text).toMatch(/look at it|touch|made for/);
  });
});

describe('jobs that cannot be planned', () => {
  test('on hold, it takes no hands', async () => {
    await here.type(SHIFTS, START, `/job start name:Bear ${NEW}`, '/job hold job:lion-head text:no rubber');
    expect((await last('/plan job:lion-head'))?.text).toMatch(/on hold/i);
    expect(startsOf(await last('/plan job:bear'))).toMatchObject({ seal: '02 08:00' });
  });

  test('a missed window wants a decision first, and then there is a plan', async () => {
    await here.type(SHIFTS, START, '/done', '+30m', '/done', '+until 13:00');
    expect((await last('/plan'))?.text).toMatch(/missed/);
    await here.type('/job show', '[Abrade and go on]');
    expect(planOf(await last('/plan'))?.steps[0]?.step).toBe('coat-2');
  });

  test('where it is known what does not fit, nobody is sent to look', async () => {
    await here.type(SHIFTS, START, `/job start name:Bear ${NEW}`, '/done job:lion-head at:08:00', '/done job:bear at:08:00');
    await here.type('+until 14:40', '/done job:lion-head', '/done job:bear');
    const shown = await last('/plan');
    expect(troublesOf(shown)).toHaveLength(2);
    expect(shown?.text).not.toContain('look at it');
    // What helps both is one button.
    expect(new Set(labels(shown)).size).toBe(labels(shown).length);
  });

  test('nothing is left to plan when all is done', async () => {
    await here.type(
      SHIFTS,
      `/job start name:Lion head recipe:block-pour skin:pour-urethane`,
      '/done',
      '+1h',
      '/done',
      '+2d',
      '/done',
      '/done',
      '+1h',
      '/done',
    );
    expect((await last('/plan'))?.kind).toBe('refusal');
  });
});
