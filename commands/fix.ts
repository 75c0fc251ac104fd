import { celsiusOn } from '../src/bench/conditions.ts';
import { type BenchState, type CupState, openCups } from '../src/bench/fold.ts';
import { potOverAt } from '../src/bench/pings.ts';
import { doneWay } from '../src/cards/job-card.ts';
import { offLines } from '../src/cards/off-ratio.ts';
import { goodUntil, isOutside, untoldCelsius, untoldLine } from '../src/cards/usable.ts';
import { mass } from '../src/cards/words.ts';
import { card } from '../src/chat/card.ts';
import { text, typed } from '../src/chat/options.ts';
import { cupPoured } from '../src/desk/cup-ways.ts';
import { command, type Desk } from '../src/desk/desk.ts';
import { again, givenOf, inLine, kept, line } from '../src/desk/examples.ts';
import { examplePour, fixLine, readPour } from '../src/desk/pour.ts';
import { material as materialNamed } from '../src/desk/resolve.ts';
import { nextStep } from '../src/job/state.ts';
import { indexOf } from '../src/trade/chemistry/equivalents.ts';
import { overPoured } from '../src/trade/chemistry/off-ratio.ts';
import type { Material } from '../src/trade/material.ts';
import { minutesText, percentText } from '../src/trade/measures/format.ts';
import { parsePercent } from '../src/trade/measures/quantity.ts';
import { catalystFits, catalystPercent, withCatalyst } from '../src/trade/mixing/catalyst.ts';
import { type Correction, correct } from '../src/trade/mixing/correction.ts';
import { MINUTE } from '../src/trade/time/calendar.ts';
import { isRefusal, type Refusal, type Way } from '../src/words/refusal.ts';
import { away, clock, joined, plain, say, strong, type Text } from '../src/words/text.ts';

/** Pouring, stirring and scraping once more takes this long; with less pot life left a correction comes too late. */
const STIR_MINUTES = 3;
const CATALYSED = { material: 'laminate-polyester', poured: '500 g resin, 12 g catalyst' };

export default command({
  name: 'fix',
  summary: 'Put a wrong pour right: how much of which part to add, or whether to discard it',
  options: {
    material: text({ about: 'What was poured', complete: 'material' }),
    poured: text({ about: 'What is really in the cup: 171 g A, 200 g B', free: true }),
    catalyst: typed(kept(inLine(parsePercent, () => line('fix', { ...CATALYSED, catalyst: '1.5 %' }))), {
      about: 'The share of catalyst that was meant, where it may vary: 1,2 %',
    }).optional(),
  },
  examples: ['material:brush-urethane poured:171 g A, 200 g B'],
  form: (options, desk) => {
    const material = materialOf(desk, options['material'] ?? '');
    if (isRefusal(material)) return material;
    return {
      title: 'What is in the cup?',
      fields: examplePour(material)
        .slice(0, 5)
        .map(({ part, grams }) => ({ option: 'poured', label: `Grams of ${part.name}`, example: grams, suffix: part.name })),
    };
  },
  run: async (input, desk) => {
    const listed = materialOf(desk, input.material);
    if (isRefusal(listed)) return listed;
    const poured = readPour(input.poured, listed);
    if (isRefusal(poured)) return poured;
    const grams = listed.parts.map(({ name }) => poured.reduce((sum, one) => sum + (one.part === name ? one.grams : 0), 0));
    const material = meantBy(listed, grams, input.catalyst?.value);
    if (isRefusal(material))
      return again(material, {
        example: line('fix', { material: listed.id, poured: input.poured, ...givenOf({ catalyst: material.example }) }),
      });
    const { stepGrams, mostGrams } = desk.studio.scale;
    const room = [material.mostGrams, mostGrams].filter((most) => most !== null);
    const correction = correct(material, poured, { stepGrams, roomGrams: room.length > 0 ? Math.min(...room) : null });
    if (isRefusal(correction))
      return again(
        correction,
        correction.code === 'scale-too-coarse'
          ? { example: `/studio set scale:${correction.example ?? '0.1 g'}` }
          : { example: fixLine(listed) },
      );
    const state = await desk.bench.state();
    // Of several open cups the one with the least time left: the cautious guess.
    const cups = openCups(state).filter((each) => each.material.id === material.id);
    const [cup] = cups.sort((one, other) => potOverAt(state, one) - potOverAt(state, other));
    const over = cup ? goodUntil(state, cup, desk.now) : null;
    const late = over !== null && over - desk.now < (correction.verdict === 'add' ? STIR_MINUTES * MINUTE : 0);
    const verdict = late && correction.verdict !== 'too-much' ? 'too-late' : correction.verdict;
    const weight = (grams: number) => mass(grams, desk.studio);
    const most = room.length > 0 ? weight(Math.min(...room)) : plain('the cup');
    const off = offLines(material, grams, correction);
    const adds = joined(
      correction.adds.map(({ part, grams }) => say`${weight(grams)} of ${part}`),
      ', ',
      ' and ',
    );
    const potLife = potLifeText(material, state, desk, { cup, of: cups.length });
    const owner = cup?.job == null ? undefined : state.jobs.get(cup.job);
    const whose = owner ? [say`${cup?.id ?? ''} is for ${owner.name}.`] : [];
    const would = correction.adds.length > 0 ? [say`It would take ${adds}, and ${STIR_MINUTES} min to stir it in.`] : [];
    const words: Record<typeof verdict, { title: Text; lines: Text[] }> = {
      good: { title: say`Use it as it is`, lines: [...off, say`Nothing to add.`, potLife, ...whose] },
      add: {
        title: say`Add ${strong(adds)}${cups.length === 1 ? say` to ${cup?.id ?? ''}` : say``}`,
        lines: [
          say`The cup then holds ${weight(correction.totalGrams)}, off by ${plain(percentText(correction.errorPercentAfter))}. Stir it in, scrape walls and floor.`,
          ...off,
          potLife,
          ...whose,
        ],
      },
      'too-late': { title: say`Discard it: too little pot life is left`, lines: [...would, potLife, ...off, ...whose] },
      'too-much': {
        title: say`More than may be mixed at once`,
        lines: [
          say`${weight(correction.totalGrams)} in all is more than ${most}${correction.adds.length > 0 ? say`, with the ${adds} that it lacks` : say``}. Spread it into several cups at once, each put right by itself, or discard it.`,
          ...off,
          potLife,
          ...whose,
        ],
      },
    };
    return card(words[verdict].title, words[verdict].lines, {
      data: {
        correction: {
          // Only what is to be poured stands here; what it would have taken stands in `adds`.
          add: verdict === 'add' ? correction.add : null,
          adds: correction.adds,
          totalGrams: correction.totalGrams,
          errorPercentBefore: correction.errorPercentBefore,
          errorPercentAfter: correction.errorPercentAfter,
          verdict,
          over: overPoured(material, grams)?.name ?? null,
          index: indexOf(material.parts, grams),
          cup: cup?.id ?? null,
        },
      },
      tone: verdict === 'good' ? 'go' : verdict === 'add' ? 'soon' : 'late',
      buttons: waysOn(verdict, cup, state, cupPoured(material, correction.totalGrams, stepGrams)),
    });
  },
});

