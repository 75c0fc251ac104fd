import { readFileSync } from 'node:fs';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { code, example, offered, roomEach, START } from '../support/room.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);
interface Calendar {
  entries: number;
  from: string;
  until: string;
  jobs: string[];
  leftOut: string[];
}
const told = (message: Awaited<ReturnType<typeof last>>) => message?.data['calendar'] as Calendar;
const OWL = '/job start name:Owl skin:brush-urethane shell:shell-paste area:0.2 m2';

const read = (path: string | undefined) =>
  new ICAL.Component(ICAL.parse(readFileSync(path ?? '', 'utf8')) as unknown[]).getAllSubcomponents('vevent').map((event) => ({
    uid: String(event.getFirstPropertyValue('uid')),
    title: String(event.getFirstPropertyValue('summary')),
    startsAt: (event.getFirstPropertyValue('dtstart') as ICAL.Time).toJSDate().getTime(),
  }));

describe('/calendar', () => {
  it('gives every open job’s steps as a file, and says how many there are', async () => {
    const answer = await last(START, OWL, '/calendar');
    expect(answer?.title).toMatch(/^Open coatbell\S*\.ics: 24 entries, 08:00 to /);
    const entries = read(answer?.files[0]);
    expect(entries).toHaveLength(24);
    expect(told(answer)).toMatchObject({
      entries: 24,
      from: '2026-03-02T08:00:00+01:00',
      jobs: ['lion-head', 'owl'],
      leftOut: [],
    });
    expect(Math.min(...entries.map(({ startsAt }) => startsAt))).toBe(Date.parse(told(answer).from));
    expect(Math.max(...entries.map(({ startsAt }) => startsAt))).toBe(Date.parse(told(answer).until));
  });

  it('keeps the entries of a step when it moves, and drops what is done', async () => {
    const before = read((await last(START, '/calendar job:lion-head'))?.files[0]);
    const after = read((await last('+50m', '[Step done]', '/calendar job:lion-head'))?.files[0]);
    expect(after.map(({ uid, title }) => [uid, title])).toEqual(before.slice(1).map(({ uid, title }) => [uid, title]));
    expect(after[0]?.startsAt).toBeGreaterThan(before[1]?.startsAt ?? Number.NaN);
  });

  it('leaves out what is on hold, and says so', async () => {
    const answer = await last(START, OWL, '/job hold job:owl text:waiting', '/calendar');
    expect(told(answer)).toMatchObject({ jobs: ['lion-head'], leftOut: ['Owl'] });
    expect(answer?.text).toContain('Not in it: Owl: On hold.');
    expect(code(await last('/calendar job:owl'))).toBe('on-hold');
  });

  it('with nothing that has a time, says why of each job, and offers what helps', async () => {
    await here.type(START, OWL, '/job hold job:owl');
    // Owl's first coat is missed, and the head's is at a temperature that its rubber is not made for.
    await here.type('/job resume job:owl', '/done job:owl', '+20m', '/done job:owl', '+6h');
    await here.type('/done job:lion-head', '+20m', '/done job:lion-head', '/temp log value:9 C', '+1h');
    const none = await last('/calendar');
    expect(code(none)).toBe('no-time-known');
    expect(none?.text).toContain('Owl: A window was missed: somebody must decide.');
    expect(none?.text).toContain('Lion head: Somebody must touch it first.');
    expect((await offered(here.type, '/calendar', 'no-time-known'))?.title).toContain('Lion head');
    const held = await last('/job hold job:lion-head', '/job hold job:owl', '/calendar');
    expect(held?.text).toContain('Lion head: On hold. Owl: On hold.');
    expect((await offered(here.type, '/calendar', 'no-time-known'))?.kind).toBe('reply');
  });

  it('says what does not fit', async () => {
    await here.type('/shift set hours:08:00-08:20 days:mon', '/job start name:Fox skin:brush-urethane shell:shell-paste');
    const none = await last('/calendar');
    expect(none?.text).toContain('Fox: Seal and release the model takes 30 min');
    expect(example(none)).toBe('/plan job:fox');
  });

  it('says on an empty bench how a job begins, and of a slip which was meant', async () => {
    await offered(here.type, '/calendar', 'no-open-job');
    await offered(here.type, '/calendar job:lionhed', 'unknown-job');
    expect(code(await last('/job close job:lion-head', '/calendar job:lion-head'))).toBe('job-closed');
  });
});
