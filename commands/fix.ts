import { celsiusOn } from '../src/bench/conditions.ts';
import { type BenchState, type CupState, openCups } from '../src/bench/fold.ts';
import { potOverAt } from '../src/bench/pings.ts';
import { hazardLines } from '../src/cards/hazards.ts';
import { doneWay } from '../src/cards/job-card.ts';
import { offLines } from '../src/cards/off-ratio.ts';
import { goodUntil, isOutside, untoldCelsius, untoldLine } from '../src/cards/usable.ts';
import { mass } from '../src/cards/words.ts';
import { card } from '../src/chat/card.ts';
import { text, typed } from '../src/chat/options.ts';
import { cupPoured } from '../src/desk/cup-ways.ts';
import { command, type Desk } from '../src/desk/desk.ts';
import { again, givenOf, inLine, kept, line } from '../src/desk/examples.ts';
import { potLifeNow } from '../src/desk/mixing.ts';
import { examplePour, fixLine, readPour } from '../src/desk/pour.ts';
import { material as materialNamed } from '../src/desk/resolve.ts';
import { nextStep } from '../src/job/state.ts';
import { indexOf } from '../src/trade/chemistry/equivalents.ts';
import { overPoured } from '../src/trade/chemistry/off-ratio.ts';
import { isGypsum, type Material } from '../src/trade/material.ts';
import { minutesText, percentText } from '../src/trade/measures/format.ts';
import { parsePercent } from '../src/trade/measures/quantity.ts';
import { catalystPercent, hasPeroxide, withCatalyst } from '../src/trade/mixing/catalyst.ts';
import { correctCatalyst, hopelessTimes } from '../src/trade/mixing/catalyst-correction.ts';
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
    const material = meantBy(listed, input.catalyst?.value);
    if (isRefusal(material))
      return again(material, {
        example: line('fix', { material: listed.id, poured: input.poured, ...givenOf({ catalyst: material.example }) }),
      });
    const { stepGrams, mostGrams } = desk.studio.scale;
    const room = [material.mostGrams, mostGrams].filter((most) => most !== null);
    const limits = { stepGrams, roomGrams: room.length > 0 ? Math.min(...room) : null };
    const ranged = correctCatalyst(material, grams, limits, input.catalyst !== undefined);
    const correction = ranged ?? correct(material, poured, limits);
    if (isRefusal(correction))
      return again(
        correction,
        correction.code === 'scale-too-coarse'
          ? { example: `/studio set scale:${correction.example ?? '0.1 g'}` }
          : { example: fixLine(listed) },
      );
    const state = await desk.bench.state();
    const open = openCups(state).filter((each) => each.material.id === material.id);
    // Of several the newest is likeliest to be the one in hand; one that is over is none that was just poured.
    const good = open.filter((each) => (goodUntil(state, each, desk.now) ?? Number.POSITIVE_INFINITY) > desk.now);
    const cup = good.sort((one, other) => other.startedAt - one.startedAt)[0];
    const over = cup ? goodUntil(state, cup, desk.now) : null;
    const late = over !== null && over - desk.now < (correction.verdict === 'add' ? STIR_MINUTES * MINUTE : 0);
    const times = hopelessTimes(material, catalystPercent(material, grams));
    const ofRoom = late && correction.verdict !== 'too-much' ? 'too-late' : correction.verdict;
    const verdict = times === null ? ofRoom : 'too-much';
    const weight = (grams: number) => mass(grams, desk.studio);
    const most = room.length > 0 ? weight(Math.min(...room)) : plain('the cup');
    const off = offLines(material, grams, correction, input.catalyst?.value ?? null);
    const adds = joined(
      correction.adds.map(({ part, grams }) => say`${weight(grams)} of ${part}`),
      ', ',
      ' and ',
    );
    const inCup = correction.verdict === 'add' ? correction.totalGrams : grams.reduce((sum, one) => sum + one, 0);
    const potLife = potLifeText(material, state, desk, { cup, of: good.length, over: open, grams: inCup });
    const owner = cup?.job == null ? undefined : state.jobs.get(cup.job);
    const whose = owner ? [say`${cup?.id ?? ''} is for ${owner.name}.`] : [];
    const would = correction.adds.length > 0 ? [say`It would take ${adds}, and ${STIR_MINUTES} min to stir it in.`] : [];
    const words: Record<typeof verdict, { title: Text; lines: Text[] }> = {
      good: { title: say`Use it as it is`, lines: [...off, say`Nothing to add.`, potLife, ...whose] },
      add: {
        title: say`Add ${strong(adds)}${good.length === 1 ? say` to ${cup?.id ?? ''}` : say``}`,
        lines: [
          say`The cup then holds ${weight(correction.totalGrams)}, off by ${plain(percentText(correction.errorPercentAfter))}. Stir it in, scrape walls and floor.`,
          ...off,
          ...(isGypsum(material) && correction.adds.some(({ part }) => /water/i.test(part))
            ? [say`Water only while it still pours: once it thickens, discard it.`]
            : []),
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
    const told = times === null ? words[verdict] : hopeless(material, times, [...off, ...whose]);
    return card(told.title, [...told.lines, ...hazardLines(material, [])], {
      data: {
        correction: {
          // Only what is to be poured stands here; what it would have taken stands in `adds`.
          add: verdict === 'add' ? correction.add : null,
          adds: times === null ? correction.adds : [],
          totalGrams: times === null ? correction.totalGrams : grams.reduce((sum, one) => sum + one, 0),
          errorPercentBefore: correction.errorPercentBefore,
          errorPercentAfter: times === null ? correction.errorPercentAfter : correction.errorPercentBefore,
          verdict,
          over: correction.errorPercentBefore === 0 ? null : (overPoured(material, grams)?.name ?? null),
          index: indexOf(material.parts, grams),
          cup: cup?.id ?? null,
        },
      },
      tone: verdict === 'good' ? 'go' : verdict === 'add' ? 'soon' : 'late',
      buttons: waysOn(verdict, cup, state, cupPoured(material, correction.totalGrams, stepGrams)),
    });
  },
});

