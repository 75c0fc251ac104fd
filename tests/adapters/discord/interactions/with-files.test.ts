import { setTimeout as sleep } from 'node:timers/promises';
import { PermissionFlagsBits } from 'discord.js';
import { PNG } from 'pngjs';
import { afterEach, describe, expect, it } from 'vitest';
import { card } from '../../../../src/chat/card.ts';
import { whole, yesNo } from '../../../../src/chat/options.ts';
import { registry } from '../../../../src/chat/registry.ts';
import { command } from '../../../../src/desk/desk.ts';
import { say } from '../../../../src/words/text.ts';
import type { Exchange } from '../../../support/platform/exchange.ts';
import type { Posted } from '../../../support/platform/posted.ts';
import { counters } from './counter.ts';

const { begin, close } = counters();
afterEach(close);

const CALLBACK = /^\/interactions\/[^/]+\/[^/]+\/callback$/;
const picture = PNG.sync.write(new PNG({ width: 30, height: 20 }));
const dates = Buffer.from('BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n');
/** As long as the longest that the platform takes of a picture, and longer. */
const ABOUT = `Lion head: coat 2 from 09:05, ${'and so on, '.repeat(200)}`;

const drawing = registry([
  command({
    name: 'draw',
    summary: 'A card with a picture and a file to take away',
    options: {
      aside: yesNo({ about: 'For me alone' }).optional(),
      wait: whole({ about: 'ms', least: 0, most: 5000 }).optional(),
    },
    examples: ['wait:1'],
    run: async ({ aside = false, wait = 0 }) => {
      await sleep(wait);
      return card(say`Drawn`, [say`In words.`], {
        aside,
        buttons: [{ label: 'Again', command: 'draw', options: {} }],
        files: [
          { name: 'board.png', about: ABOUT, type: 'image/png', bytes: picture },
          { name: 'plan.ics', about: 'The plan', type: 'text/calendar', bytes: dates },
        ],
      });
    },
  }),
]);

/** Soon enough to be answered at once, or so late that it is announced first. */
const HOW = [
  ['at once, for all', false, 0],
  ['at once, aside', true, 0],
  ['announced first, for all', false, 500],
  ['announced first, aside', true, 500],
] as const;

async function drawn(aside: boolean, wait: number, before: (counter: Awaited<ReturnType<typeof begin>>) => void = () => {}) {
  const counter = await begin({ commands: drawing, awaitMilliseconds: 250 });
  const { platform, bench, dana } = counter;
  before(counter);
  const asked = platform.command({ channel: bench, user: dana, name: 'draw', options: { wait, aside } });
  await asked.answered();
  await counter.quiet();
  return { ...counter, asked };
}

interface Part {
  readonly type: number;
  readonly items?: readonly { readonly description: string }[];
}
const partsOf = ({ body }: Posted) => (body.components as unknown as { components: Part[] }[])[0]?.components ?? [];
const shape = (message: Posted) => partsOf(message).map(({ type }) => type);
const deferred = ({ callbacks }: Exchange) => callbacks.map(({ type }) => type).join() === '5';

describe.each(HOW)('%s', (_, aside, wait) => {
  it('the picture is shown with words for it, and the file is there to take away', async () => {
    const { asked, troubles } = await drawn(aside, wait);
    const { message } = asked;
    expect(deferred(asked)).toBe(wait > 0);
    expect(message.aside).toBe(aside);
    // Title, words, gallery, file, buttons.
    expect(shape(message)).toEqual([10, 10, 12, 13, 1]);
    const [, , gallery, file] = partsOf(message);
    expect(gallery).toMatchObject({ items: [{ media: { url: 'attachment://board.png' } }] });
    const { description } = gallery?.items?.[0] ?? { description: '' };
    expect(ABOUT.startsWith(description.slice(0, -1))).toBe(true);
    expect(description.length).toBeGreaterThan(900);
    expect(description.length).toBeLessThanOrEqual(1024);
    expect(file).toMatchObject({ file: { url: 'attachment://plan.ics' } });
    expect(message.files.map(({ name, bytes }) => [name, Buffer.from(bytes)])).toEqual([
      ['board.png', picture],
      ['plan.ics', dates],
    ]);
    expect(message.files.map(({ attachment }) => attachment.description?.slice(0, 9))).toEqual(['Lion head', 'The plan']);
    expect(troubles).toEqual([]);
  });

  it.each([
    ['too large', 413, 40005],
    ['not allowed', 403, 50013],
    ['not understood', 400, 50035],
  ])('where the files are %s, the words come without, and say so', async (_, status, code) => {
    const { asked, troubles, happened } = await drawn(aside, wait, ({ platform }) => {
      const harm = { kind: 'status', status, code, when: 'before' } as const;
      if (wait === 0) platform.fault({ method: 'POST', path: CALLBACK, harm });
      else platform.fault({ path: aside ? /^\/webhooks\/[^/]+\/[^/]+$/ : /^\/webhooks\/.*original$/, harm });
    });
    const { message } = asked;
    expect(deferred(asked)).toBe(wait > 0);
    expect([message.aside, message.loading, message.files]).toEqual([aside, false, []]);
    expect(shape(message)).toEqual([10, 10, 10, 1]);
    expect(message.text).toMatch(/Drawn\nIn words\.\n-# Not sent along: board\.png, plan\.ics\. May I attach files/);
    expect(troubles).toEqual([]);
    expect(happened).toEqual(['files-not-taken']);
  });
});

it('where the answer comes too late and files may not be attached, the channel hears the words', async () => {
  const { platform, bench, dana, quiet, troubles, happened } = await begin({ commands: drawing, awaitMilliseconds: 50 });
  platform.deny(bench, PermissionFlagsBits.AttachFiles);
  const asked = platform.command({ channel: bench, user: dana, name: 'draw', options: { wait: 300 } });
  await sleep(150);
  asked.expire();
  await quiet();
  const said = platform.messagesIn(bench).at(-1);
  expect(said?.text).toContain('In words.');
  expect(said?.text).toContain('Not sent along');
  expect(said?.files).toEqual([]);
  expect(troubles).toEqual([]);
  expect(happened).toEqual(['answer-too-late', 'files-not-taken']);
});

it('an answer that another process was faster with is not said twice without its files', async () => {
  const { platform, bench, dana, quiet, happened } = await begin({ commands: drawing });
  platform.fault({ method: 'POST', path: CALLBACK, harm: { kind: 'status', status: 400, code: 40060, when: 'before' } });
  platform.command({ channel: bench, user: dana, name: 'draw' });
  await quiet();
  await sleep(200);
  expect(platform.requestsTo('POST', CALLBACK)).toHaveLength(1);
  expect(happened).toEqual(['answered-already']);
});
