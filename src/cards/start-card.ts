import type { Studio } from '../bench/studio.ts';
import type { Card } from '../chat/card.ts';
import type { Split } from '../job/laid-out.ts';
import type { JobState } from '../job/state.ts';
import { beginsAt } from '../job/window.ts';
import type { Concern } from '../trade/compatibility/concerns.ts';
import type { Coverage } from '../trade/cover/coverage.ts';
import { clock, joined, plain, say, strong, type Text } from '../words/text.ts';
import { type AreaView, coverageData } from './area-card.ts';
import { concernData, concernLines, graveTitle } from './compatibility.ts';
import { type JobView, jobCard, undoWay, waysOn } from './job-card.ts';
import { type Amount, about, amountOf, coarseLine, runsLine, splitLines, unknownBlockLine } from './layer-warnings.ts';
import { toWait } from './plan-line.ts';
import { gramsLeft, recipeText } from './words.ts';

export interface StartView extends JobView {
  /** What is covered, and what that takes; null where nobody said how big it is. */
  readonly covered:
    | (Pick<AreaView, 'body' | 'cover' | 'doubts' | 'warnings' | 'mesh'> & {
        readonly coverage: Coverage | null;
        /** Why it takes so much. */
        readonly reason: Text;
      })
    | null;
  /** The material of a poured block of which nobody can tell how much it takes. */
  readonly unknownBlock: string | undefined;
  readonly splits: readonly Split[];
  /** A line for each material that the recipe has no use for. */
  readonly leftOut: readonly Text[];
  readonly concerns: readonly Concern[];
  /** Who began it. */
  readonly who: string;
}

/** More lines of what is to be minded than this, and none is read. */
const MOST_TO_MIND = 4;
const NO_ZONE = ['Etc/UTC', 'UTC'];

/** A job that has begun: what is next, what all of it takes, and what is to be minded. */
export function startCard(view: StartView): Card {
  const { job, studio, covered, concerns } = view;
  const mixes = job.steps.filter(({ plan }) => plan.grams !== null).length;
  const grave = graveTitle(concerns);
  const minded = concernLines(concerns, studio);
  const title = titleOf(view);
  const started = jobCard(view, grave === null ? title : say`${title}: ${grave}`, {
    // A plan is started with one press, so it is taken back with one.
    buttons: [...waysOn(view), ...(job.planned === null ? [] : [undoWay({ seq: job.touchedSeq, at: job.enteredAt })])],
    to: job.holder === view.who ? [] : [job.holder],
    lines: [
      ...(grave === null ? [] : minded.slice(0, 1)),
      ...(covered?.doubts ?? []),
      say`${recipeText(job)}: ${plain(job.steps.length === 1 ? '1 step' : `${job.steps.length} steps`)}${mixes > 0 ? say`, ${mixes} of them with a mix` : say``}. Id: ${job.id}.`,
      ...takesLines(view),
      ...(NO_ZONE.includes(studio.zone)
        ? [say`Times that are typed count as UTC here. If your clock shows another: /shift set zone:Europe/Berlin.`]
        : []),
      ...shortened([...minded.slice(grave === null ? 0 : 1), ...view.leftOut, ...coatLines(view), ...(covered?.warnings ?? [])]),
    ],
  });
  const coverage = covered?.coverage ? { coverage: coverageData({ ...covered, coverage: covered.coverage, studio }) } : {};
  return {
    ...started,
    ...(grave === null ? {} : { tone: 'soon' as const }),
    data: { ...started.data, ...coverage, concerns: concernData(concerns) },
  };
}

/** Where its first step is not for now, when it begins. */
function titleOf(view: StartView): Text {
  const { job, now } = view;
  const later = toWait(job, view);
  const begins = later?.at ?? beginsAt(job);
  return begins > now ? say`${job.name} is planned: it begins ${clock(begins)}` : say`${job.name} has started`;
}

/** "In all: 1590 g of X, 4650 g of Y." and how that came about. */
function takesLines({ job, covered, unknownBlock, studio }: StartView): Text[] {
  if (unknownBlock !== undefined) return unknownBlockLine(unknownBlock);
  if (covered === null) return [say`Give an area to be told how much to mix: area:0.4 m2.`];
  const layers = covered.coverage?.layers ?? [];
  const amounts = covered.coverage === null ? [] : amountsFor(job, studio).map((each) => amountOf(each, studio));
  const glass = layers.reduce((sum, { glassGrams }) => sum + (glassGrams ?? 0), 0);
  return [
    ...(amounts.length === 0 ? [] : [say`In all: ${joined(amounts, ', ')}.`]),
    ...(glass === 0 ? [] : [say`And ${strong(about(glass, studio))} of glass mat; plan it with /laminate.`]),
    say`${covered.reason}.`,
  ];
}

/** What its mixes come to, each as the scale shows it. */
function amountsFor({ steps }: JobState, studio: Studio): Amount[] {
  const amounts = new Map<string, Amount>();
  for (const { plan } of steps) {
    const grams = gramsLeft(plan, studio, []);
    if (plan.material === null || grams === 0) continue;
    amounts.set(plan.material.id, { material: plan.material, grams: grams + (amounts.get(plan.material.id)?.grams ?? 0) });
  }
  return [...amounts.values()];
}

/** Where coats are not the recipe's, or run. */
function coatLines({ covered, splits, studio }: StartView): Text[] {
  const steep = { body: covered?.body ?? null, studio };
  const layers = covered?.coverage?.layers ?? [];
  return [
    ...layers.flatMap((layer) => coarseLine(layer, studio)),
    ...splitLines(splits, steep),
    ...layers.flatMap((layer) => runsLine(layer, steep)),
  ];
}

function shortened(lines: readonly Text[]): readonly Text[] {
  if (lines.length <= MOST_TO_MIND) return lines;
  const shown = lines.slice(0, MOST_TO_MIND - 1);
  return [
    ...shown,
    say`${plain(String(lines.length - shown.length))} more to mind: /mix names each in its turn, and /area what is of the size.`,
  ];
}
