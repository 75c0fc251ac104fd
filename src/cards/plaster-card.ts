import { type Card, card } from '../chat/card.ts';
import { poresPercent, type SetPiece } from '../trade/gypsum/plaster.ts';
import type { Hazard } from '../trade/material.ts';
import { goodForText, minutesText, percentText, scaleText, temperatureText } from '../trade/measures/format.ts';
import { volumeText } from '../trade/measures/format-sizes.ts';
import type { Mix } from '../trade/mixing/mix.ts';
import { neat } from '../trade/mixing/ratio.ts';
import type { Way } from '../words/refusal.ts';
import { joined, plain, say, strong, type Text } from '../words/text.ts';
import { hazardLines } from './hazards.ts';
import { type PotLifeView, potLifeLine } from './pot-life.ts';
import { aboutMass, raisedLine, readingText, SIFTED, SOAK, shownMass, type WeighOutView } from './weigh-out.ts';

/** `material` with the ratio that it is mixed in, `mix` one of the equal batches. */
export interface PlasterView extends WeighOutView, PotLifeView {
  readonly parts: { readonly powder: string; readonly water: string };
  readonly waterPerHundred: number;
  /** What the material itself says; null where it is mixed as it says. */
  readonly ownWaterPerHundred: number | null;
  readonly batches: number;
  /** The scale cannot carry both together: each is weighed by itself. */
  readonly apart: boolean;
  /** What was asked for needs less than can be weighed true: how much, in grams; else null. */
  readonly neededGrams: number | null;
  /** Added for what stays in the bucket; null where the amount was weighed by whoever asked. */
  readonly wastePercent: number | null;
  /** What ends up in the mould, or all of it. */
  readonly piece: SetPiece & { readonly millilitres: number | null };
  /** Of all batches; null where a density is not known. */
  readonly slurryMillilitres: number | null;
  readonly inFull: readonly Hazard[];
  readonly buttons: readonly Way[];
}

/** Water first, then the powder into it; then what the piece weighs wet and dry, and why. */
export function plasterCard(view: PlasterView): Card {
  const { material, studio, stepGrams, mix, batches, parts, piece } = view;
  const { units } = studio;
  const shown = (grams: number) => shownMass(grams, view);
  const powderGrams = gramsOf(mix, parts.powder);
  const waterGrams = gramsOf(mix, parts.water);
  // A millilitre of water is a gram near enough, and a jug is quicker than a scale.
  const jug = plain(volumeText(mix.parts.find(({ part }) => part === parts.water)?.millilitres ?? waterGrams, units));
  const into = units === 'metric' ? say`${plain(scaleText(waterGrams, stepGrams))} (${jug})` : say`${shown(waterGrams)}`;
  const reading = (name: string) =>
    view.apart ? say`` : say` → ${readingText(mix.parts.find(({ part }) => part === name)?.scaleReading ?? 0, view)}`;
  const pores = piece.millilitres === null ? null : poresPercent(piece.dryGrams, piece.millilitres);
  return card(
    say`${material.name}: ${batches === 1 ? say`` : say`${batches} batches, each `}${shown(powderGrams)} powder into ${into} water`,
    [
      say`1. ${parts.water}: ${strong(shown(waterGrams))}, or ${jug}, into the bucket${reading(parts.water)}`,
      say`2. ${parts.powder}: ${strong(shown(powderGrams))}${view.apart ? say`, weighed by itself` : say``}${SIFTED}${reading(parts.powder)}`,
      say`3. ${SOAK}`,
      ...(view.neededGrams === null ? [] : [raisedLine([about(view.neededGrams, view)])]),
      ...byWhen(view),
      say`Set, it weighs ${about(piece.wetGrams, view)}. ${strong(say`Dry at ${about(piece.dryGrams, view)}`)}, once its weight stays the same: ${about(piece.evaporatesGrams, view)} of water must go.`,
      ...slurry(view, pores),
      ...(material.expansionPercent === null
        ? []
        : [say`It grows by ${plain(percentText(material.expansionPercent))} as it sets.`]),
      reason(view),
      ...cautions(view),
    ],
    { data: { plaster: plasterData(view, pores) }, buttons: view.buttons, tone: 'go' },
  );
}

const gramsOf = (mix: Mix, name: string) => mix.parts.find(({ part }) => part === name)?.grams ?? 0;

