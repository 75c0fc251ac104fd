import { describe, expect, test } from 'vitest';
import { roomEach } from '../support/room.ts';
import { NEW, SHIFTS } from './plans.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);
const START = `/job start name:Lion ${NEW} start:10:00`;
/** Lion: seal at 10:00 for half an hour, coats at 10:45, 11:45, 12:45 and 13:45. */
const WANTS = 'Another bench of this studio wants hands at';

describe('work on another bench of the studio', () => {
  test('at the same minutes, with all hands taken, is told with a plan, and not whose it is', async () => {
    await here.type(SHIFTS, '/shift hands count:1', START);
    const plan = await last(`#bench-2 /plan name:Other ${NEW} start:10:00`);
    expect(plan?.title).toContain('start 10:00');
    expect(plan?.text).toContain(`${WANTS} 10:00, 10:45 and 11:45 and at other times, too: each bench counts its own.`);
    expect(plan?.text).not.toContain('Lion');
  });

  test('also with the plan of a job under way, and of the bench', async () => {
    await here.type(SHIFTS, '/shift hands count:1', START, `#bench-2 /job start name:Other ${NEW} start:10:15`);
    // Half an hour from 10:15 on: the first quarter of it beside the sealing.
    expect((await last('#bench-2 /plan'))?.text).toContain(`${WANTS} 10:15`);
    await here.type(`#bench-2 /job start name:More ${NEW} start:tomorrow 8:00`);
    expect((await last('#bench-2 /plan'))?.text).toContain(`${WANTS} 10:15`);
  });

  test('where a pair of hands is left is no news, nor is work at other minutes', async () => {
    await here.type(SHIFTS, '/shift hands count:2', START);
    expect((await last(`#bench-2 /plan name:Other ${NEW} start:10:00`))?.text).not.toContain(WANTS);
    await here.type('/shift hands count:1');
    const pour = 'recipe:block-pour skin:pour-urethane';
    expect((await last(`#bench-2 /plan name:Other ${pour} start:8:30`))?.text).not.toContain('wants hands at 10');
  });

  test('nor is a job on hold', async () => {
    await here.type(SHIFTS, '/shift hands count:1', START, '/job hold job:lion');
    expect((await last(`#bench-2 /plan name:Other ${NEW} start:10:00`))?.text).not.toContain(WANTS);
  });
});
