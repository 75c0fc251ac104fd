import type { StepKind } from '../../job/recipe.ts';
import { MINUTE } from '../../trade/time/calendar.ts';

/** One step as planned; instants in milliseconds since the epoch. */
export interface PlannedTime {
  readonly step: string;
  readonly title: string;
  readonly kind: StepKind;
  /** From when to when hands are at it. */
  readonly startsAt: number;
  readonly endsAt: number;
  /** The window in which it may begin, with all before it as planned; null: it stays open. */
  readonly opensAt: number;
  readonly closesAt: number | null;
  /** Begun at any time until then at which there are hands, with all before it as planned, the rest still fits; null: whenever. */
  readonly latestAt: number | null;
}

/** How much later it may begin, in whole minutes; null where nothing presses. */
export const slackMinutes = ({ startsAt, latestAt }: PlannedTime): number | null =>
  latestAt === null ? null : Math.max(0, Math.floor((latestAt - startsAt) / MINUTE));

/** When each step of a job that is not done is to be done. */
export interface JobPlan {
  /** The job's id; null for one that has not begun. */
  readonly job: string | null;
  readonly name: string;
  readonly steps: readonly PlannedTime[];
  /** When the wait after the last step is over. */
  readonly readyAt: number;
  /** When it is to be ready; null where nobody said. */
  readonly readyBy: number | null;
}
