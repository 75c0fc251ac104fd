import { PNG } from 'pngjs';
import { expect, vi } from 'vitest';
import type { ShownBoard } from '../../../../src/adapters/discord/sending/board-pictures.ts';
import { boardCard } from '../../../../src/cards/board-card.ts';
import { did, started } from '../../../support/given.ts';
import { world } from './sending.ts';

export const until = (holds: () => unknown) => vi.waitFor(holds, { timeout: 8000 });
/** A picture that is never the same twice, as one with a mark for the time. */
export function drawing(width = 40) {
  let drawn = 0;
  const pictures: Buffer[] = [];
  const board: ShownBoard = async (view) => {
    drawn += 1;
    const picture = new PNG({ width, height: 4 });
    picture.data.fill(drawn & 255);
    const bytes = PNG.sync.write(picture);
    pictures.push(bytes);
    const files = view.state.jobs.size === 0 ? [] : [{ name: 'board.png', about: 'One job', type: 'image/png' as const, bytes }];
    return { ...boardCard(view), files };
  };
  return { board, pictures };
}

/** A room with a live board, and a picture on it. */
export async function bench(how: Parameters<Awaited<ReturnType<typeof world>>['comesUp']>[0] = {}) {
  const all = await world();
  const drawn = drawing();
  const { server, room, dana, platform, comesUp } = all;
  const by = dana.user.id;
  const up = (more: typeof how = {}) => comesUp({ board: drawn.board, ...how, ...more });
  const bot = up();
  const board = () => {
    const [only, ...others] = platform.messagesIn(room);
    expect(others).toEqual([]);
    return only;
  };
  const names = () => board()?.files.map(({ name }) => name);
  const edits = () => platform.requestsTo('PATCH', /^\/channels\//);
  const posts = () => platform.requestsTo('POST', `/channels/${room.id}/messages`);
  const begins = () => bot.tell(server, room, started('08:00', { by }));
  const goesOn = (step: string, on = bot) => on.tell(server, room, did(step, '08:00', { by }));
  const stands = () =>
    until(async () => expect((await bot.records.read(server.id)).boards[room.id]?.message).toBe(board()?.id ?? 'none yet'));
  const remembered = async () => (await bot.records.read(server.id)).boards[room.id];
  const calm = () => expect([bot.troubles, platform.complaints]).toEqual([[], []]);
  return { ...all, by, bot, up, board, names, edits, posts, begins, goesOn, stands, remembered, calm, pictures: drawn.pictures };
}
