import type { PlannedStep } from '../../job/events.ts';
import { intersect, type Span, type Spans, startsWithin } from '../../trade/plan/spans.ts';
import { MINUTE } from '../../trade/time/calendar.ts';
import { celsiusAt } from '../../trade/time/conditions.ts';
import type { Unfit } from './plan-job.ts';
import { freeSpans, staffedSpans, type Taken, type World } from './world.ts';

/** Why a step cannot be done, as one sentence can say it; instants in milliseconds since the epoch. */
export type Cause =
  /** It could only begin in `window`, in which nobody is there, not from `goneAt` until `backAt`. */
  | { readonly kind: 'nobody'; readonly window: Window; readonly goneAt: number | null; readonly backAt: number | null }
  /** It takes longer than whoever could begin it in `window` still has. */
  | { readonly kind: 'too-long'; readonly window: Window; readonly handsMinutes: number; readonly goneAt: number | null }
  /** All hands that are there in `window` are at work for these. */
  | { readonly kind: 'busy'; readonly window: Window; readonly by: readonly Taken[] }
  /** The bench is at a temperature that the material before it is not made for. */
  | { readonly kind: 'outside'; readonly celsius: number | null; readonly after: PlannedStep | null }
  /** All can be done, but it is ready no earlier than this. */
  | { readonly kind: 'late'; readonly readyAt: number; readonly readyBy: number };

interface Window {
  readonly from: number;
  /** Null: it has no end. */
  readonly until: number | null;
}

/** What the search has proved, in terms of the trade. */
export function causeOf(world: World, { demand, step, misfit }: Unfit): Cause {
  const [readyAt, readyBy] = [(misfit.readyAt ?? 0) * MINUTE, demand.readyBy ?? 0];
  if (misfit.why === 'late' && readyAt > readyBy) return { kind: 'late', readyAt, readyBy };
  // In time, were it not for the temperature.
  if (misfit.why === 'late') return { kind: 'outside', celsius: celsiusAt(world.clocks.conditions, world.now), after: step };
  const { window: windows } = misfit;
  if (windows.length === 0) {
    const after = demand.steps[misfit.step - 1] ?? null;
    return { kind: 'outside', celsius: celsiusAt(world.clocks.conditions, world.now), after };
  }
  const hands = Math.ceil(step.handsMinutes);
  const staffed = staffedSpans(world);
  const window = nearestTo(staffed, windows);
  const shown = { from: window.from * MINUTE, until: Number.isFinite(window.until) ? window.until * MINUTE : null };
  const could = intersect(windows, startsWithin(staffed, hands));
  const [first, last] = [could[0], could.at(-1)];
  if (first && last)
    return {
      kind: 'busy',
      window: { from: first.from * MINUTE, until: Number.isFinite(last.until) ? last.until * MINUTE : null },
      by: atWorkIn(world, windows, hands),
    };
  const [there] = intersect(windows, staffed);
  if (there) {
    const shift = staffed.find((span) => span.from <= there.from && there.from <= span.until);
    return { kind: 'too-long', window: shown, handsMinutes: hands, goneAt: shift ? (shift.until + 1) * MINUTE : null };
  }
  const before = staffed.findLast((span) => span.until < window.from);
  const after = staffed.find((span) => span.from > window.from);
  return {
    kind: 'nobody',
    window: shown,
    goneAt: before ? (before.until + 1) * MINUTE : null,
    backAt: after ? after.from * MINUTE : null,
  };
}

/** Of several windows the one that somebody comes nearest to. */
function nearestTo(staffed: Spans, windows: Spans): Span {
  const away = (window: Span) =>
    Math.min(...staffed.map((span) => Math.max(0, span.from - window.until, window.from - span.until)));
  return windows.reduce((best, each) => (away(each) < away(best) ? each : best));
}

/** Who is at work where hands are there and none is free. */
function atWorkIn(world: World, windows: Spans, hands: number): Taken[] {
  const free = startsWithin(freeSpans(world), hands);
  const could = intersect(windows, startsWithin(staffedSpans(world), hands)).filter(
    (span) => intersect([span], free).length === 0,
  );
  return world.taken.filter((taken) =>
    could.some(({ from, until }) => taken.from < (until + hands) * MINUTE && taken.until > from * MINUTE),
  );
}
