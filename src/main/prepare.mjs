// Gets a fresh clone ready with Node and npm alone: installs from the lock file and bundles the program when needed.
// Run as `node src/main/prepare.mjs test` it installs the development packages too. Everything it says goes to
// standard error, so that the program's own output stays clean.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../../', import.meta.url));
const buildDir = join(root, '.build');
const bundle = join(buildDir, 'coatbell.mjs');
const stampFile = join(buildDir, 'stamp');

const readJson = (path) => JSON.parse(readFileSync(path, 'utf8'));
const sleep = (ms) => Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);

/** True when every package that the lock file asks for stands in node_modules at the locked version. */
function installed(withDevelopment) {
  const record = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(record)) return false;
  const have = readJson(record).packages;
  return Object.entries(readJson(join(root, 'package-lock.json')).packages).every(
    ([path, wanted]) =>
      path === '' ||
      wanted.optional ||
      wanted.devOptional ||
      (wanted.dev && !withDevelopment) ||
      have[path]?.version === wanted.version,
  );
}

function install(withDevelopment) {
  process.stderr.write('Coatbell: installing packages from the lock file …\n');
  const flags = ['ci', withDevelopment ? '--include=dev' : '--omit=dev', '--ignore-scripts', '--no-audit', '--no-fund'];
  const npm = process.env.npm_execpath;
  const [program, args] = npm ? [process.execPath, [npm, ...flags]] : ['npm', flags];
  const done = spawnSync(program, args, {
    cwd: root,
    stdio: ['ignore', 2, 2],
    env: { ...process.env, npm_config_loglevel: 'error' },
    shell: !npm && process.platform === 'win32',
  });
  if (done.status !== 0) {
    process.stderr.write('Coatbell: the packages could not be installed. Is the npm registry within reach?\n');
    process.exit(1);
  }
}

/** A short text that changes when any source file does; by what is in them, as an image or an archive keeps no exact times. */
function sourceStamp() {
  const files = ['package-lock.json', 'src/main/prepare.mjs'];
  for (const dir of ['src', 'commands'])
    for (const name of readdirSync(join(root, dir), { recursive: true })) files.push(join(dir, name));
  const hash = createHash('sha256');
  for (const file of files.sort())
    if (statSync(join(root, file)).isFile())
      hash
        .update(`${file}\0`)
        .update(readFileSync(join(root, file)))
        .update('\0');
  return hash.digest('hex');
}

const built = () => existsSync(bundle) && existsSync(stampFile) && readFileSync(stampFile, 'utf8') === sourceStamp();

async function build() {
  if (built()) return;
  const stamp = sourceStamp();
  const { build } = await import('esbuild');
  const fresh = `${bundle}.${process.pid}`;
  await build({
    entryPoints: [join(root, 'src/main/program.ts')],
    outfile: fresh,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    packages: 'external',
    sourcemap: 'inline',
    logLevel: 'error',
  });
  renameSync(fresh, bundle);
  writeFileSync(stampFile, stamp);
}

/** Two programs started at once in a fresh clone must not install over each other: the second one waits. */
function oneAtATime(work) {
  mkdirSync(buildDir, { recursive: true });
  const lock = join(buildDir, 'preparing');
  for (;;) {
    try {
      writeFileSync(lock, String(process.pid), { flag: 'wx' });
      break;
    } catch (error) {
      if (error.code !== 'EEXIST') throw error;
      if (!holderLives(lock)) rmSync(lock, { force: true });
      else sleep(100);
    }
  }
  const release = () => rmSync(lock, { force: true });
  process.once('exit', release);
  return Promise.resolve(work()).finally(release);
}

function holderLives(lock) {
  try {
    const pid = Number(readFileSync(lock, 'utf8'));
    // The file stands empty for a moment while its maker writes into it.
    if (!pid) return Date.now() - statSync(lock).mtimeMs < 2000;
    process.kill(pid, 0);
    return pid !== process.pid;
  } catch (error) {
    return error.code === 'EPERM';
  }
}

export async function prepare({ withDevelopment, bundled }) {
  // Where all is in place nothing is written, so that the program may stand where it cannot write.
  if (installed(withDevelopment) && (!bundled || built())) return;
  await oneAtATime(async () => {
    if (!installed(withDevelopment)) install(withDevelopment);
    if (bundled) await build();
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  await prepare({ withDevelopment: process.argv[2] === 'test', bundled: false });
