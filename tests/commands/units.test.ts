import { describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { commands } from '../../src/main/registry.ts';
import { code, room, SETTING, START } from '../support/room.ts';

/** Whatever a card measures, it measures in the studio's own units. */

const METRIC = /(?<![\w.])\d[\d.,]* ?(?:mg|g|kg|mL|L|mm|cm|m|cm²|m²|°C|g\/mL|g\/min|Pa)(?![\w²/]| for each mole)/u;
const CUSTOMARY = /(?<![\w.])\d[\d.,]* ?(?:oz|lb|in|ft|sq ft|sq in|fl oz|gal|°F|psi)(?![\w/]| all)/u;

/** What the card says by itself: without the line that can be typed, and without what somebody typed. */
const ownWords = ({ title, text }: MessageObject) =>
  `${title}\n${text}`
    .split('\n')
    .filter((line) => !/^For example: |Source: /.test(line.trim()))
    .map((line) => line.replace(/“[^”]*”/g, '').replace(/\/\w+( \w+)* \w+:.*$/, ''))
    .join('\n');

/** Somebody types lengths of a shape in one system or the other, and is told them back so. */
const asTyped = (text: string) => text.replace(/\d+ cm (?:across|x|high|long|wide)[^)]*?(?=[,:)]|$)/g, '');

const JOURNEY = [
  '/temp log value:64 F humidity:55 %',
  '/temp expect day:21 C night:14 C',
  START,
  '[Step done]',
  '+20m',
  '/mix',
  '/mix by:volume',
  '/cup start amount:277 g',
  '/board',
  '/handover brief',
  '[Coat done]',
  '/temp log value:10 C',
  '/job show',
  '/board',
  '+3h',
  '/temp show',
  '/undo',
  '/cup start material:shell-paste amount:9 kg',
  '/mix material:brush-urethane amount:10 g',
  '/mix material:brush-urethane amount:3 kg',
  '/mix material:brush-urethane amount:300 g with:0.01 % pigment',
  '/mix material:brush-urethane area:0.4 m2 thickness:20 mm',
  '/cast material:cast-resin-fast shape:half sphere 20 cm wall:30 cm',
  '/material show casting-plaster',
  '/material show cast-resin-fast',
  '/studio show',
];

const examples = [...commands.declarations.values()]
  .flatMap((declaration) => declaration.examples)
  .filter((line) => !line.startsWith('/studio set') && !line.startsWith('/material load') && !line.startsWith('/help'));

async function told(set: string, lines: readonly string[]): Promise<MessageObject[]> {
  const { type, troubles, close } = await room();
  await type(set);
  const answers = await type(...lines);
  expect(troubles).toEqual([]);
  await close();
  return answers;
}

describe.each([
  ['the journey of a job', JOURNEY],
  ['all examples', [...SETTING, '@lee', ...examples]],
])('%s', (_, lines) => {
  it('in a metric studio shows metric units alone', async () => {
    for (const message of await told('/studio set units:metric', lines))
      expect(asTyped(ownWords(message)), message.title).not.toMatch(CUSTOMARY);
  });

  it('in a customary one whose scale shows ounces, has metric units in brackets alone', async () => {
    for (const message of await told('/studio set units:customary scale:0.1 oz cups:0.5 fl oz', lines)) {
      const outside = asTyped(ownWords(message)).replace(/ \([^()]*\)/g, '');
      // A syringe shows millilitres everywhere.
      expect(outside.replace(/(\d\. catalyst: .*?), [\d.]+ mL/, '$1'), message.title).not.toMatch(METRIC);
    }
  });

  it('in a customary one whose scale shows grams, has no measure without its customary one', async () => {
    for (const message of await told('/studio set units:customary scale:1 g', lines)) {
      // What the scale shows is grams alone; whatever else has both, one of them in brackets.
      const both = asTyped(ownWords(message))
        .replace(/[\d.,]+ (?:g|mL|kg) \([\d.]+ (?:lb|oz|fl oz)[^()]*\)/g, '')
        .replace(/ \([^()]*\)/g, '')
        .replace(/(\d\. catalyst: .*?), [\d.]+ mL/, '$1')
        .split('\n')
        .map((line) => line.replace(/(?:scale shows|smallest batch (?:on this scale|in these measuring cups)) [\d.]+ k?g/g, ''))
        .filter((line) => message.kind !== 'refusal' && !/[\d.]+ g = [\d.]+ g ×|→| powder into [\d.]+ g water/.test(line));
      expect(both.join('\n'), message.title).not.toMatch(METRIC);
    }
  });
});

it('a card of the studio shows its scale and its cups as they are marked', async () => {
  const [set] = await told('/studio show', ['/studio set units:customary scale:0.1 oz carries:11 lb cups:0.5 fl oz']);
  expect(set?.text).toContain('Scale: steps of 0.1 oz (2.83 g), up to 11 lb (4990 g).');
  expect(set?.text).toContain('Measuring cups: steps of 0.5 fl oz (14.8 mL).');
  const [metric] = await told('/studio set units:metric', ['/studio show']);
  expect(metric?.text).toContain('Scale: steps of 1 g, up to 5000 g. Measuring cups: steps of 5 mL.');
});

it('a refusal of a setting speaks the units that it sets', async () => {
  const [refused] = await told('/studio set scale:1 g', ['/studio set units:customary scale:0.1 oz carries:0.05 oz']);
  expect(code(refused)).toBe('bad-setting');
  expect(refused?.text).toContain('more than one step of 0.1 oz (2.8 g), got 0.05 oz (1.4 g)');
  expect(refused?.text).toContain('/studio set carries:100 oz');
});

it('what is measured in cups marked in fluid ounces is read off in them', async () => {
  const [mix] = await told('/studio set units:customary cups:0.125 fl oz', [
    '/mix material:brush-urethane amount:500 g by:volume',
  ]);
  expect(mix?.text).toMatch(/^1\. B: \d+(?:\.\d+)? fl oz \(\d+ mL\), \d+ g \([\d.]+ oz\)/m);
  const [small] = await told('/studio set units:customary cups:0.5 fl oz', [
    '/mix material:brush-urethane amount:2 fl oz by:volume',
  ]);
  expect(small?.text).toContain('too little for steps of 0.5 fl oz');
});
