import { describe, expect, test } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { labels, ping, roomEach } from '../support/room.ts';
import { NEW, SHIFTS, troublesOf } from './plans.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);
const pings = (messages: readonly MessageObject[], kind: string) => messages.filter((each) => ping(each)?.kind === kind);
const ONE = [SHIFTS, '/shift hands count:1'];
/** Four hours a day: four coats of 15 minutes, 45 apart, take three and a quarter of them. */
const SHORT = ['/shift set hours:08:00-12:00 days:mon-fri', '/shift hands count:1'];
const A = `/job start name:A ${NEW} area:0.4 m2`;

describe('what is told of a plan is told as it is now', () => {
  test('a promise that is broken by standing still is named by brief and digest, in the words of the plan', async () => {
    await here.type(...ONE, `/plan name:Vase ${NEW} start:12:00 ready-by:wed 14:00`, '[Start this plan]');
    expect((await last('/handover brief'))?.text).not.toContain('was to be ready by');
    await here.type('+7h');
    const brief = await last('/handover brief');
    const [digest] = pings(await here.type('+24h'), 'digest');
    // Four coats do not fit in an hour, so they begin on the next day, and the mould is ready two days after.
    expect(brief?.text).toContain('Vase is ready Thu 09:20, and was to be ready by Wed 14:00.');
    expect(digest?.text).toContain('Vase is ready Thu 09:20, and was to be ready by Wed 14:00.');
    expect(troublesOf(await last('/plan'))).toMatchObject([{ job: 'vase', cause: { kind: 'late' } }]);
  });

  test('no time that has passed is told as planned', async () => {
    await here.type(...ONE, A, `/job start name:K ${NEW} area:0.4 m2`);
    const times = (text = '') => [...text.matchAll(/(?:As planned|Begin by):? (\d\d:\d\d)/g)].map(([, time = '']) => time);
    for (const now of ['09:00', '10:00', '11:00', '12:00', '13:00', '14:00', '15:00']) {
      await here.type(`+until ${now}`);
      const { text = '' } = (await last('/handover brief')) ?? {};
      for (const time of times(text)) expect(time >= now, `${time} at ${now}`).toBe(true);
    }
  });
});

describe('a step that is open, and would leave no place for the rest', () => {
  const OPEN = [...SHORT, A, '+35m', '/done job:a'];

  test('its ping comes, and says first that it is to wait', async () => {
    await here.type(...OPEN);
    const [due] = pings(await here.type('+15m'), 'step-due');
    expect(due?.title).toBe('A: First coat is open, but wait until Tue 08:00');
    expect(due?.text).toContain('the shift ends at 12:00');
    expect(labels(due)).toEqual(['Show its plan', 'Coat done', 'Snooze']);
  });

  test('so does the card of the job', async () => {
    await here.type(...OPEN, '+15m');
    const shown = await last('/job show job:a');
    expect(shown?.text).toContain('Next: First coat.');
    expect(shown?.text).not.toContain('Now: First coat');
    expect(labels(shown)).not.toContain('Mix next coat');
  });

  test('and the prompt at the end of the shift does not call it open', async () => {
    await here.type(...OPEN);
    const prompt = pings(await here.type('+until 11:50'), 'handover').at(-1);
    expect(prompt?.text).toContain('A: First coat is planned for Tue 08:00');
    expect(prompt?.text).not.toContain('is open');
  });
});

