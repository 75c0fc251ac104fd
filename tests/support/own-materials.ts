import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';

/** Loads a list of materials into the studio of whoever types. */
export async function loadMaterials(type: (line: string) => Promise<MessageObject[]>, list: string): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'coatbell-own.'));
  writeFileSync(join(folder, 'own.yaml'), list);
  const [answer] = await type(`/material load file:${join(folder, 'own.yaml')}`);
  rmSync(folder, { recursive: true });
  expect(answer?.kind, answer?.text).toBe('reply');
}
