import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import type { Material } from '../material.ts';
import { goodForText, minutesText, scaleText } from '../measures/format.ts';
import { massRateText } from '../measures/format-sizes.ts';
import { cupsOf, truenessOf } from '../mixing/batches.ts';
import { type Mix, type Scale, weigh } from '../mixing/mix.ts';
import { above, neat } from '../mixing/ratio.ts';

/** Of a pot life, this share is for laying; the rest goes on stirring, scraping and walking. Common practice, no source. */
export const LAYING_SHARE = 0.8;

/** Nobody lays more than that, in grams per minute. Common practice, no source. */
const MOST_RATE = 5000;

/** More cups than this are no plan for one stretch of work, but a slip of the finger. */
const MOST_CUPS = 100;

export interface CupsAsk {
  readonly totalGrams: number;
  /** How fast it is laid. */
  readonly gramsPerMinute: number;
  /** What the container holds; null where nobody said. */
  readonly containerGrams: number | null;
  /** The pot life of a cup that is mixed now, by its mass: a larger cup's is never longer. Minutes. */
  readonly potLifeMinutes: (grams: number) => number;
}

export interface CupsPlan {
  readonly count: number;
  /** The weigh-out of each. */
  readonly mix: Mix;
  /** Whether less is needed in each, and this is the least that can be weighed true. */
  readonly raised: boolean;
  /** How long each takes to lay. */
  readonly minutesEach: number;
  readonly potLifeMinutes: number;
  /** What keeps a cup from being larger, and how large that would be. */
  readonly limit: Limit;
}

interface Limit {
  readonly by: 'pot-life' | 'container' | 'material' | 'scale';
  readonly grams: number;
}

/**
 * The largest cup, in grams, that is laid within `LAYING_SHARE` of its own pot life: the largest m with
 * m / gramsPerMinute ≤ share · potLifeMinutes(m). The left side grows with m and the right side does not, so that halving an
 * interval finds it.
 */
export function largestLaid({ gramsPerMinute, potLifeMinutes }: Pick<CupsAsk, 'gramsPerMinute' | 'potLifeMinutes'>): number {
  const laid = (grams: number) => grams <= gramsPerMinute * LAYING_SHARE * potLifeMinutes(grams);
  let [least, most] = [0, gramsPerMinute * LAYING_SHARE * potLifeMinutes(0)];
  if (laid(most)) return most;
  for (let halved = 0; halved < 60; halved += 1) {
    const middle = (least + most) / 2;
    if (laid(middle)) least = middle;
    else most = middle;
  }
  return least;
}

/**
 * An amount as equal cups, as few as can be, none of them larger than what can be laid in time, what its container holds,
 * and what may be mixed or weighed at once; each weighed out on the scale. Masses in grams, times in minutes.
 *
 * Refusals: `rate-absurd`, `too-slow` (even the smallest cup would be over before it is laid; the example is a rate that would do),
 * `container-too-small` (the example is what it must hold), `too-many-cups` (the example is an amount), and those of `weigh`.
 */
export function planCups(material: Material, ask: CupsAsk, scale: Scale): CupsPlan | Refusal {
  const { gramsPerMinute, potLifeMinutes } = ask;
  if (gramsPerMinute > MOST_RATE)
    return new Refusal(
      'rate-absurd',
      say`Nobody lays ${plain(massRateText(gramsPerMinute, 'metric'))}: I expected ${MOST_RATE / 1000} kg a minute at most.`,
      {
        example: '25 g/min',
      },
    );
  const limits: Limit[] = [
    { by: 'pot-life', grams: largestLaid(ask) },
    ...(ask.containerGrams === null ? [] : [{ by: 'container' as const, grams: ask.containerGrams }]),
    ...(material.mostGrams === null ? [] : [{ by: 'material' as const, grams: material.mostGrams }]),
    ...(scale.mostGrams === null ? [] : [{ by: 'scale' as const, grams: scale.mostGrams }]),
  ];
  const limit = limits.reduce((least, each) => (each.grams < least.grams ? each : least));
  const cups = cupsOf(ask.totalGrams, limit.grams, truenessOf(material), scale);
  const shown = (grams: number) => plain(scaleText(grams, scale.stepGrams));
  const least = cups.scaleTooCoarse ? cupsOf(scale.stepGrams, null, truenessOf(material), { ...scale, mostGrams: null }) : cups;
  const narrow = limits.find(({ grams }) => above(least.grams, grams));
  if (least.raised && narrow?.by === 'pot-life') {
    const minutes = potLifeMinutes(least.grams);
    const needed = Math.ceil((least.grams / (LAYING_SHARE * minutes)) * 10) / 10;
    return new Refusal(
      'too-slow',
      say`${material.name} goes off too soon for that: the smallest cup that can be weighed true, ${shown(least.grams)}, takes ${plain(minutesText(least.grams / gramsPerMinute))} to lay, and of its pot life of ${plain(goodForText(minutes))} there is ${plain(goodForText(LAYING_SHARE * minutes))} for that. I expected it to be laid faster. What helps: a second pair of hands, a slower material, a cooler room, or a finer scale.`,
      { example: `${needed} g/min` },
    );
  }
  if (least.raised && narrow?.by === 'container')
    return new Refusal(
      'container-too-small',
      say`I expected a container for at least ${shown(least.grams)}, the smallest cup that can be weighed true, and got one for ${shown(narrow.grams)}.`,
      { example: scaleText(least.grams, scale.stepGrams) },
    );
  if (cups.count > MOST_CUPS) {
    const fewer = cups.grams * (MOST_CUPS / 4);
    return new Refusal(
      'too-many-cups',
      say`That would be ${cups.count} cups of ${shown(cups.grams)}; I plan ${MOST_CUPS} at most, and expected less for one stretch of work.`,
      { example: scaleText(fewer, scale.stepGrams) },
    );
  }
  const amount = { quantity: { kind: 'mass', grams: cups.askGrams } as const, of: null };
  const mix = weigh(material, { amount, by: 'weight', additives: [] }, { ...scale, mostGrams: limit.grams });
  if (isRefusal(mix)) return mix;
  const grams = mix.totalGrams;
  const minutesEach = neat(grams / gramsPerMinute);
  return { count: cups.count, mix, raised: cups.raised, minutesEach, potLifeMinutes: neat(potLifeMinutes(grams)), limit };
}
