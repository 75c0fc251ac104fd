import type { BenchState } from '../bench/fold.ts';
import type { Studio } from '../bench/studio.ts';
import type { Tone } from '../chat/card.ts';
import type { Way } from '../words/refusal.ts';
import type { Text } from '../words/text.ts';

/** What a ping is told with. */
export interface PingView {
  readonly channel: string;
  readonly state: BenchState;
  readonly studio: Studio;
  readonly now: number;
  readonly late: boolean;
}

/** The words of a ping, before what all pings have. */
export interface Said {
  readonly title: Text;
  readonly lines: readonly Text[];
  readonly tone: Tone;
  readonly buttons: readonly Way[];
}
