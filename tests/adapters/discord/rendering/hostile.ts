import fc from 'fast-check';

const TRICKS = [
  '@everyone',
  '@here',
  '<@12345678>',
  '<@!12345678>',
  '<@&12345678>',
  '<#12345678>',
  '</done:12345678>',
  '<:x:12345678>',
  '<a:x:12345678>',
  '<t:1:R>',
  '<id:customize>',
  '[here](https://example.org)',
  'https://example.org/a_b_c',
  '<https://example.org>',
  'discord.gg/abc',
  ':fire:',
  '**',
  '__',
  '~~',
  '||',
  '`',
  '```',
  '\\',
  '\n',
  '\n- ',
  '\n1. ',
  '1.',
  '- ',
  '# ',
  '-# ',
  '>>> ',
  '> ',
  '1 * 2 * 3',
  '\u202e',
  '\u200b',
  '@every\u200bone',
  '\ufeff',
  '\u001b[31m',
  '\ud800',
  '👩‍🔧',
  'Gießharz 12,5 %',
];

/** What somebody types who means harm, or whose keyboard does. */
export const hostile = fc
  .array(fc.oneof(fc.constantFrom(...TRICKS), fc.string({ unit: 'binary', maxLength: 8 }), fc.string({ maxLength: 8 })), {
    maxLength: 12,
  })
  .map((parts) => parts.join(''));
