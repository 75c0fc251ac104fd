import type { Studio } from '../bench/studio.ts';
import { type Card, card } from '../chat/card.ts';
import { type Concern, concernsOf, type Under } from '../trade/compatibility/concerns.ts';
import { NOT_ON_THE_LIVING } from '../trade/compatibility/living.ts';
import { coatsBond } from '../trade/compatibility/release.ts';
import type { Material } from '../trade/material.ts';
import { temperatureText } from '../trade/measures/format.ts';
import { joined, plain, say, type Text } from '../words/text.ts';

const isModel = (under: Under) => 'typed' in under;
const called = (under: Under): Text => ('typed' in under ? say`“${under.typed}”` : say`${under.name}`);
const listed = (substances: readonly string[]): Text =>
  joined(
    substances.map((each) => say`${each}`),
    ', ',
    ' and ',
  );

const PATCH = say`test a small patch where it does not show`;

/** What is to be minded, in one line: what happens, then what to do about it. */
function concernLine(concern: Concern, units: Studio['units']): Text {
  const { fresh } = concern;
  switch (concern.kind) {
    case 'inhibition': {
      const under = called(concern.under);
      if (concern.damp)
        return say`${under} may hold damp, ${fresh.family === 'urethane' ? say`in which ${fresh.name} foams` : say`which keeps ${fresh.name} from curing`}: dry it right through and seal it.`;
      const may = say`${under} may carry ${listed(concern.by)}, and that keeps ${fresh.name} from curing`;
      if ('gloves' in concern.under && concern.under.gloves) return say`${may}: wear nitrile or vinyl gloves.`;
      if ('sealed' in concern.under && concern.under.sealed)
        return say`${may}. Its seal may not hold ${listed(concern.by)} back: ${PATCH}.`;
      return say`${may}: seal it, and ${PATCH}.`;
    }
    case 'no-bond':
      return say`${fresh.name} does not hold on ${concern.under.name}: take coats of one family.`;
    case 'dissolves':
      return say`Styrene in ${fresh.name} dissolves ${called(concern.under)}: take an epoxy or a urethane, or seal it thickly with what holds no solvent, and ${PATCH}.`;
    case 'heat':
      return say`${fresh.name} heats itself to ${plain(temperatureText(concern.peakCelsius, units))}, and ${called(concern.under)} stands ${plain(temperatureText(concern.standsCelsius, units))}: thinner layers, and let each cool.`;
    case 'release': {
      const what = called(concern.under);
      if (concern.seal && concern.release) return say`Seal and release ${what} first: ${fresh.name} soaks in and bonds.`;
      if (concern.seal) return say`Seal ${what} first: ${fresh.name} soaks into its pores.`;
      return say`Release ${what} first${fresh.family === 'gypsum' && !isModel(concern.under) ? say` (soap will do)` : say``}: ${fresh.name} bonds to it.`;
    }
    case 'test-patch':
      if (concern.surface === null)
        return say`${fresh.name} is kept from curing by ${listed(fresh.inhibitedBy)}: test a small patch first.`;
      if (concern.surface.living) return NOT_ON_THE_LIVING;
      return concern.surface.meant === null
        ? say`Whether ${fresh.name} cures on “${concern.surface.typed}” and lets go of it is not known here: ${PATCH}.`
        : say`“${concern.surface.typed}” is not known here. Did you mean ${concern.surface.meant}? Else ${PATCH}.`;
  }
}

const underOf = (concern: Concern): Under | null => (concern.kind === 'test-patch' ? concern.surface : concern.under);

/** As lines in their order, the gravest first. What bonds to the same material stands in one line. */
export function concernLines(concerns: readonly Concern[], { units }: Studio): Text[] {
  const alike = (one: Concern) => (other: Concern) =>
    one.kind === 'release' &&
    other.kind === 'release' &&
    other.under === one.under &&
    !isModel(one.under) &&
    !one.seal &&
    !other.seal;
  return concerns.flatMap((concern, index) => {
    const same = concerns.filter(alike(concern));
    if (same.length < 2 || concern.kind !== 'release') return [concernLine(concern, units)];
    if (concerns.findIndex(alike(concern)) < index) return [];
    const fresh = same.map((each) => say`${each.fresh.name}`);
    return [say`Release ${called(concern.under)} before ${joined(fresh, ', ', ' and ')}: they bond to it.`];
  });
}

/** As scripts read them. */
export const concernData = (concerns: readonly Concern[]) =>
  concerns.map((concern) => {
    const under = underOf(concern);
    return {
      kind: concern.kind,
      fresh: concern.fresh.id,
      under: under === null ? null : 'typed' in under ? under.typed : under.id,
      by: concern.kind === 'inhibition' ? concern.by : [],
    };
  });

/** The answer in a word or two: of several the gravest. */
function verdictOf(concerns: readonly Concern[], known: boolean): Text {
  if (!known) return say`not known, test it`;
  const [gravest] = concerns;
  if (gravest?.kind === 'inhibition') return gravest.damp ? say`only when it is dry` : say`it may not cure`;
  if (gravest?.kind === 'dissolves') return say`it dissolves it`;
  if (gravest?.kind === 'heat') return say`it gets too hot for it`;
  const releases = concerns.filter((each) => each.kind === 'release');
  const seal = releases.some((each) => each.seal);
  if (!releases.some((each) => each.release)) return seal ? say`only when it is sealed` : say`it lets go`;
  return seal ? say`only sealed, and with a release` : say`it needs a release`;
}

/** What another choice of material would spare: to be known before anything is begun. */
export const isOfTheChoice = (concern: Concern): boolean =>
  concern.kind === 'inhibition' ? !concern.damp : concern.kind !== 'release' && concern.kind !== 'test-patch';

/** What a job begins with in spite of: a material that may not cure on its model, as the end of a title; null where it may. */
export function graveTitle(concerns: readonly Concern[]): Text | null {
  const grave = concerns.find((each) => each.kind === 'inhibition' && !each.damp);
  return grave?.kind === 'inhibition' ? say`it may not cure on ${nameOf(grave.under)}` : null;
}
const nameOf = (under: Under): Text => ('typed' in under ? say`${under.typed}` : say`${under.name}`);

/** What is to be minded where `fresh` is laid on something that it is to come off again; of a material, whether it holds as a coat. */
export function pairCard(fresh: Material, under: Under, studio: Studio): Card {
  const ofModel = 'typed' in under;
  const concerns = concernsOf([ofModel ? { on: 'surface', fresh, surface: under } : { on: 'mould', fresh, under }]);
  const known = ofModel ? under.known : fresh.family !== 'other' && under.family !== 'other';
  const bonds = ofModel || !known ? null : coatsBond(fresh.family, under.family);
  return card(
    say`${fresh.name} on ${called(under)}: ${verdictOf(concerns, known)}`,
    [
      ...concernLines(concerns, studio),
      ...(bonds === null ? [] : [bonds ? say`As a coat on a coat it holds.` : say`As a coat on a coat it does not hold.`]),
      say`That is the trade’s usual: the data sheets go first, then a test patch.`,
    ],
    {
      aside: true,
      data: {
        pair: { fresh: fresh.id, under: ofModel ? under.typed : under.id, bonds },
        concerns: concernData(concerns),
      },
    },
  );
}
