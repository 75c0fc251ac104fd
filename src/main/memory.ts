import type { Keyv } from 'keyv';
import type { Memory } from '../adapters/discord/memory.ts';

/** What the chat platform's side remembers, beside the events in the same store. */
export const memoryIn = (keyv: () => Keyv): Memory => ({
  get: (key) => keyv().get(keyOf(key)),
  set: async (key, value) => void (await keyv().set(keyOf(key), value)),
  delete: async (key) => void (await keyv().delete(keyOf(key))),
});

const keyOf = (key: string) => `platform/${key}`;
