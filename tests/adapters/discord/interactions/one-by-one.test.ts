import { expect, it } from 'vitest';
import { OneByOne } from '../../../../src/adapters/discord/interactions/one-by-one.ts';

it('does one at a time, in order, whatever becomes of those before', async () => {
  const queue = new OneByOne();
  const seen: string[] = [];
  let atWork = 0;
  const work = (name: string) => async () => {
    atWork += 1;
    expect(atWork).toBe(1);
    await new Promise((resolve) => setTimeout(resolve, 30));
    atWork -= 1;
    seen.push(name);
    if (name === 'b') throw new Error('no');
    return name;
  };
  const all = await Promise.allSettled(['a', 'b', 'c'].map((name) => queue.inTurn(work(name))));
  expect(all.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'fulfilled']);
  expect(seen).toEqual(['a', 'b', 'c']);
});

it('lets whatever else has come up have its turn in between', async () => {
  const queue = new OneByOne();
  const seen: string[] = [];
  const first = queue.inTurn(async () => {
    setTimeout(() => seen.push('else'), 20);
    seen.push('first');
  });
  const second = queue.inTurn(async () => void seen.push('second'));
  await Promise.all([first, second]);
  expect(seen).toEqual(['first', 'else', 'second']);
});

it('takes no more than can be answered in time, and takes some again later', async () => {
  const queue = new OneByOne();
  let open = () => {};
  const gate = new Promise<void>((resolve) => {
    open = resolve;
  });
  const first = queue.inTurn(() => gate);
  const waiting = Array.from({ length: 12 }, () => queue.inTurn(async () => 'done'));
  expect(await queue.inTurn(async () => 'too many')).toBeNull();
  open();
  await first;
  const again = queue.inTurn(async () => 'again');
  expect(await Promise.all(waiting)).toEqual(Array(12).fill('done'));
  expect(await again).toBe('again');
});
