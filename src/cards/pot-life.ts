import { potLifeOf } from '../trade/cups/pot-life.ts';
import type { Material } from '../trade/material.ts';
import { grams as gramsText, minutesText, temperatureText } from '../trade/measures/format.ts';
import type { UnitSystem } from '../trade/measures/format-sizes.ts';
import { plain, type Span, say, type Text } from '../words/text.ts';

/** At which temperature a pot life is told, and what it rests on in few words; null where there is no more to say of it. */
export interface Basis {
  readonly at: Span;
  readonly rests: Text | null;
}

/** `grams`: what is in the cup; `celsius`: the bench's temperature, null where none is logged. */
export function potLifeBasis(material: Material, grams: number, celsius: number | null, units: UnitSystem): Basis {
  const { minutes, massGrams, how } = potLifeOf(material, grams);
  const sheet = temperatureText(material.reference.celsius, units);
  const now = celsius === null || material.cure === null ? sheet : temperatureText(celsius, units);
  const elsewhere = now === sheet ? null : say`${plain(minutesText(minutes))} at ${plain(sheet)}`;
  const much = massGrams === null ? '' : gramsText(massGrams, 1);
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
