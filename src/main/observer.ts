import type { Observer } from '../adapters/discord/observer.ts';
import type { Log } from '../adapters/log/log.ts';
import type { Metrics } from '../adapters/watch/metrics.ts';

/** What says whether the gateway is up. */
const CONNECTION: Readonly<Record<string, boolean>> = { ready: true, resumed: true, disconnected: false, reconnecting: false };

/** What goes on, into the log and the counters. */
export const observing = (log: Log, metrics: Metrics): Observer => ({
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
    const up = CONNECTION[event];
    if (up !== undefined) metrics.gateway(up);
    log.info(event, about);
  },
  trouble(where, error) {
    metrics.trouble(where);
    log.trouble(where, error);
  },
});
