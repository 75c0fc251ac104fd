import type { BenchState } from '../bench/fold.ts';
import { pingsOf } from '../bench/pings.ts';
import { pingCard } from '../cards/ping-card.ts';
import type { Offer } from '../chat/complete.ts';
import { plainText } from '../chat/plain.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import type { Desk } from './desk.ts';

/** With less than this until it is over, nothing can be put off. */
const LEAST_MS = 2 * MINUTE;

/** The pings that went out, still concern somebody, and can be put off: the last first, each called what it said and when. */
export function pingOffers(state: BenchState, { studio, channel, now }: Desk, at: (when: number) => string): Offer[] {
  // What has gone out is left out of the list of coming pings; without that record they are all there.
  const offers = pingsOf({ ...state, sent: new Map() }, studio, now).flatMap((ping) => {
    const sent = state.sent.get(ping.id);
    // What concerns the bench as a whole is not rung again; nor is what is over by then.
    if (!sent || (ping.job === null && ping.cup === null)) return [];
    if (ping.until !== null && ping.until - LEAST_MS <= now) return [];
    const { title } = pingCard(ping, { channel, state, studio, now, late: false });
    const said = plainText(title, { zone: studio.zone, now });
    return [{ sentAt: sent.at, offer: { value: ping.base, title: `${said}, ${at(sent.at)}` } }];
  });
  const newest = offers.sort((one, other) => other.sentAt - one.sentAt).map(({ offer }) => offer);
  return newest.filter(({ value }, index) => newest.findIndex((other) => other.value === value) === index);
}
