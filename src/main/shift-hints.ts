import { recurring } from '../adapters/system-clock/cron.ts';
import type { House } from '../bench/house.ts';

const SHIFT_END_PROMPT_MINUTES = 15;
const DAY_MINUTES = 24 * 60;

export interface ShiftHints {
  /** Follows the studio's shifts and zone as they are now. */
  follow(): Promise<void>;
  stop(): void;
}

/**
 * Wakes all benches at each start of a shift and a little before each end, by the studio's wall clock, also those whose
 * timers know of nothing. Every day rather than on the shifts' days: a hint too many does no harm.
 */
export function shiftHints(house: House, trouble: (error: unknown) => void): ShiftHints {
  let armed = '';
  let stop = () => {};
  const ring = () => house.wakeAll().catch(trouble);
  return {
    async follow() {
      const { shifts, zone } = await house.studio();
      const minutes = shifts.hours.flatMap(({ fromMinute, untilMinute }) => [fromMinute, untilMinute - SHIFT_END_PROMPT_MINUTES]);
      const expressions = minutes.map((minute) => expressionAt((minute + DAY_MINUTES) % DAY_MINUTES));
      const wanted = [zone, ...expressions].join('|');
      if (wanted === armed) return;
      stop();
      stop = recurring(expressions, zone, ring);
      armed = wanted;
    },
    stop: () => stop(),
  };
}

const expressionAt = (minute: number) => `${minute % 60} ${Math.floor(minute / 60)} * * *`;
