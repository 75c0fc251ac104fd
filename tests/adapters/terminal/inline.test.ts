import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { inlineBy } from '../../../src/adapters/terminal/inline.ts';

/** Noise, which does not compress, so that it takes many chunks. */
function png(width: number, height: number): Buffer {
  const picture = new PNG({ width, height });
  let seed = 1;
  for (let index = 0; index < picture.data.length; index += 1) {
    seed = (seed * 16_807) % 2_147_483_647;
    picture.data[index] = seed & 255;
  }
  return PNG.sync.write(picture);
}

const small = png(3, 2);
const large = png(400, 30);
const wide = png(4000, 1);

/** What a terminal of kitty's protocol reads, by its published description: keys, then a payload, between APC and ST. */
function chunksOf(text: string) {
  const sequence = new RegExp(`${'\u001b'}_G([^;]*);([A-Za-z0-9+/=]*)${'\u001b'}\\\\`, 'gy');
  const chunks: { keys: Record<string, string>; payload: string }[] = [];
  for (let at = 0; at < text.length; at = sequence.lastIndex) {
    const [, keys = '', payload = ''] = sequence.exec(text) ?? [];
    if (sequence.lastIndex === 0) throw new Error(`no sequence at ${at}`);
    chunks.push({ keys: Object.fromEntries(keys.split(',').map((key) => key.split('='))), payload });
  }
  return chunks;
}

describe('kitty’s protocol', () => {
  const inline = inlineBy('kitty', () => 80);

  it.each([
    ['one chunk', small],
    ['many chunks', large],
  ])('sends the very bytes in %s', (_, bytes) => {
    const chunks = chunksOf(inline(bytes) ?? '');
    expect(Buffer.from(chunks.map(({ payload }) => payload).join(''), 'base64').equals(bytes)).toBe(true);
    expect(chunks.length > 1).toBe(bytes === large);
    expect(chunks.map(({ keys }) => keys['m'])).toEqual([...chunks.slice(1).map(() => '1'), '0']);
    // No chunk over 4096; all but the last end where a group of four does.
    for (const { payload } of chunks) expect(payload.length).toBeLessThanOrEqual(4096);
    for (const { payload } of chunks.slice(0, -1)) expect(payload.length % 4).toBe(0);
    const [first, ...others] = chunks;
    expect(first?.keys).toMatchObject({ a: 'T', f: '100', q: '2' });
    for (const { keys } of others) expect(Object.keys(keys)).toEqual(['m']);
  });

  it('is as wide as it is, and never wider than the terminal is now', () => {
    const columns = (bytes: Buffer, of: number) => chunksOf(inlineBy('kitty', () => of)(bytes) ?? '')[0]?.keys['c'];
    expect([columns(small, 80), columns(large, 80), columns(large, 40), columns(wide, 132)]).toEqual(['1', '50', '40', '132']);
  });
});

it('iTerm2’s protocol sends the very bytes, and says how many', () => {
  const text = inlineBy('iterm2', () => 80)(large) ?? '';
  const [, keys = '', payload = ''] = /^\u001b\]1337;File=([^:]*):([A-Za-z0-9+/=]*)\u0007$/.exec(text) ?? [];
  expect(Object.fromEntries(keys.split(';').map((key) => key.split('=')))).toEqual({
    inline: '1',
    size: String(large.length),
    width: '50',
  });
  expect(Buffer.from(payload, 'base64').equals(large)).toBe(true);
});

it('also sends a part of a larger buffer as it is', () => {
  const within = new Uint8Array(Buffer.concat([Buffer.from('xx'), small, Buffer.from('yy')]).buffer.slice(0));
  const at = Buffer.from(within).indexOf(small);
  const part = within.subarray(at, at + small.length);
  expect(inlineBy('kitty', () => 80)(part)).toBe(inlineBy('kitty', () => 80)(small));
});

it.each([
  ['nothing', Buffer.alloc(0)],
  ['a text', Buffer.from('The mould is 20 cm long, and this is no picture.')],
  ['a head alone', small.subarray(0, 20)],
  ['another kind', Buffer.concat([Buffer.from([0xff, 0xd8, 0xff, 0xe0]), small])],
])('%s is no picture', (_, bytes) => {
  for (const protocol of ['kitty', 'iterm2'] as const) expect(inlineBy(protocol, () => 80)(bytes)).toBeNull();
});
