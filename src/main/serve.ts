import { setTimeout as pause } from 'node:timers/promises';
import { Bot } from '../adapters/discord/bot.ts';
import { clientFor } from '../adapters/discord/client.ts';
import { givenUp, isWrongToken } from '../adapters/discord/ending.ts';
import { OutboxClosed } from '../adapters/discord/sending/outbox.ts';
import { openLog } from '../adapters/log/log.ts';
import { pngPainter } from '../adapters/png/painter.ts';
import { SystemClock } from '../adapters/system-clock/clock.ts';
import { recurring } from '../adapters/system-clock/cron.ts';
import { Metrics } from '../adapters/watch/metrics.ts';
import { openWatch } from '../adapters/watch/server.ts';
import { problemText } from '../adapters/yaml/problem.ts';
import { shownBoard } from '../desk/board.ts';
import { openApp } from './app.ts';
import { memoryIn } from './memory.ts';
import { observing } from './observer.ts';
import { onlyOne } from './only-one.ts';
import type { ServeOptions } from './options.ts';
import type { Settings } from './settings.ts';
import { WrongUsage } from './usage.ts';

const LOGIN_AGAIN_MS = { first: 5_000, most: 60_000 };

/**
 * The bot on the chat platform, until it is told to end; resolves to the exit code: 0 when told, 2 where a setting is wrong, 1
 * when it cannot go on and should be started anew.
 */
export async function serve(
  root: string,
  options: ServeOptions,
  settings: Settings,
  errors: NodeJS.WritableStream,
): Promise<number> {
  const { token, shards, api, port, logLevel } = settings;
  if (token === null) throw new WrongUsage('serve needs the bot’s token in DISCORD_TOKEN; .env.example says more.');
  const log = logAt(logLevel, token);
  const metrics = new Metrics();
  const observer = observing(log, metrics, () => bot.connected);
  const clock = new SystemClock({ failed: (error) => observer.trouble('timer', error) });
  const client = clientFor({ shards, api });
  const painter = pngPainter((error) => observer.trouble('picture', error));
  const bot: Bot = new Bot({
    client,
    token,
    clock,
    observer,
    memory: memoryIn(() => app.keyv),
    board: (view) => shownBoard(view, painter),
  });
  const opened = openApp({
    ...bot.outgoing,
    root,
    ...options,
    zone: null,
    clock,
    painter,
    // Whoever waits for a turn when the program is told to end is looked after at the next start.
    trouble: (error) => (error instanceof OutboxClosed ? undefined : observer.trouble('bench', error)),
  });
  if (Array.isArray(opened)) {
    errors.write(`${opened.map(problemText).join('\n')}\n`);
    return 1;
  }
  const app = opened;
  const ended = Promise.race([toldToEnd(), givenUp(client).then(whyGivenUp)]);
  const survived = (error: unknown) => observer.trouble('unhandled', error);
  process.on('unhandledRejection', survived);
  const storage = () =>
    app.keyv.get('health').then(
      () => true,
      () => false,
    );
  const health = async () => {
    const gateway = bot.connected;
    const stored = await storage();
    return { ok: gateway && stored, gateway, storage: stored };
  };
  // From here on it can be told to end, also while it waits for another one to give up its place.
  log.info('opened');
  const giveUp = await Promise.race([ended, onlyOne(options.dataDir, shards)]);
  if (typeof giveUp === 'number') {
    await app.close();
    return giveUp;
  }
  if (giveUp === null) {
    errors.write(`Another process serves the same servers from ${options.dataDir} already.\n`);
    await app.close();
    return 1;
  }
  const watch = port === null ? null : await watchAt(port, metrics, health);
  log.info('started', { shards: shardsText(shards), ...(watch ? { port: watch.port } : {}) });
  // A hint too many does no harm; a timer that was lost costs an hour at most.
  const stopHints = recurring(['0 * * * *'], 'Etc/UTC', () => bot.wake());
  try {
    return await Promise.race([ended, connected()]);
  } finally {
    stopHints();
    await bot.stop();
    await watch?.close();
    await app.close();
    giveUp();
    process.off('unhandledRejection', survived);
    log.info('ended');
    log.close();
  }

  function whyGivenUp(wrong: string | null): number {
    if (wrong !== null) errors.write(`${wrong}\n`);
    return wrong === null ? 1 : 2;
  }

  /** Tries until the platform can be reached; then it is the end that is waited for. */
  async function connected(): Promise<number> {
    bot.begin(app);
    for (let wait = LOGIN_AGAIN_MS.first; ; wait = Math.min(2 * wait, LOGIN_AGAIN_MS.most)) {
      try {
        await bot.knock();
        break;
      } catch (error) {
        observer.trouble('login', error);
        if (isWrongToken(error)) {
          errors.write('The platform does not take the token in DISCORD_TOKEN.\n');
          return 2;
        }
        await pause(wait, undefined, { ref: false });
      }
    }
    try {
      await bot.connect();
      return await ended;
    } catch (error) {
      observer.trouble('login', error);
      return isWrongToken(error) ? 2 : 1;
    }
  }
}

const shardsText = (shards: Settings['shards']): string =>
  shards === 'auto' ? 'auto' : `${shards.ids.join('-')}-of-${shards.of}`;

async function watchAt(port: number, metrics: Metrics, health: Parameters<typeof openWatch>[0]['health']) {
  try {
    return await openWatch({ port, metrics, health });
  } catch (error) {
    throw new WrongUsage(`COATBELL_PORT: ${(error as Error).message}`);
  }
}

function logAt(level: string, token: string) {
  try {
    return openLog({ level, secrets: [token] });
  } catch (error) {
    throw new WrongUsage(`COATBELL_LOG: ${(error as Error).message}`);
  }
}

/** Resolves when somebody tells it to end. */
const toldToEnd = (): Promise<number> =>
  new Promise((resolve) => {
    // Kept to the very end: whoever tells it twice is impatient, and would cut short what the first began.
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => resolve(0));
  });
