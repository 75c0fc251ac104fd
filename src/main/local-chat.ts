import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Session, type SessionParts } from '../adapters/terminal/session.ts';
import { Transcript } from '../adapters/terminal/transcript.ts';
import type { Problem } from '../adapters/yaml/problem.ts';
import type { House } from '../bench/house.ts';
import { StandingClock } from '../bench/standing-clock.ts';
import { EVERYBODY_AT_ONCE, LOCAL } from '../bench/studios.ts';
import { pingCard } from '../cards/ping-card.ts';
import { type App, type AppParts, openApp } from './app.ts';
import { startOf } from './at.ts';
import { type ShiftHints, shiftHints } from './shift-hints.ts';
import { WrongUsage } from './usage.ts';

export interface LocalChatParts extends Omit<AppParts, 'turns' | 'announce' | 'changed' | 'forgot'> {
  /** Where a standing clock starts, as it was typed; null leaves the clock as it is. */
  readonly at: string | null;
  readonly show: SessionParts['show'];
  /** Tells people, aside from the chat, how what they asked for was understood. */
  readonly notice?: (text: string) => void;
}

export interface LocalChat {
  readonly app: App;
  readonly house: House;
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
  const app = openApp({
    ...parts,
    turns: EVERYBODY_AT_ONCE,
    announce: async (ping, about) => {
      await session.ping(pingCard(ping, about), about.channel, ping.id);
      return 'sent';
    },
    changed: () => {},
    forgot: async () => transcript.clear(),
  });
  if (Array.isArray(app)) return app;
  const { office } = app;
  const house = app.studios.house(LOCAL);
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
  const filesDir = join(parts.dataDir ?? tmpdir(), parts.dataDir === null ? `coatbell-${process.pid}` : 'files');
  const session = new Session({ house, office, transcript, filesDir, show, trouble });
  const hints: ShiftHints | null = clock instanceof StandingClock ? null : shiftHints(house, trouble);
  return {
    app,
    house,
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
