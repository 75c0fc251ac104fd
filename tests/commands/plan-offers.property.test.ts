import fc from 'fast-check';
import { expect, test } from 'vitest';
import { code, labels, room } from '../support/room.ts';
import { misfitOf, NEW, planOf, troublesOf } from './plans.ts';

const RUNS = 20;
const SHIFT_HOURS = ['08:00-16:00', '06:00-14:00, 14:00-22:00', '07:00-11:30', '22:00-06:00', '09:00-12:00, 13:00-15:30'];
const MOULDS = [
  NEW,
  'skin:brush-silicone-platinum shell:casting-plaster',
  'recipe:block-pour skin:pour-urethane',
  'skin:brush-urethane shell:laminate-epoxy',
];

/** A bench with some jobs under way, and a question that asks much. */
const benches = fc.record({
  hours: fc.constantFrom(...SHIFT_HOURS),
  hands: fc.integer({ min: 1, max: 2 }),
  cold: fc.option(fc.integer({ min: 15, max: 19 })),
  jobs: fc.array(fc.record({ mould: fc.constantFrom(...MOULDS), hoursLater: fc.integer({ min: 0, max: 30 }) }), { maxLength: 3 }),
  forwardMinutes: fc.integer({ min: 0, max: 600 }),
  mould: fc.constantFrom(...MOULDS),
  when: fc.oneof(
    fc.integer({ min: 0, max: 40 }).map((hours) => `start:in ${hours + 1} h`),
    fc.integer({ min: 16, max: 80 }).map((hours) => `ready-by:in ${hours} h`),
  ),
});

test('whatever is offered where nothing fits, pressed, gives a plan; and a plan that is started is there', async () => {
  const seen = { offered: 0, started: 0, changed: 0 };
  await fc.assert(
    fc.asyncProperty(benches, async ({ hours, hands, cold, jobs, forwardMinutes, mould, when }) => {
      const here = await room();
      const last = async (line: string) => (await here.type(line)).at(-1);
      await here.type(`/shift set hours:${hours} days:daily`, `/shift hands count:${hands}`);
      if (cold !== null) await here.type(`/temp log value:${cold} C`, `/temp expect day:20 C night:${cold} C`);
      for (const [index, job] of jobs.entries())
        await here.type(`/job start name:Job ${index} ${job.mould} start:in ${job.hoursLater} h`);
      await here.type(`+${forwardMinutes}m`);
      const readyTimes = async () => {
        const times: (string | undefined)[] = [];
        for (const index of jobs.keys()) times.push(planOf(await last(`/plan job:job-${index}`))?.readyAt);
        return times;
      };
      const question = `/plan name:New ${mould} ${when}`;
      const asked = await last(question);
      const offers = misfitOf(asked) ? labels(asked) : [];
      for (const label of offers) {
        await here.type(question);
        const pressed = await last(`[${label}]`);
        expect(planOf(pressed), `${label}: ${pressed?.text}`).toBeTruthy();
        seen.offered += 1;
      }
      const before = await readyTimes();
      const shown = await last(question);
      const plan = planOf(shown);
      if (plan) {
        expect(code(await last('[Start this plan]'))).toBeUndefined();
        expect(planOf(await last('/plan job:new'))?.steps[0]?.startsAt).toBe(plan.steps[0]?.startsAt);
        // Who was not said to make way is ready as before.
        const after = await readyTimes();
        for (const [index, readyAt] of before.entries())
          if (!shown?.text.includes(`Job ${index} makes way`)) expect(after[index], shown?.text).toEqual(readyAt);
        seen.started += 1;
      }
      const pick = offers[forwardMinutes % Math.max(1, offers.length)];
      if (!plan && pick !== undefined) {
        const inTrouble = async () => troublesOf(await last('/plan')).map((trouble) => trouble.job);
        const had = jobs.length === 0 ? [] : await inTrouble();
        await here.type(question, `[${pick}]`);
        expect(code(await last('[Start this plan]'))).toBeUndefined();
        for (const job of await inTrouble()) expect(had, `${pick}: ${job}`).toContain(job);
        seen.changed += 1;
      }
      expect(here.troubles).toEqual([]);
      await here.close();
    }),
    { numRuns: RUNS },
  );
  expect(seen.offered).toBeGreaterThan(3);
  expect(seen.started).toBeGreaterThan(0);
  expect(seen.changed).toBeGreaterThan(0);
}, 120_000);
