import type { MessageObject } from '../../src/adapters/terminal/message.ts';

/** One shift a day from Monday to Friday, one pair of hands. */
export const SHIFTS = '/shift set hours:08:00-16:00 days:mon-fri';
export const NEW = 'skin:brush-urethane shell:shell-paste';

export interface ShownPlan {
  readonly job: string | null;
  readonly startsAt: string;
  readonly readyAt: string;
  readonly steps: readonly {
    readonly step: string;
    readonly startsAt: string;
    readonly endsAt: string;
    readonly closesAt: string | null;
    readonly latestAt: string | null;
    readonly slackMinutes: number | null;
  }[];
}
interface Misfit {
  readonly step: string;
  readonly cause: { readonly kind: string };
  readonly changes: readonly { readonly kind: string }[];
}

/** What is told of troubles, whose, and what would do. */
export interface ShownTrouble {
  readonly job: string;
  readonly step: string;
  readonly cause: { readonly kind: string };
  readonly clash: readonly string[];
  readonly changes: readonly { readonly kind: string }[];
}

export const planOf = (message: MessageObject | undefined): ShownPlan | null | undefined =>
  (message?.data as { plan?: ShownPlan | null } | undefined)?.plan;
export const misfitOf = (message: MessageObject | undefined): Misfit | undefined =>
  (message?.data as { misfit?: Misfit } | undefined)?.misfit;
export const troublesOf = (message: MessageObject | undefined): readonly ShownTrouble[] =>
  (message?.data as { troubles?: readonly ShownTrouble[] } | undefined)?.troubles ?? [];

export const reserveOf = (message: MessageObject | undefined) => message?.data['reserveMinutes'];

/** By step: the day of the month and the time at which it begins, as "02 08:45". */
export const startsOf = (message: MessageObject | undefined): Record<string, string> =>
  Object.fromEntries((planOf(message)?.steps ?? []).map(({ step, startsAt }) => [step, startsAt.slice(8, 16).replace('T', ' ')]));
