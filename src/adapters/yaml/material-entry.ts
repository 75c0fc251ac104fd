import type { z } from 'zod';
import { FAMILIES, HAZARDS, REACTING_GROUPS, USES } from '../../trade/material.ts';
import {
  check,
  duration,
  field,
  id,
  length,
  list,
  mass,
  name,
  number,
  oneOf,
  percent,
  positive,
  pressure,
  price,
  rate,
  shown,
  strict,
  temperature,
  text,
} from './fields.ts';

/** A whole right file, from which the examples in problems are taken. */
export const EXAMPLE = `
materials:
  - id: skin-x
    name: An example rubber
    family: urethane
    use: [skin]
    parts:
      - { part: A, density: 1.08, viscosity: 1.5, equivalent: 180, group: isocyanate }
      - { part: B, density: 1.2, viscosity: 70 }
    pourOrder: [B, A]
    ratio: { weight: { A: 90, B: 100 }, volume: { A: 1, B: 1 } }
    tolerance: 5 %
    reference: { temperature: 23 C, mass: 100 g }
    potLife: 18 min
    potLifeByMass: [{ mass: 500 g, potLife: 13 min }]
    recoat: { from: 30 min, until: 3 h }
    demould: 14 h
    cure: { law: q10, q10: 2, activationEnergy: 51.2 kJ/mol }
    usable: { from: 15 C, until: 32 C }
    coat: { thickness: 0.8 mm, most: 1.5 mm }
    shrinkage: 0.1 %
    postShrinkage: 0.05 %
    expansion: 0 %
    yieldStress: 40 Pa
    peak: 45 C
    stands: 80 C
    catalyst: { part: A, least: 80 %, most: 95 % }
    price: 24.50 EUR/kg
    most: 1 kg
    additives: [{ name: thickener, of: B, least: 0 %, most: 3 %, usual: 1 % }]
    hazards: [isocyanate]
    inhibitedBy: [sulphur]
    leaves: [amines]
    release: { needed: [urethane, epoxy], notNeeded: [gypsum] }
    source: typical values of the family, from memory; replace them with your data sheet's
`;

interface Cure {
  law: 'q10' | 'arrhenius';
  q10?: number | undefined;
  activationEnergy?: number | undefined;
}

/** Each law of cure needs its own number. */
const cureLaw = check<Cure>(['law', 'q10', 'activationEnergy'], ({ law, q10, activationEnergy }, report) => {
  if (law === 'q10' && q10 === undefined) report(['q10'], 'expected a number from 1 to 10, got nothing: the law q10 needs it');
  if (law === 'arrhenius' && activationEnergy === undefined)
    report(['activationEnergy'], 'expected an activation energy in kJ/mol, got nothing: the law arrhenius needs it');
});

/** What the chat commands take for something else, where they expect a part. */
const NO_PART = ['mix', 'total', 'each'];

const partName = name('a name').transform((part, ctx) => {
  const wrong = /[,;:]/.test(part)
    ? 'a name without comma, semicolon and colon'
    : /^\p{N}/u.test(part)
      ? 'a name that does not begin with a digit'
      : NO_PART.includes(part.toLowerCase())
        ? `another name: ${NO_PART.join(', ')} mean something else in the chat`
        : '';
  if (wrong) ctx.addIssue({ code: 'custom', message: `expected ${wrong}, got ${JSON.stringify(part)}` });
  return part;
});

const shares = field('a mapping from each part to its share, a number over 0', (value) =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && Object.keys(value).length > 0
    ? Object.entries(value)
    : undefined,
).transform((entries, ctx) => {
  for (const [part, share] of entries)
    if (!(Number.isFinite(share) && share > 0))
      ctx.addIssue({ code: 'custom', path: [part], message: `expected a share, a number over 0, got ${shown(share)}` });
  return new Map<string, number>(entries);
});

/** The schema of one entry, each field for itself; what fields must be to each other is checked in `material-checks.ts`. */
export const entry = strict({
  id,
  name: name('a name'),
  family: oneOf(FAMILIES),
  use: list(oneOf(USES), 1),
  parts: list(
    strict({
      part: partName,
      density: positive('a density in g/mL, as a number over 0').optional(),
      viscosity: positive('a viscosity in Pa·s, as a number over 0').optional(),
      equivalent: positive('a weight in g for each mole of reacting groups, as a number over 0').optional(),
      group: oneOf(REACTING_GROUPS).optional(),
    }),
  ).min(2, { error: 'expected at least two parts; a catalyst counts as one' }),
  pourOrder: list(text('the name of a part')).optional(),
  ratio: strict({ weight: shares.optional(), volume: shares.optional() }),
  tolerance: percent(0.1, 20).optional(),
  reference: strict({ temperature, mass: mass.optional() }),
  potLife: duration,
  potLifeByMass: list(strict({ mass, potLife: duration })).optional(),
  recoat: strict({ from: duration, until: duration.optional() }).optional(),
  demould: duration.optional(),
  cure: strict({
    law: oneOf(['q10', 'arrhenius']),
    q10: number('a number from 1 to 10', 1, 10).optional(),
    activationEnergy: rate.optional(),
  })
    .check(cureLaw)
    .optional(),
  usable: strict({ from: temperature, until: temperature }).optional(),
  coat: strict({ thickness: length, most: length.optional() }).optional(),
  shrinkage: percent(0, 20).optional(),
  postShrinkage: percent(0, 20).optional(),
  expansion: percent(0, 5).optional(),
  yieldStress: pressure.optional(),
  peak: temperature.optional(),
  stands: temperature.optional(),
  catalyst: strict({ part: text('the name of a part'), least: percent(0, 100), most: percent(0, 100) }).optional(),
  price: price.optional(),
  most: mass.optional(),
  additives: list(
    strict({
      name: name('a name'),
      of: text('the name of a part'),
      least: percent(0, 100),
      most: percent(0, 100),
      usual: percent(0, 100).optional(),
    }),
  ).optional(),
  hazards: list(oneOf(HAZARDS)).optional(),
  inhibitedBy: list(text('the name of a substance')).optional(),
  leaves: list(text('the name of a substance')).optional(),
  release: strict({ needed: list(oneOf(FAMILIES)).optional(), notNeeded: list(oneOf(FAMILIES)).optional() }).optional(),
  source: text('where the values come from'),
});

export type Entry = z.output<typeof entry>;
