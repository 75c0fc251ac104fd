import { describe, expect, test } from 'vitest';
import { labels, roomEach } from '../support/room.ts';
import { misfitOf, NEW, planOf, reserveOf, SHIFTS, type ShownPlan, startsOf } from './plans.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);

// Times are those of the shipped files at 23 °C: begun on a day at 08:00, a job is ready two days later at 09:20 (worked out in plan.test.ts).
describe('a new plan', () => {
  test('with a start and an end keeps to the start', async () => {
    const shown = await last(SHIFTS, `/plan name:Owl ${NEW} start:tomorrow 8:00 ready-by:fri 16:00`);
    expect(shown?.title).toBe('Owl: start Tue 08:00, ready Thu 09:20');
    expect(reserveOf(shown)).toBeUndefined();
    expect(shown?.text).not.toContain('As late as is safe');
  });
  test('as late as is safe tells by how much the step with the least to spare may slip', async () => {
    const shown = await last(SHIFTS, `/plan name:Owl ${NEW} ready-by:2026-03-09 9:20`);
    const slacks = (planOf(shown)?.steps ?? []).flatMap(({ slackMinutes }) => slackMinutes ?? []);
    expect(Math.max(...slacks)).toBeGreaterThan(Math.min(...slacks));
    expect(shown?.text).toContain(`any one step may slip by ${Math.min(...slacks)} min.`);
  });
  test('with more hands, of which one pair was asked for and one was offered, counts on both', async () => {
    const shown = await last(SHIFTS, `/plan name:Owl ${NEW} start:15:45 extra:fri 17:00-18:00`);
    expect(shown?.text.match(/It counts on one more person/g)).toHaveLength(1);
    const pressed = await last('[One person until 16:15]');
    expect(planOf(pressed)).toBeTruthy();
    expect(pressed?.text).toContain('one more person from Fri 17:00 until Fri 18:00');
    expect(pressed?.text).toMatch(/one more person from 16:00 until 16:15/);
  });
});

test('at a start at which all hands are at work there is no plan, and none for another start in its place', async () => {
  // Sealed by 08:00, the first coat is mixed at 08:45, and takes 15 minutes.
  const shown = await last(
    SHIFTS,
    `/job start name:Owl ${NEW} area:0.4 m2`,
    '/done at:08:00',
    '+45m',
    '/cup start material:brush-urethane amount:240 g job:owl',
    `/plan name:Fox ${NEW} start:now`,
  );
  expect(planOf(shown)).toBeNull();
  expect(misfitOf(shown)).toMatchObject({ step: 'seal', cause: { kind: 'busy' } });
  expect(misfitOf(shown)?.changes[0]).toMatchObject({ kind: 'start', laterMinutes: 15 });
});

describe('a job that is entered', () => {
  const OWL = `/job start name:Owl ${NEW} start:9:00`;

  test('its promise is taken back in any of the words for none', async () => {
    await here.type(SHIFTS, OWL);
    for (const typed of ['no', 'off', '-', 'None']) {
      await here.type('/job plan job:owl ready-by:fri 16:00');
      expect((await last(`/job plan job:owl ready-by:${typed}`))?.kind, typed).toBe('reply');
      expect(planOf(await last('/plan job:owl')), typed).toMatchObject({ readyBy: null });
    }
  });
  test('another start leaves its promise as it was, tried or kept', async () => {
    await here.type(SHIFTS, OWL, '/job plan job:owl ready-by:fri 16:00');
    const tried = await last('/plan job:owl start:tomorrow 9:00');
    expect(planOf(tried)).toMatchObject({ readyBy: '2026-03-06T16:00:00+01:00', startsAt: '2026-03-03T09:00:00+01:00' });
    await here.type('/job plan job:owl start:tomorrow 9:00');
    expect(planOf(await last('/plan job:owl'))).toMatchObject({ readyBy: '2026-03-06T16:00:00+01:00' });
  });
  test('once it has begun, an end alone can be kept', async () => {
    await here.type(SHIFTS, OWL, '+1h', '/done', '/plan job:owl ready-by:fri 16:00');
    const kept = await last('[Keep this plan]');
    expect(kept?.title).toContain('Owl is to be ready by Fri 16:00');
  });
  test('is planned around the others, of which it is none itself', async () => {
    await here.type(SHIFTS, OWL, `/job start name:Bear ${NEW}`);
    expect((await last('/plan job:owl start:tomorrow 9:00'))?.text).toContain('Planned around the other job on this bench.');
    await here.type(`/job start name:Fox ${NEW}`);
    expect((await last('/plan job:owl start:thu 9:00'))?.text).toContain('Planned around 2 other jobs on this bench.');
  });
  test('of all jobs the one that is ready first comes first', async () => {
    await here.type(SHIFTS, OWL, '/job start name:Bear recipe:block-pour skin:pour-urethane');
    const shown = await last('/plan');
    const plans = (shown?.data['plans'] ?? []) as (ShownPlan & { name: string })[];
    expect(plans.map(({ name }) => name)).toEqual(['Bear', 'Owl']);
    expect((plans[0]?.readyAt ?? '') < (plans[1]?.readyAt ?? '')).toBe(true);
    expect(labels(shown)).toContain('Calendar file');
    expect(startsOf(await last('/plan job:bear'))).toBeTruthy();
  });
});
