import type { Observer } from '../adapters/discord/observer.ts';
import type { Log } from '../adapters/log/log.ts';
import type { Metrics } from '../adapters/watch/metrics.ts';

/** What may change whether all shards are connected. */
const CONNECTION: ReadonlySet<string> = new Set(['ready', 'resumed', 'disconnected', 'reconnecting']);

/** What goes on, into the log and the counters. */
export const observing = (log: Log, metrics: Metrics, connected: () => boolean): Observer => ({
  answered(what) {
    metrics.answered(what);
    log.info('answered', { ...what, milliseconds: Math.round(what.milliseconds) });
  },
  rang(what) {
    metrics.rang(what);
    log.info('rang', { ...what, lateMilliseconds: Math.round(what.lateMilliseconds) });
  },
  waiting: (benches) => metrics.waiting(benches),
  happened(event, about) {
    if (CONNECTION.has(event)) metrics.gateway(connected());
    log.info(event, about);
  },
  trouble(where, error) {
    metrics.trouble(where);
    log.trouble(where, error);
  },
});
