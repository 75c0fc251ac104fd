// `npm start`: makes sure that everything is in place, then runs the program.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { loadEnvFile } from 'node:process';
import { prepare, root } from './prepare.mjs';

// What the environment says goes before what stands in the file.
const settings = join(root, '.env');
if (existsSync(settings)) loadEnvFile(settings);
await prepare({ withDevelopment: false, bundled: true });
const { run } = await import('../../.build/coatbell.mjs');
process.exitCode = await run({ root, argv: process.argv.slice(2) });
