import { describe, expect, it } from 'vitest';
import { complete } from '../../src/chat/complete.ts';
import { parseLine } from '../../src/chat/parse.ts';
import { isRefusal } from '../../src/words/refusal.ts';
import { studio } from './example.ts';

const suppliers = {
  material: () => ['brush-urethane', 'brush-silicone', 'Pour epoxy'],
  job: () => ['left-hand', 'see: this'],
  topic: () => ['mix', 'job start'],
};

describe('completion', () => {
  it.each([
    ['', ['/mix', '/job', '/check', '/shift', '/help'], ''],
    ['/', ['/mix', '/job', '/check', '/shift', '/help'], '/'],
    ['/J', ['/job'], '/J'],
    ['  /j', ['/job'], '/j'],
    ['/job ', ['start', 'note', 'list'], ''],
    ['/job ST', ['start'], 'ST'],
    ['/job start ho', ['holder:'], 'ho'],
    ['/mix br', ['brush-urethane', 'brush-silicone', 'brief:'], 'br'],
    ['/mix ', ['scale:', 'material:', 'amount:', 'by:', 'brief:'], ''],
    ['/mix material:BRUSH-U', ['brush-urethane'], 'BRUSH-U'],
    ['/mix material: pour e', ['Pour epoxy'], 'pour e'],
    ['/mix material:"pour', ['Pour epoxy'], '"pour'],
    ['/mix material:brush-urethane a', ['amount:'], 'a'],
    ['/mix material:x amount:1 g ', ['scale:', 'by:', 'brief:'], ''],
    ['/mix material:x by:', ['weight', 'volume'], ''],
    ['/mix material:x by:v', ['volume'], 'v'],
    ['/mix material:x brief:', ['yes', 'no'], ''],
    ['/mix material:x amount:', [], ''],
    ['/mix material:x amount:b', [], ''],
    ['/job note text:x job:s', ['"see: this"'], 's'],
    ['/help j', ['job start'], 'j'],
    ['/gone x', [], ''],
    ['/job gone x', [], ''],
  ])('%j', (line, candidates, replaced) => {
    const found = complete(studio, line, suppliers);
    expect(found.candidates).toEqual(candidates);
    expect(line.slice(found.from)).toBe(replaced);
  });

  it('offers what the parser takes', () => {
    const line = '/job note text:x job:s';
    const { from, candidates } = complete(studio, line, suppliers);
    const call = parseLine(studio, line.slice(0, from) + candidates[0]);
    expect(isRefusal(call) ? call.code : call.raw.job).toBe('see: this');
  });
});
