import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { shoppingCard } from '../../src/cards/shopping-card.ts';
import { plainText } from '../../src/chat/plain.ts';
import type { Shopping } from '../../src/job/shopping.ts';
import { code, offered, roomEach, START } from '../support/room.ts';
import { studio } from '../support/studio.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);
const shopping = (message: MessageObject | undefined) => message?.data['shopping'] as Shopping;
const grams = (message: MessageObject | undefined) =>
  Object.fromEntries(shopping(message).materials.map((each) => [each.material, Math.round(each.grams)]));

interface Brief {
  jobs: { stillToMix: { material: string; grams: number }[] }[];
}

/** What the brief says that is still to mix: it is reckoned elsewhere. */
async function stillToMix(): Promise<Record<string, number>> {
  const brief = (await last('/board'))?.data['board'] as Brief | undefined;
  const sums: Record<string, number> = {};
  for (const { material, grams: left } of brief?.jobs.flatMap((job) => job.stillToMix) ?? [])
    sums[material] = (sums[material] ?? 0) + left;
  return sums;
}

describe('/shopping', () => {
  it('tells what the brief tells, from the first coat to the last', async () => {
    await here.type(START, '/job start name:Owl skin:brush-urethane shell:laminate-polyester area:0.7 m2');
    expect(grams(await last('/shopping'))).toEqual(await stillToMix());
    await here.type('/done job:owl', '+20m', '/cup start material:brush-urethane job:owl amount:200 g');
    const begun = grams(await last('/shopping'));
    expect(begun).toEqual(await stillToMix());
    await here.type('/done job:owl');
    const after = grams(await last('/shopping'));
    expect(after).toEqual(await stillToMix());
    expect(after['brush-urethane']).toBeLessThan(begun['brush-urethane'] ?? 0);
    expect(after['shell-paste']).toBe(begun['shell-paste']);
  });

  it('says the materials first, then what goes with them', async () => {
    const answer = await last(START, '/shopping job:lion-head');
    expect(answer?.title).toMatch(/^Shopping for Lion head: [\d]+ g of Brush-on urethane rubber, \d+ g of Urethane shell paste$/);
    expect(answer?.text.split('\n')[0]).toMatch(/^Brush-on urethane rubber: A \d+ g, B \d+ g\.$/);
    expect(answer?.text).toContain('About 40 mL of sealer, 24 mL of release and 24 mL of wax');
    expect(answer?.text).toContain('/cast says');
  });

  // Common practice, no source: what cups are sold in; a fluid ounce is the 128th part of a gallon of 231 cubic inches.
  it('names cups and release in round American sizes where those are read', async () => {
    const answer = await last('/studio set units:customary', START, '/shopping');
    const ounce = (231 * 25.4 ** 3) / 1000 / 128;
    const cups = shopping(answer).cups.map(({ millilitres }) => Math.round((millilitres ?? 0) / ounce));
    for (const ounces of cups) expect([2, 5, 8, 16, 32, 128, 256, 640]).toContain(ounces);
    expect(answer?.text).toMatch(/Cups: \d+ of \d+ (?:fl oz|gal) /);
    // 40, 24 and 24 mL.
    expect(answer?.text).toContain(
      'About 2 fl oz (59.1 mL) of sealer, 1 fl oz (29.6 mL) of release and 1 fl oz (29.6 mL) of wax',
    );
  });

  it('buys no water', async () => {
    const answer = await last('/job start name:Seal skin:brush-urethane shell:casting-plaster area:0,3 m2', '/shopping');
    const [, plaster] = shopping(answer).materials;
    const powder = plaster?.parts.find(({ part }) => part === 'powder')?.grams ?? 0;
    const shown = Number(/(\d+) g of Casting plaster/.exec(answer?.title ?? '')?.[1]);
    expect(shown).toBeGreaterThanOrEqual(powder);
    expect(shown).toBeLessThan(powder * 1.03);
    expect(answer?.text).toMatch(/from the tap, water \d+ g/);
  });

  it('names a job without a size, and counts the others', async () => {
    const answer = await last(START, '/job start name:Cat skin:brush-urethane shell:shell-paste', '/shopping');
    expect(answer?.text).toContain(
      'First coat and 3 more, Cat: how much Brush-on urethane rubber is not known, no size was given.',
    );
    expect(answer?.text).toContain('Cat not counted: no size was given.');
    expect((await last('/shopping job:cat'))?.title).toBe('Shopping for Cat: no amount can be told yet');
  });

  it('says on an empty bench how a job begins, and of one that has ended that it takes nothing', async () => {
    await offered(here.type, '/shopping', 'no-open-job');
    await offered(here.type, '/shopping job:lionhed', 'unknown-job');
    expect(code(await last('/job close job:lion-head', '/shopping job:lion-head'))).toBe('job-closed');
  });
});

it('shows no less than is needed, and hardly more, on any scale', () => {
  const amounts = fc.double({ min: 0.5, max: 200_000, noNaN: true });
  fc.assert(
    fc.property(amounts, amounts, fc.constantFrom(0.1, 0.5, 1, 2, 5), (a, b, stepGrams) => {
      const parts = [
        { part: 'A', grams: a },
        { part: 'B', grams: b },
      ];
      const one = { material: 'x', name: 'X', grams: a + b, parts, jobs: [{ job: 'Owl', grams: a + b }] };
      const list: Shopping = { jobs: ['Owl'], materials: [one], release: [], mats: [], cups: [], cupsUnsure: [], unknown: [] };
      const card = shoppingCard({ shopping: list, studio: studio({ scale: { stepGrams, mostGrams: null } }) });
      const shown = (text: string) => {
        const [, value, unit] = /([\d.]+) (k?g)/.exec(text) ?? [];
        return Number(value) * (unit === 'kg' ? 1000 : 1);
      };
      const read = (text: Parameters<typeof plainText>[0]) => plainText(text, { zone: 'Etc/UTC', now: 0 });
      const enough = (value: number, needed: number, sums: number) => {
        expect(value).toBeGreaterThanOrEqual(needed - 1e-6);
        expect(value).toBeLessThanOrEqual(needed * 1.02 + sums * stepGrams + 1e-6);
      };
      enough(shown(read(card.title)), a + b, 2);
      const [, first = '', second = ''] = /: A ([^,]+), B (.+)\.$/.exec(read(card.lines[0] ?? [])) ?? [];
      enough(shown(first), a, 1);
      enough(shown(second), b, 1);
      // What is shown adds up, so far as three decimals of a kilogram can tell.
      expect(Math.abs(shown(read(card.title)) - shown(first) - shown(second))).toBeLessThanOrEqual(1);
    }),
  );
});

it('still names what is no longer in the list, and cups whose size nobody can tell', () => {
  const gone = { material: 'x', name: 'A lost rubber', grams: 843, parts: [], jobs: [{ job: 'Owl', grams: 843 }] };
  const cups = [{ millilitres: null, count: 2 }];
  const list: Shopping = { jobs: ['Owl'], materials: [gone], release: [], mats: [], cups, cupsUnsure: [], unknown: [] };
  const card = shoppingCard({ shopping: list, studio: studio() });
  const read = (text: Parameters<typeof plainText>[0] | undefined) => plainText(text ?? [], { zone: 'Etc/UTC', now: 0 });
  expect(read(card.title)).toBe('Shopping for Owl: 850 g of A lost rubber');
  expect(card.lines.map(read).slice(0, 2)).toEqual([
    'A lost rubber: 850 g; it is no longer in the list, so look up how much of each part.',
    'Cups: 2 of a size that nobody can tell.',
  ]);
});
