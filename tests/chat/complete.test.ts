import { describe, expect, it } from 'vitest';
import { type Asking, complete, offersFor } from '../../src/chat/complete.ts';
import { someone, text } from '../../src/chat/options.ts';
import { parseLine } from '../../src/chat/parse.ts';
import { registry } from '../../src/chat/registry.ts';
import { isRefusal } from '../../src/words/refusal.ts';
import { command, studio } from './example.ts';

const offers = (...values: string[]) => values.map((value) => ({ value, title: `The ${value}` }));
const suppliers = {
  material: () => offers('brush-urethane', 'brush-silicone', 'Pour epoxy'),
  job: () => offers('left-hand', 'see: this'),
  topic: () => offers('mix', 'job start'),
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

  it('offers what people pick from a list by value or by title, what begins so first', () => {
    const option = studio.declarations.get('mix')?.options.find(({ name }) => name === 'material');
    const list = {
      material: () => [
        { value: 'shell-paste', title: 'A paste for brush or trowel' },
        { value: 'clear', title: 'Brush-on clear' },
        { value: 'brush-urethane', title: 'A rubber' },
      ],
    };
    const found = (typed: string) => (option ? offersFor(option, typed, {}, list).map(({ value }) => value) : null);
    expect(found(' BRUSH')).toEqual(['brush-urethane', 'clear', 'shell-paste']);
    expect(found('')).toEqual(['shell-paste', 'clear', 'brush-urethane']);
    expect(found('epoxy')).toEqual([]);
  });

  it('tells whoever offers what else the line says', () => {
    const asked: Asking[] = [];
    const asking = (each: Asking) => {
      asked.push(each);
      return [];
    };
    complete(studio, '/job note The rim is thin job:le', { job: asking });
    complete(studio, '/mix amount:1 g material:', { material: asking });
    complete(studio, '/mix br', { material: asking });
    expect(asked).toEqual([
      { name: 'job', others: { text: 'The rim is thin' }, typed: 'le' },
      { name: 'material', others: { amount: '1 g' }, typed: '' },
      { name: 'material', others: {}, typed: 'br' },
    ]);
  });

  it('offers nobody twice in a list of people', () => {
    const give = command({
      name: 'give',
      summary: 'Hand over',
      options: {
        to: text({ about: 'To whom', complete: 'person' }),
        from: someone({ about: 'By whom', complete: 'person' }).optional(),
      },
      examples: ['to:kim'],
      run: () => Promise.reject(new Error('never run')),
    });
    const people = { person: () => ['kim', 'dana', 'Lee'].map((value) => ({ value, title: value })) };
    const found = (line: string) => complete(registry([give]), line, people).candidates;
    expect(found('/give to:kim, ')).toEqual(['kim, dana', 'kim, Lee']);
    expect(found('/give to:@Kim; lee, ')).toEqual(['@Kim; lee, dana']);
    expect(found('/give to:kim, d')).toEqual(['kim, dana']);
    expect(found('/give to:kim from:k')).toEqual(['kim']);
    expect(found('/give to:kim from:kim, ')).toEqual([]);
  });
});
