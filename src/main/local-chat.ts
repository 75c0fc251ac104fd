import { join } from 'node:path';
import { Session, type SessionParts } from '../adapters/terminal/session.ts';
import { Transcript } from '../adapters/terminal/transcript.ts';
import type { Problem } from '../adapters/yaml/problem.ts';
import { StandingClock } from '../bench/standing-clock.ts';
import { type App, type AppParts, openApp } from './app.ts';
import { startOf } from './at.ts';
import { commands } from './registry.ts';
import { type ShiftHints, shiftHints } from './shift-hints.ts';
import { WrongUsage } from './usage.ts';

export interface LocalChatParts extends Omit<AppParts, 'post'> {
  /** Where a standing clock starts, as it was typed; null leaves the clock as it is. */
  readonly at: string | null;
  readonly show: SessionParts['show'];
  /** Tells people, aside from the chat, how what they asked for was understood. */
  readonly notice?: (text: string) => void;
}

export interface LocalChat {
  readonly app: App;
  readonly session: Session;
  readonly transcript: Transcript;
  /** Sends what fell due while the program was not running. Call it when messages can be shown. */
  wake(): Promise<void>;
  line(typed: string): Promise<void>;
  close(): Promise<void>;
}

/** The app with the local chat for its surface; or the problems of the configuration. Throws `WrongUsage`. */
export async function openLocalChat({ at, show, notice, ...parts }: LocalChatParts): Promise<LocalChat | Problem[]> {
  const { clock, trouble } = parts;
  // Nothing is announced before `wake`, by when the session stands.
  const app = openApp({ ...parts, post: (card, channel, id) => session.ping(card, channel, id) });
  if (Array.isArray(app)) return app;
  const { house, configuration } = app;
  // Only the stored studio knows the zone in which the start is meant.
  if (clock instanceof StandingClock && at !== null) {
    const { zone } = await house.studio();
    const start = startOf(at, zone);
    if (start?.kind === 'left-out') {
      await app.close();
      throw new WrongUsage(
        `--at ${at} does not exist in ${zone}: the clocks go from ${start.before} on to ${start.after}. Give a time up to ${start.before} or from ${start.after} on.`,
      );
    }
    if (start?.kind === 'twice') notice?.(`${at} comes twice in ${zone}, as the clocks go back; the first is taken.`);
    await clock.advanceTo(start?.at ?? clock.now());
  }
  const transcript = new Transcript(parts.dataDir === null ? null : join(parts.dataDir, 'shown.jsonl'));
  const { materials, recipes } = configuration;
  const session = new Session({ house, commands, materials, recipes, clock, transcript, show, trouble });
  const hints: ShiftHints | null = clock instanceof StandingClock ? null : shiftHints(house, trouble);
  return {
    app,
    session,
    transcript,
    async wake() {
      await house.wakeAll();
      await hints?.follow();
    },
    async line(typed) {
      await session.line(typed);
      await hints?.follow();
    },
    async close() {
      hints?.stop();
      await app.close();
    },
  };
}