const about = (grams: number, { studio }: PlasterView) => aboutMass(grams, studio);

/** By when to pour, and when it comes out; where no pot life can be told, that. */
function byWhen(view: PlasterView): Text[] {
  const { material, mix, potLifeMinutes, batches } = view;
  const next = batches > 1 ? [say`Mix each batch while the last one is still wet.`] : [];
  if (potLifeMinutes === null)
    return [potLifeLine(view, mix.totalGrams, 'Pour within'), say`Out of the mould by touch, not by the clock.`, ...next];
  const out =
    material.demouldMinutes === null ? say`` : say`; out of the mould after ${plain(minutesText(material.demouldMinutes))}`;
  const pour = say`Pour within ${strong(plain(goodForText(potLifeMinutes)))}${out}.`;
  return [joined([pour, ...next], ' ')];
}

function slurry(view: PlasterView, pores: number | null): Text[] {
  const { slurryMillilitres, piece, wastePercent, studio } = view;
  if (slurryMillilitres === null) return [];
  const volume = (millilitres: number) => plain(volumeText(millilitres, studio.units));
  const told = wastePercent !== null && wastePercent > 0 && piece.millilitres !== null && view.neededGrams === null;
  const waste = told
    ? say`: ${volume(piece.millilitres ?? 0)}, and ${plain(percentText(wastePercent))} for what stays in the bucket`
    : say``;
  const dry = pores === null ? say`` : say` Dry, ${Math.round(pores)} % of it is pores.`;
  return [say`It makes ${volume(slurryMillilitres)}${view.batches === 1 ? say`` : say` in all`}${waste}.${dry}`];
}

/** The ratio and what becomes of the water, in one line. */
function reason({ waterPerHundred: water, ownWaterPerHundred: own, material, piece }: PlasterView): Text {
  const hundred = (parts: number) => Number(parts.toPrecision(3));
  const sheet =
    own === null
      ? say``
      : say` (${hundred(own)} says the sheet; ${water > own ? say`more sets weaker and more porous` : say`less is stiffer to pour`})`;
  const kept = Math.round((100 * piece.hydrationGrams) / (piece.hydrationGrams + piece.evaporatesGrams));
  return say`${hundred(water)} of water to 100 of powder by weight${sheet}, ${material.tolerancePercent} % off is allowed; ${kept} % of the water stays for good.`;
}

/** How hot it gets is said each time, in figures, whatever the list says: NSEAD and CLEAPSS (PS072) print both. */
function cautions({ material, inFull, studio }: PlasterView): Text[] {
  const hot = (celsius: number) => plain(temperatureText(celsius, studio.units));
  const others = <T extends string>(hazards: readonly T[]) => hazards.filter((hazard) => hazard !== 'hot-plaster');
  return [
    say`⚠ It can reach ${hot(60)} as it sets, and skin is harmed from ${hot(45)}: never round a hand, a limb or a face.`,
    ...hazardLines({ ...material, hazards: others(material.hazards) }, others(inFull)),
  ];
}

const neatOrNull = (value: number | null) => (value === null ? null : neat(value));

function plasterData(view: PlasterView, pores: number | null) {
  const { mix, batches, parts, piece } = view;
  const inAll = (name: string) => neat(gramsOf(mix, name) * batches);
  return {
    material: view.material.id,
    waterPerHundred: neat(view.waterPerHundred),
    /** Of one batch, in pour order. */
    parts: view.apart ? mix.parts.map((part) => ({ ...part, scaleReading: part.grams })) : mix.parts,
    batches,
    batchGrams: mix.totalGrams,
    powderGrams: inAll(parts.powder),
    waterGrams: inAll(parts.water),
    slurryMillilitres: neatOrNull(view.slurryMillilitres),
    pieceMillilitres: neatOrNull(piece.millilitres),
    wetGrams: neat(piece.wetGrams),
    dryGrams: neat(piece.dryGrams),
    evaporatesGrams: neat(piece.evaporatesGrams),
    hydrationGrams: neat(piece.hydrationGrams),
    poresPercent: neatOrNull(pores),
    wastePercent: view.wastePercent,
    potLifeMinutes: neatOrNull(view.potLifeMinutes),
    demouldMinutes: view.potLifeMinutes === null ? null : view.material.demouldMinutes,
    expansionPercent: view.material.expansionPercent,
  };
}
