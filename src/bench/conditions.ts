import { type Conditions, celsiusAt } from '../trade/time/conditions.ts';
import type { BenchState } from './fold.ts';
import type { Studio } from './studio.ts';

/** The bench's own temperatures: all that a pot life goes by. */
export const temperaturesOf = ({ temperatures, expectations }: BenchTemperatures): Conditions => ({
  readings: temperatures,
  expectations,
  paces: new Map(),
});
type BenchTemperatures = Pick<BenchState, 'temperatures' | 'expectations'>;

/** How warm the bench is at `at`, read or expected; null where nobody has said. */
export const celsiusOn = (state: BenchTemperatures, at: number): number | null => celsiusAt(temperaturesOf(state), at);

/** What the clocks of a bench go by: its own temperatures, and what the whole studio has learned of its materials. */
export const conditionsOf = (state: BenchState, studio: Studio): Conditions => ({
  ...temperaturesOf(state),
  paces: new Map([...studio.paces].map(([material, { factor }]) => [material, factor])),
});
