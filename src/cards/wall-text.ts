import { plainText } from '../chat/plain.ts';
import { clock, say } from '../words/text.ts';

/** "19:00", or "Tue 19:00" where it is not today, or "Tue 10 Mar 19:00" where it is a week away: for labels, which hold no times. */
export const wallText = (at: number, zone: string, now: number): string => plainText(say`${clock(at)}`, { zone, now });
