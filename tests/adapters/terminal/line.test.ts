import { expect, it } from 'vitest';
import { type Asked, askedBy } from '../../../src/adapters/terminal/line.ts';

const nothing: Asked = { as: 'nothing' };

it.each<[string, Asked]>([
  ['', nothing],
  ['   ; words /done', nothing],
  ['\uFEFF/help', { as: 'command', line: '/help' }],
  ['  /mix amount:5 g ', { as: 'command', line: '/mix amount:5 g' }],
  ['[ Coat done ]', { as: 'press', label: 'Coat done' }],
  ['[]', { as: 'unknown', text: '[]' }],
  ['+2h30m', { as: 'advance', by: '2h30m' }],
  ['+ until 07:30', { as: 'advance-until', wallClock: '07:30' }],
  ['@dana', { as: 'speaker', who: 'dana', next: nothing }],
  ['@dana /done', { as: 'speaker', who: 'dana', next: { as: 'command', line: '/done' } }],
  [
    '@dana #bench-2 [Undo]',
    { as: 'speaker', who: 'dana', next: { as: 'channel', channel: 'bench-2', next: { as: 'press', label: 'Undo' } } },
  ],
  ['#bench-2', { as: 'channel', channel: 'bench-2', next: nothing }],
  ['@dana is it ready?', { as: 'unknown', text: '@dana is it ready?' }],
  ['@', { as: 'unknown', text: '@' }],
  ['done', { as: 'unknown', text: 'done' }],
])('%j', (typed, asked) => {
  expect(askedBy(typed)).toEqual(asked);
});
