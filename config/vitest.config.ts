import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { ClosingLine } from './closing-line.ts';

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    include: ['tests/**/*.test.ts'],
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
    reporters: ['default', new ClosingLine()],
    testTimeout: 30_000,
  },
});
