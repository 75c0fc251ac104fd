import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, example, roomEach, START } from '../support/room.ts';

/** What a refusal offers is typed as it stands: it must be a whole line, and it must work. */
const here = roomEach();

const FOX = '/job start name:Fox skin:brush-urethane shell:shell-paste area:0.2 m2';
const FIRST_COAT = [START, '[Step done]', '+20m', '[Coat done]'];
const OWN_LIST = `materials:
  - id: river-rubber
    name: A rubber of our own
    family: urethane
    use: [skin]
    parts: [{ part: A }, { part: B }]
    ratio: { weight: { A: 1, B: 2 } }
    reference: { temperature: 23 C, mass: 100 g }
    potLife: 15 min
    source: an invented example
`;

const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);

describe('an example', () => {
  it.each([
    ['/done', 'no-open-job'],
    ['/done job:lion', 'unknown-job'],
    ['/cup spent job:lion', 'unknown-job'],
    ['/mix material:brush-uretane amount:500 g', 'unknown-material'],
    ['/mix material:brush-urethane amount:500', 'unit-missing'],
    ['/mix material:brush-urethane amount:500 g scale:0', 'unit-missing'],
    ['/mix material:brush-urethane amount:500 g scale:fine', 'amount-unreadable'],
    ['/mix material:brush-urethane amount:500 g with:9 % thickener', 'additive-out-of-range'],
    ['/mix material:brush-urethane amount:3 kg', 'batch-too-large'],
    ['/fix material:brush-uretane poured:1 g A', 'unknown-material'],
    ['/cup start material:brush-uretane', 'unknown-material'],
    ['/cup start material:brush-urethane amount:5', 'unit-missing'],
    ['/temp log value:200 C', 'bad-temperature'],
    ['/temp log value:20 C humidity:300 %', 'bad-humidity'],
    ['/temp log value:20 C at:soon', 'bad-time'],
    ['/shift set grace:10', 'unit-missing'],
    ['/shift set grace:0 min', 'bad-grace'],
    ['/shift set hours:noon', 'not-hours'],
    ['/shift duty who:a*b', 'not-people'],
    ['/studio set snooze:5', 'unit-missing'],
    ['/studio set scale:fine', 'amount-unreadable'],
    ['/studio set scale:5 mL', 'wrong-unit'],
    ['/job start name:Owl skin:foo shell:shell-paste', 'unknown-material'],
    ['/job start name:Owl shell:shell-paste', 'skin-missing'],
    ['/job start name:Owl skin:brush-urethane shell:shell-paste thickness:30 mm', 'coat-too-thick'],
  ])('for %s is a whole line that works', async (typed, expected) => {
    const refused = await last(typed);
    expect(code(refused)).toBe(expected);
    expect(refused?.text).toMatch(/^[A-Z0-9“]/);
    expect(example(refused)).toMatch(/^\//);
    const answer = await last(example(refused) ?? '');
    expect(answer?.kind, answer?.text).toBe('reply');
  });

  it('keeps the number that lacked its unit', async () => {
    expect(example(await last('/shift set grace:12'))).toBe('/shift set grace:12 min');
    expect(example(await last('/studio set snooze:5'))).toBe('/studio set snooze:5 min');
  });

  it('names the job where there are two', async () => {
    const early = await last(START, FOX, '/done job:fox', '/done job:fox step:coat-1');
    expect(example(early)).toBe('/done job:fox step:coat-1 early:yes');
    expect((await last(example(early) ?? ''))?.title).toContain('Fox: First coat done');
  });

  it('is of this studio’s own materials', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'coatbell-list.'));
    const path = join(folder, 'own.yaml');
    writeFileSync(path, OWN_LIST);
    await here.type(`/material load file:${path}`);
    rmSync(folder, { recursive: true });
    expect(example(await last('/mix'))).toBe('/mix material:river-rubber amount:500 g');
    expect(example(await last('/done'))).toBe('/job start name:Lion head skin:river-rubber');
  });

  it('calls steps by their titles', async () => {
    const refused = await last(...FIRST_COAT, '/done step:coat-9');
    expect(refused?.text).toContain('Did you mean Second coat, Third coat or First coat?');
  });
});