describe('trouble that is known', () => {
  /** The first coat is so late that the fourth opens at 12:15. */
  const STUCK = [...SHORT, A, '/done at:8:00', '+until 9:30', '/done'];

  test('is said again in a line, with what would do, whenever the job goes on', async () => {
    await here.type(...STUCK);
    const [due] = pings(await here.type('+until 10:15'), 'recoat-open');
    expect(due?.text).toContain('nobody is there for Fourth coat of A, from 12:00 on.');
    expect(labels(due)).toEqual(['Mix next coat', 'Coat done', 'One person until 12:30']);
    const done = await last('+until 10:30', '/done');
    expect(done?.text).toContain('Still: nobody is there for Fourth coat of A, from 12:00 on.');
    expect(done?.text).not.toContain('does not fit any more');
    expect(labels(done)).toContain('One person until 12:30');
  });

  test('and of another job it is not', async () => {
    await here.type(...STUCK, `/job start name:K ${NEW} area:0.1 m2 start:tomorrow 9:00`);
    expect((await last('/job note job:k text:left hand'))?.text).not.toContain('Still');
  });

  test('a change that was taken is answered', async () => {
    await here.type(...STUCK);
    const extra = await last('[One person until 12:30]');
    expect(extra?.text).toMatch(/A fits again: Fourth coat 12:15, ready Wed 09:20\./);
    expect(troublesOf(await last('/plan'))).toEqual([]);
  });

  test('also where it came of standing still, and nothing had been told of it', async () => {
    await here.type(...ONE, `/plan name:Vase ${NEW} start:12:00 ready-by:wed 14:00`, '[Start this plan]', '+7h', '/plan');
    expect((await last('[Ready by Thu 09:20]'))?.text).toContain('Vase is in time again: ready Thu 09:20.');
  });

  test('a promise that is moved is answered', async () => {
    await here.type(...ONE, `/plan name:Vase ${NEW} start:12:00 ready-by:wed 14:00`, '[Start this plan]', '+7h');
    await here.type('/done at:15:00');
    const moved = await last('/job plan job:vase ready-by:fri 10:00');
    expect(moved?.text).toMatch(/Vase is in time again: ready /);
  });
});

describe('a job that is started', () => {
  test('while no hands are free: says so once, and is no call to begin', async () => {
    await here.type(...ONE, A);
    const shown = await last(`/job start name:K ${NEW} area:0.4 m2`);
    expect(shown?.title).toBe('K is planned: it begins 09:00');
    expect(shown?.text.match(/09:00/g)).toHaveLength(1);
    expect(shown?.text).toContain('As planned: 09:00, when a pair of hands is free.');
    expect(shown?.text).not.toContain('Now:');
  });

  test('from a plan can be taken back with its last button', async () => {
    await here.type(...ONE, `/plan name:Vase ${NEW} area:0.4 m2 start:tomorrow 8:00`);
    const shown = await last('[Start this plan]');
    expect(labels(shown).at(-1)).toBe('Undo');
    expect((await last('[Undo]'))?.title).toContain('Taken back: Vase');
    expect((await last('/job list'))?.text).not.toContain('Vase');
  });

  test.each([
    ['area:0.4 m2', 'shell:shell-paste'],
    ['area:3.3 m2', 'shell:laminate-polyester'],
    ['shape:"sphere 40 cm"', 'shell:casting-plaster'],
  ])('takes %s as much as its plan says, %s', async (size, shell) => {
    const making = `skin:brush-urethane ${shell} ${size}`;
    const plan = await last(...ONE, `/plan name:A ${making}`);
    const amounts = /Takes (.+)\./.exec(plan?.text ?? '')?.[1];
    expect(amounts).toBeTruthy();
    expect((await last('[Start this plan]'))?.text).toContain(`In all: ${amounts}.`);
  });
});

describe('a job of which a later step does not fit', () => {
  test('gives a calendar of the steps that do, and says which does not', async () => {
    const answer = await last(...SHORT, A, '/done at:8:00', '+until 9:30', '/done', '/calendar job:a');
    expect(answer?.title).toMatch(/2 entries, 10:15 to 11:30$/);
    expect(answer?.data['calendar']).toMatchObject({ jobs: ['a'], inPart: ['a'], leftOut: [] });
    expect(answer?.text).toContain('A only up to Fourth coat: Fourth coat can only begin');
  });

  test('and the next of which does not, none', async () => {
    await here.type(...SHORT, A, '/done at:8:00', '+until 9:30', '/done', '+until 10:30', '/done', '+until 11:30', '/done');
    expect((await last('/calendar job:a'))?.text).toContain('No coming step has a time that can be told.');
  });
});
