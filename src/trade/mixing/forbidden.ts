import { distance } from 'fastest-levenshtein';
import { Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import type { Material } from '../material.ts';
import { hasPeroxide } from './catalyst.ts';

const ACCELERATORS = ['accelerator', 'accelerant', 'cobalt', 'promoter', 'octoate', 'naphthenate', 'dimethylaniline'];
const SHORT_ACCELERATORS = ['dma', 'dea', 'dmpt', 'amine'];
const PEROXIDES = ['peroxide', 'mekp', 'bpo'];
const SOLVENTS = [
  ...['acetone', 'solvent', 'thinner', 'thinners', 'alcohol', 'isopropanol', 'ethanol', 'methanol', 'spirit', 'spirits', 'ipa'],
  ...['turpentine', 'turps', 'petrol', 'gasoline', 'kerosene', 'xylene', 'toluene', 'naphtha', 'benzine', 'mek'],
];

const isOneOf = (words: readonly string[], known: readonly string[]): boolean =>
  words.some((word) =>
    known.some((one) => word === one || (one.length >= 6 && distance(word, one) <= (one.length >= 9 ? 2 : 1))),
  );

/**
 * What must not go into a cup by itself. Common practice, no source; that a peroxide and an accelerator explode together is
 * what safety data sheets of either say. `declared`: the material's own sheet names it.
 *
 * Refusals: `accelerator` beside a peroxide, declared or not; `peroxide-twice`; `water-foams` in a urethane;
 * `solvent` that the sheet does not name.
 */
export function forbiddenIn(material: Material, typed: string, declared: boolean): Refusal | null {
  const words: readonly string[] = typed.toLowerCase().match(/[\p{L}\d]+/gu) ?? [];
  const peroxide = hasPeroxide(material);
  const instead = material.additives[0];
  const usual = instead === undefined ? '2 % pigment' : `${instead.usualPercent ?? instead.mostPercent} % ${instead.name}`;
  const no = (code: string, message: ReturnType<typeof say>) => new Refusal(code, message, { example: usual });
  if (peroxide && (isOneOf(words, ACCELERATORS) || words.some((word) => SHORT_ACCELERATORS.includes(word))))
    return no(
      'accelerator',
      say`Never weigh accelerator and peroxide into one cup: together they can explode. I expected no “${typed}”: use resin that is accelerated already, or let somebody trained stir it through the resin first, by the sheet.`,
    );
  if (declared) return null;
  if (peroxide && isOneOf(words, PEROXIDES))
    return no(
      'peroxide-twice',
      say`${material.name} has its peroxide among its parts: more of it heats the cup until it smokes. I expected the share as catalyst:, and no “${typed}” beside.`,
    );
  if (material.family === 'urethane' && words.includes('water'))
    return no('water-foams', say`Water makes ${material.name} foam, and never cure right. I expected no “${typed}” in it.`);
  if (isOneOf(words, SOLVENTS))
    return no(
      'solvent',
      say`“${typed}” weakens ${material.name}, shrinks it and burns. I expected only what its sheet names${plain(instead === undefined ? '' : ': ')}${instead?.name ?? ''}.`,
    );
  return null;
}