/** How long whoever puts it right has; `of`: among how many open cups it is the first to be over. */
function potLifeText(
  material: Material,
  state: BenchState,
  { now, studio }: Desk,
  { cup, of }: { cup: CupState | undefined; of: number },
): Text {
  const untold = cup ? untoldCelsius(state, cup, now) : isOutside(state, material, now) ? celsiusOn(state, now) : null;
  if (untold !== null) return untoldLine(material, untold, studio.units);
  if (!cup)
    return say`No open cup of it is logged: mind the pot life, ${plain(minutesText(material.potLifeMinutes))} from the first stir.`;
  const over = potOverAt(state, cup);
  const which = of > 1 ? say` (the first of ${of} open cups)` : say``;
  return over > now
    ? say`The pot life of ${cup.id}${which} ends at ${clock(over)} (${away(over)}).`
    : say`The pot life of ${cup.id}${which} ended at ${clock(over)}.`;
}

/** What comes next: a cup that is right is brushed on, or has its pot life started; one that is not goes into the bin. */
function waysOn(verdict: Correction['verdict'] | 'too-late', cup: CupState | undefined, state: BenchState, whole: Way): Way[] {
  const discard: Way[] = cup ? [{ label: 'Discard cup', command: 'cup discard', options: { cup: cup.id } }] : [];
  if (verdict === 'too-late' || verdict === 'too-much') return discard;
  if (!cup) return [whole];
  const owner = cup.job === null ? undefined : state.jobs.get(cup.job);
  const next = owner?.status === 'active' && nextStep(owner)?.plan.id === cup.step ? [doneWay(owner)] : [];
  return [...next, { label: 'Cup spent', command: 'cup spent', options: { cup: cup.id } }, ...discard];
}

/**
 * The material as it was meant: where its catalyst may vary, any share within its limits was, unless somebody says which.
 * Above them it is thinned down to the most, which takes the least; below them it is brought up to what is printed. Refusals: those of `withCatalyst`.
 */
function meantBy(material: Material, grams: readonly number[], typedPercent: number | undefined): Material | Refusal {
  const percent = typedPercent ?? catalystPercent(material, grams);
  if (percent === null) return material;
  if (typedPercent !== undefined || catalystFits(material, percent)) return withCatalyst(material, percent);
  const most = material.catalyst?.mostPercent ?? percent;
  return percent > most ? withCatalyst(material, most) : material;
}

/** The named material; an example shows a cup of the one that was probably meant. */
const materialOf = (desk: Desk, typed: string) =>
  materialNamed(desk, typed, (id) => {
    const meant = desk.materials.find((each) => each.id === id);
    return meant ? fixLine(meant) : line('fix', { material: id });
  });
