import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { registration } from '../../src/chat/registration.ts';
import { commands } from '../../src/main/registry.ts';
import { room, SETTING } from '../support/room.ts';

it('registers every command of the folder, and no other', () => {
  const files = readdirSync(fileURLToPath(new URL('../../commands/', import.meta.url))).map((file) => file.replace(/\.ts$/, ''));
  expect(commands.entries.map(({ name }) => name).sort()).toEqual(files.sort());
});

it('derives the platform’s registration for all of them', () => {
  const bodies = registration(commands);
  expect(bodies.map(({ name }) => name)).toEqual(commands.entries.map(({ name }) => name));
  expect(JSON.stringify(bodies)).not.toContain('undefined');
});

/** Refusals that an example may meet in this setting although it is right: it speaks of another moment of the job. */
const OUT_OF_PLACE = new Set([
  'no-missed-window',
  'not-on-hold',
  'cup-ended',
  'unknown-cup',
  'too-soon',
  'nothing-to-snooze',
  'no-own-list',
  'no-own-recipe',
  'no-holiday',
]);

const examples = [...commands.declarations.values()].flatMap((declaration) => declaration.examples);
it.each(examples)('understands its own example: %s', async (example) => {
  const { type, troubles, close } = await room();
  await type(...SETTING);
  const [answer] = await type('@lee', example);
  expect(troubles).toEqual([]);
  const { refusal } = (answer?.data ?? {}) as { refusal?: { code: string } };
  if (refusal) expect(OUT_OF_PLACE).toContain(refusal.code);
  await close();
});
