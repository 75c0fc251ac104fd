import type { Studio } from '../bench/studio.ts';
import { type Card, card } from '../chat/card.ts';
import { type CupsPlan, LAYING_SHARE } from '../trade/cups/plan.ts';
import type { Hazard, Material } from '../trade/material.ts';
import { minutesText } from '../trade/measures/format.ts';
import { massRateText } from '../trade/measures/format-sizes.ts';
import { neat } from '../trade/mixing/ratio.ts';
import type { Way } from '../words/refusal.ts';
import { clock, plain, say, strong, type Text } from '../words/text.ts';
import { hazardLines } from './hazards.ts';
import { isoIn } from './iso.ts';
import { potLifeLine } from './pot-life.ts';
import { partLines, raisedLine } from './weigh-out.ts';
import { mass } from './words.ts';

/** How fast it is laid: as somebody said, or as this studio's last cups tell (`cups` of them). */
export interface LayingRate {
  readonly gramsPerMinute: number;
  readonly from: 'asked' | 'learned';
  readonly cups: number;
}

export interface CupsView {
  readonly material: Material;
  readonly plan: CupsPlan;
  readonly rate: LayingRate;
  readonly studio: Studio;
  /** For which step of which job, if any. */
  readonly forStep: Text | null;
  /** What each cup would be if less could be weighed true. */
  readonly neededGramsEach: number;
  /** When each cup is mixed, and until when it is good; `cup` counts from the first of its step. */
  readonly clocks: readonly { readonly cup: number; readonly mixAt: number; readonly useBy: number }[];
  /** The bench's temperature; null where none is logged. */
  readonly celsius: number | null;
  /** The hazards whose caution is shown in full. */
  readonly inFull: readonly Hazard[];
  readonly buttons: readonly Way[];
}

/** Of more cups than `most`, only the `first` are shown, and the last. */
const CLOCKS = { most: 6, first: 4 };

/** How many cups of what, the weigh-out that all have in common, when each is due; then what that rests on. */
export function cupsCard(view: CupsView): Card {
  const { material, plan, rate, studio, clocks } = view;
  const { mix, count } = plan;
  const weighOut = { material, mix, studio, stepGrams: studio.scale.stepGrams };
  const each = mass(mix.totalGrams, studio);
  const every = plain(minutesText(plan.minutesEach));
  const cups = clocks.map(
    ({ cup, mixAt, useBy }) => say`Cup ${cup}: mix at ${strong(clock(mixAt))}, use by ${strong(clock(useBy))}.`,
  );
  const last = cups.at(-1);
  const few = cups.length <= CLOCKS.most || !last ? cups : [...cups.slice(0, CLOCKS.first), say`… and so on, up to:`, last];
  return card(
    count === 1 ? say`1 cup of ${each}, laid in ${every}` : say`${count} cups of ${each}, one every ${every}`,
    [
      say`${plain(count === 1 ? 'A cup' : 'Each cup')} of ${material.name}${view.forStep === null ? say`` : say`, for ${view.forStep}`}:`,
      ...partLines(weighOut),
      ...few,
      ...(plan.raised ? [raisedLine(say`${mass(view.neededGramsEach, studio)}${plain(count === 1 ? '' : ' in each')}`)] : []),
      totalLine(view),
      ...(count === 1 ? [] : [limitLine(view)]),
      potLifeLine({ ...view, potLifeMinutes: plan.potLifeMinutes }, mix.totalGrams, 'Pot life'),
      ...hazardLines(material, view.inFull),
    ],
    {
      data: {
        cups: {
          material: material.id,
          totalGrams: neat(mix.totalGrams * count),
          count,
          gramsEach: mix.totalGrams,
          rateGramsPerMinute: neat(rate.gramsPerMinute),
          rateFrom: rate.from,
          potLifeMinutes: plan.potLifeMinutes,
          minutesEach: plan.minutesEach,
          parts: mix.parts.map(({ part, grams, scaleReading }) => ({ part, grams, scaleReading })),
          clocks: clocks.map(({ cup, ...times }) => ({
            cup,
            mixAt: isoIn(studio.zone)(times.mixAt),
            useBy: isoIn(studio.zone)(times.useBy),
          })),
        },
      },
      buttons: view.buttons,
      tone: 'go',
    },
  );
}

function totalLine({ plan, rate, studio }: CupsView): Text {
  const at = plain(massRateText(rate.gramsPerMinute, studio.units));
  const from = rate.from === 'learned' ? say` (your last ${rate.cups} cups)` : say``;
  const minutes = plain(minutesText(plan.minutesEach * plan.count));
  if (plan.count === 1) return say`Laid at ${at}${from}.`;
  return say`In all ${mass(plan.mix.totalGrams * plan.count, studio)} in ${minutes}, at ${at}${from}. Mix the next when the last is laid.`;
}

function limitLine({ plan: { limit }, rate, studio }: CupsView): Text {
  const { stepGrams } = studio.scale;
  const most = say`No more than ${mass(Math.floor(limit.grams / stepGrams + 1e-9) * stepGrams, studio)} in one`;
  if (limit.by === 'container') return say`${most}: the container holds no more.`;
  if (limit.by === 'material') return say`${most}: the sheet allows no more at once.`;
  if (limit.by === 'scale') return say`${most}: the scale carries no more.`;
  const minutes = plain(minutesText(limit.grams / rate.gramsPerMinute));
  return say`${most}: laid in ${minutes}, ${LAYING_SHARE * 100} % of the pot life; the rest goes on stirring.`;
}
