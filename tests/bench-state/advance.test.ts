import { expect, it } from 'vitest';
import { advance, EMPTY, fold } from '../../src/bench/fold.ts';
import { room, START } from '../support/room.ts';

it('going on from a state leads to what the whole log leads to, undone things and all', async () => {
  const { type, house, close } = await room();
  await type('/shift duty who:you, kim', START, '[Step done]', '+20m', '[Mix next coat]', '[Cup poured]', '+10m', '[Coat done]');
  await type(
    '/undo',
    '[Coat done]',
    '+50m',
    '[Snooze]',
    '/handover give to:kim',
    '+20m',
    '@kim',
    '[Take over]',
    '/temp log value:19 C',
  );
  await type('/check result:ready', '/cup start amount:356 g', '+6h', '/done at:5h ago', '+20h', '/job hold', '/undo');
  const log = await house.bench('bench').log();
  expect(log.length).toBeGreaterThan(25);
  let state = EMPTY;
  log.forEach((event, index) => {
    state = advance(state, [event], log.slice(0, index + 1));
    expect(state).toEqual(fold(log.slice(0, index + 1)));
  });
  expect(advance(EMPTY, log, log)).toEqual(state);
  await close();
});
