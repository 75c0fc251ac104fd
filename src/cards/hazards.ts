import type { Hazard, Material } from '../trade/material.ts';
import { joined, say, type Text } from '../words/text.ts';

/** The usual cautions of the trade. They point to the sheets and to local rules, and never take their place. */
const CAUTIONS: Readonly<Record<Hazard, { brief: Text; full: Text }>> = {
  isocyanate: {
    brief: say`isocyanate: gloves, goggles, fresh air`,
    full: say`Isocyanates can sensitise for life, through the skin and the lungs: gloves, goggles, moving air; no spraying or heating without the right respirator. Where training is the law, only trained people use them.`,
  },
  amine: {
    brief: say`amine: gloves, goggles`,
    full: say`Amine hardeners burn and sensitise skin: gloves and goggles; wash off at once.`,
  },
  epoxy: {
    brief: say`epoxy: keep it off the skin`,
    full: say`Epoxy resins sensitise: no bare skin, change soiled gloves, wipe with no solvent on skin.`,
  },
  peroxide: {
    brief: say`peroxide: goggles, never near the accelerator`,
    full: say`Organic peroxide blinds and catches fire: goggles on before the bottle is opened; never mix it with accelerator; keep it cool and off rags and metal powder.`,
  },
  styrene: {
    brief: say`styrene: fresh air, no flame`,
    full: say`Styrene vapour is harmful and burns: extraction, no flame, the right filter.`,
  },
  'tin-catalyst': {
    brief: say`tin catalyst: gloves`,
    full: say`Tin catalysts are harmful through the skin: gloves, and wash hands before eating.`,
  },
  dust: {
    brief: say`dust: mask on while pouring powder`,
    full: say`Fine dust harms the lungs: a dust mask while pouring and sanding, and clean up wet.`,
  },
  'hot-plaster': {
    brief: say`sets hot: never round a hand or limb`,
    full: say`Setting plaster grows hot enough to burn: never enclose any part of the body in it.`,
  },
  flammable: {
    brief: say`flammable: no flame`,
    full: say`Flammable: no flame or spark, lids shut, rags into a closed metal bin.`,
  },
};

const SHEETS = say`data sheet, safety data sheet and local rules go first`;

/** One line on each mix; what is shown for the first time that day, in full. */
export function hazardLines({ hazards }: Material, inFull: readonly Hazard[]): Text[] {
  if (hazards.length === 0) return [say`⚠ The ${SHEETS}.`];
  const brief = joined(
    hazards.filter((hazard) => !inFull.includes(hazard)).map((hazard) => CAUTIONS[hazard].brief),
    '; ',
  );
  return [
    ...(brief.length > 0 ? [say`⚠ ${brief} (${SHEETS}).`] : []),
    ...hazards.filter((hazard) => inFull.includes(hazard)).map((hazard) => say`⚠ ${CAUTIONS[hazard].full}`),
    ...(inFull.length > 0 ? [say`⚠ The ${SHEETS}. Ask somebody trained if in doubt.`] : []),
  ];
}
