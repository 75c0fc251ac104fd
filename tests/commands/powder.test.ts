import { describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, example, roomEach } from '../support/room.ts';

const here = roomEach();
const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);

/** Common practice, no source: powder is weighed, since a heap of it packs as it likes. */
describe('a powder', () => {
  it.each([
    ['/mix material:casting-plaster amount:1 kg by:volume', '/mix material:casting-plaster amount:1 kg'],
    ['/mix material:casting-plaster amount:0,4 L by:volume', '/mix material:casting-plaster amount:0,4 L'],
    ['/mix material:casting-plaster amount:400 mL of powder', '/mix material:casting-plaster amount:500 g of powder'],
    ['/mix material:casting-plaster amount:400 mL powder by:volume', '/mix material:casting-plaster amount:500 g of powder'],
    [
      '/fix material:casting-plaster poured:400 mL powder, 200 g water',
      '/fix material:casting-plaster poured:70 g water, 100 g powder',
    ],
    ['/cast material:casting-plaster volume:350 mL by:volume', '/cast material:casting-plaster volume:350 mL'],
  ])('%s is refused, and %s works', async (typed, shown) => {
    const refused = await last(typed);
    expect(code(refused)).toBe('powder-by-volume');
    expect(example(refused)).toBe(shown);
    expect((await last(shown))?.kind).toBe('reply');
  });

  it.each([
    '/mix material:casting-plaster amount:1 kg',
    '/mix material:casting-plaster amount:500 mL of water',
    '/cast material:gypsum-stone volume:350 mL',
    '/cups material:casting-plaster amount:2 kg rate:400 g a minute',
  ])('of %s shows no millilitres behind it, but behind the water', async (typed) => {
    const lines = (await last(typed))?.text.split('\n') ?? [];
    expect(lines.find((each) => each.startsWith('1. water'))).toMatch(/ m?L\)/);
    expect(lines.find((each) => each.startsWith('2. powder'))).toMatch(
      /^2\. powder: \d+ g, sifted into the water, never the other way round → scale shows \d+ g$/,
    );
    expect(lines.find((each) => each.startsWith('3. '))).toMatch(/soak .*stir slowly/);
  });
});
