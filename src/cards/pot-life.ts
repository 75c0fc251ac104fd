import type { Studio } from '../bench/studio.ts';
import { potLifeOf } from '../trade/cups/pot-life.ts';
import type { Material } from '../trade/material.ts';
import { aboutText, goodForText, temperatureText } from '../trade/measures/format.ts';
import { plain, type Span, say, strong, type Text } from '../words/text.ts';
import { untoldLine } from './usable.ts';

/** How long a cup that is mixed now is good for. */
export interface PotLifeView {
  readonly material: Material;
  readonly studio: Studio;
  /** At the bench's temperature; null where that is one that the material is not made for: then nobody can tell. */
  readonly potLifeMinutes: number | null;
  /** The bench's temperature; null where none is logged. */
  readonly celsius: number | null;
}

/**
 * "Use within 30 min at 17 °C (20 min at 23 °C and 100 g, says the sheet; more in one cup goes off sooner).", or that nobody
 * can tell. `grams`: what is in the cup; `begin`: the words before the time.
 */
export function potLifeLine(view: PotLifeView, grams: number, begin: string): Text {
  const { material, studio, potLifeMinutes, celsius } = view;
  if (potLifeMinutes === null) return untoldLine(material, celsius, studio.units);
  const { at, rests } = basis(material, grams, celsius, studio);
  const minutes = strong(plain(goodForText(potLifeMinutes)));
  return say`${plain(begin)} ${minutes} at ${at}${rests === null ? say`` : say` (${rests})`}.`;
}

/** At which temperature a pot life is told, and what it rests on in few words; null where there is no more to say of it. */
interface Basis {
  readonly at: Span;
  readonly rests: Text | null;
}

function basis(material: Material, grams: number, celsius: number | null, { units, scale }: Studio): Basis {
  const { minutes, massGrams, how } = potLifeOf(material, grams);
  const sheet = temperatureText(material.reference.celsius, units);
  const now = celsius === null || material.cure === null ? sheet : temperatureText(celsius, units);
  const elsewhere = now === sheet ? null : say`${plain(goodForText(minutes))} at ${plain(sheet)}`;
  const much = massGrams === null ? '' : aboutText(massGrams, units, scale.stepGrams);
  const several = material.potLifeByMass.length > 0;
  const rests = (): Text | null => {
    if (how === 'between')
      return say`${elsewhere === null ? say`` : say`${elsewhere} `}for ${plain(much)}, read between the sheet’s values`;
    const says =
      elsewhere === null
        ? say`so says the sheet, of ${plain(much)}`
        : say`${elsewhere}${much === '' ? say`` : say` and ${plain(much)}`}, says the sheet`;
    if (much === '') return elsewhere === null ? null : says;
    if (how === 'smallest') return say`${says}, the least that it gives`;
    if (how === 'largest') return say`${says}, the most that it gives; more in one cup goes off sooner`;
    return several ? says : say`${says}; more in one cup goes off sooner`;
  };
  return { at: plain(now), rests: rests() };
}
