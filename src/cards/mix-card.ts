import { type Card, card } from '../chat/card.ts';
import type { Hazard } from '../trade/material.ts';
import { neat } from '../trade/mixing/ratio.ts';
import type { Way } from '../words/refusal.ts';
import { say, type Text } from '../words/text.ts';
import { hazardLines } from './hazards.ts';
import { type PotLifeView, potLifeLine } from './pot-life.ts';
import { otherCatalystLines, ratioLine, shownMass, type WeighOutView, weighLines } from './weigh-out.ts';

export interface MixView extends WeighOutView, PotLifeView {
  /** For which step of which job, if any. */
  readonly forStep: Text | null;
  /** Why it is another amount than was asked for. */
  readonly note: Text | null;
  /** The hazards whose caution is shown in full. */
  readonly inFull: readonly Hazard[];
  readonly warnings: readonly Text[];
  /** Why it should not be mixed just now: said before anything else. */
  readonly notNow: Text | null;
  /** The share of the catalyst that the data sheet's times are of, where it may vary. */
  readonly sheetCatalystPercent: number | null;
  readonly buttons: readonly Way[];
}

/** The weigh-out: each part in pour order with what the scale shows, then everything that bears on it. */
export function mixCard(view: MixView): Card {
  const { material, mix, potLifeMinutes } = view;
  return card(
    say`${material.name}: ${shownMass(mix.totalGrams, view)}${view.forStep === null ? say`` : say` for ${view.forStep}`}`,
    [
      ...(view.notNow === null ? [] : [view.notNow]),
      ...weighLines(view),
      ...(view.note === null ? [] : [view.note]),
      potLifeLine(view, mix.cupGrams, 'Use within'),
      ...(potLifeMinutes === null ? [] : otherCatalystLines(material, view.sheetCatalystPercent)),
      ...view.warnings,
      ratioLine(view),
      ...hazardLines(material, view.inFull),
    ],
    {
      data: {
        mix: {
          material: material.id,
          by: mix.by,
          parts: mix.parts,
          additives: mix.additives,
          totalGrams: mix.totalGrams,
          totalMillilitres: mix.totalMillilitres,
          cupGrams: mix.cupGrams,
          ratioErrorPercent: mix.ratioErrorPercent,
          smallestBatchGrams: mix.smallestBatchGrams,
          potLifeMinutes: potLifeMinutes === null ? null : neat(potLifeMinutes),
        },
      },
      buttons: view.buttons,
      tone: view.notNow === null ? 'go' : 'soon',
    },
  );
}