/** So much catalyst is thinned down by nobody: it is carried out. */
function hopeless(material: Material, times: number, more: readonly Text[]): { title: Text; lines: Text[] } {
  const peroxide = hasPeroxide(material);
  const part = peroxide ? say`peroxide` : say`${material.catalyst?.part ?? ''}`;
  return {
    title: say`Discard it: ${plain(String(Number(times.toPrecision(2))))} times too much ${part}`,
    lines: [
      ...(peroxide
        ? [
            say`It heats fast and may smoke or catch fire: carry it outside, spread it thin on something that does not burn, keep away.`,
          ]
        : []),
      ...more,
    ],
  };
}

/** How long whoever puts it right has; `of`: of how many open cups that are good it is the newest, `over`: all that are open. */
function potLifeText(
  material: Material,
  state: BenchState,
  { now, studio }: Desk,
  { cup, of, over: open, grams }: { cup: CupState | undefined; of: number; over: readonly CupState[]; grams: number },
): Text {
  const untold = cup ? untoldCelsius(state, cup, now) : isOutside(state, material, now) ? celsiusOn(state, now) : null;
  if (untold !== null) return untoldLine(material, untold, studio.units);
  if (!cup) {
    const last = open.at(-1);
    const life = say`mind the pot life, ${plain(minutesText(potLifeNow(state, material, now, grams)))} from the first stir.`;
    return last
      ? say`Taken as poured just now: ${life} If it is ${last.id}, its pot life ended at ${clock(potOverAt(state, last))}: discard it.`
      : say`No open cup of it is logged: ${life}`;
  }
  const which = of > 1 ? say` (the newest of ${of} open cups)` : say``;
  return say`The pot life of ${cup.id}${which} ends at ${clock(potOverAt(state, cup))} (${away(potOverAt(state, cup))}).`;
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

/** The material as it was meant: with the share of catalyst that somebody named. Refusals: those of `withCatalyst`. */
const meantBy = (material: Material, typedPercent: number | undefined): Material | Refusal =>
  typedPercent === undefined ? material : withCatalyst(material, typedPercent);

/** The named material; an example shows a cup of the one that was probably meant. */
const materialOf = (desk: Desk, typed: string) =>
  materialNamed(desk, typed, (id) => {
    const meant = desk.materials.find((each) => each.id === id);
    return meant ? fixLine(meant) : line('fix', { material: id });
  });
