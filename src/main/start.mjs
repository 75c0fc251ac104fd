// `npm start`: makes sure that everything is in place, then runs the program.
import { prepare, root } from './prepare.mjs';

await prepare({ withDevelopment: false, bundled: true });
const { run } = await import('../../.build/coatbell.mjs');
process.exitCode = await run({ root, argv: process.argv.slice(2) });
