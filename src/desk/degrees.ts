import { temperatureText } from '../trade/measures/format.ts';
import { parseTemperature } from '../trade/measures/quantity.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { say } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { givenOf, type Kept, kept, line, type Typed } from './examples.ts';

/** Colder or hotter than any workshop: a slip of the finger. */
const ROOM = { least: -30, most: 60 };
/** What a bare number may be without a question. In the other unit, each of these is out of it or nearly so. */
const USUAL = { least: 0, most: 45 };

type Unit = 'C' | 'F';
const within = (celsius: number, { least, most }: typeof ROOM) => celsius >= least && celsius <= most;

/** Degrees Celsius for either unit; the same where the unit was typed. */
export type Degrees = Kept<Readonly<Record<Unit, number>>>;

/** Reads the temperature of a workshop; what a bare number is in, only the studio tells. Refusals: as `parseTemperature`, `bad-temperature`. */
export const roomDegrees = kept((typed: string): Degrees['value'] | Refusal => {
  const C = parseTemperature(typed, 'C');
  const F = parseTemperature(typed, 'F');
  if (isRefusal(C)) return C;
  if (isRefusal(F)) return F;
  if (within(C, ROOM) || within(F, ROOM)) return { C, F };
  return new Refusal('bad-temperature', say`Expected the temperature of a workshop, got “${typed}”.`, { example: '21 C' });
});

const isBare = ({ value }: Degrees): boolean => value.C !== value.F;

/**
 * The degrees Celsius of the named options: a bare number is in the studio's unit. Where it fits no workshop in that, but one
 * in the other, it is asked: `which-degrees`, with the line either way. Refusal: also `bad-temperature`.
 */
export function celsiusOf<Name extends string>(
  { studio }: Pick<Desk, 'studio'>,
  asked: Readonly<Record<Name, Degrees | undefined>>,
  { command, options }: { command: string; options: Typed },
): Record<Name, number | null> | Refusal {
  const own: Unit = studio.units === 'customary' ? 'F' : 'C';
  const other: Unit = own === 'C' ? 'F' : 'C';
  const found = Object.entries(asked) as [Name, Degrees | undefined][];
  const doubtful = found.flatMap(([, each]) =>
    each && isBare(each) && !within(each.value[own], USUAL) && within(each.value[other], USUAL) ? [each] : [],
  );
  const [first] = doubtful;
  if (first) {
    const inUnit = (unit: Unit): Record<string, string> => ({
      ...givenOf(options),
      ...Object.fromEntries(
        found.flatMap(([name, each]) => (each && isBare(each) ? [[name, `${each.typed.trim()} ${unit}`]] : [])),
      ),
    });
    const ways = [other, own]
      .filter((unit) => doubtful.every(({ value }) => within(value[unit], ROOM)))
      .map((unit) => {
        // Shown as it was typed, and what that is in the other unit where this is not the studio's.
        const beside = unit === own ? '' : ` (${temperatureText(first.value[unit], 'metric')})`;
        return { label: `${first.typed.trim()} °${unit}${unit === 'F' ? beside : ''}`, command, options: inUnit(unit) };
      });
    return new Refusal(
      'which-degrees',
      say`Is “${first.typed.trim()}” in °${own} or in °${other}? I expected the temperature of a workshop.`,
      {
        example: line(command, inUnit(other)),
        ways,
      },
    );
  }
  const wrong = found.find(([, each]) => each && !within(each.value[own], ROOM));
  if (wrong)
    return new Refusal('bad-temperature', say`Expected the temperature of a workshop, got “${wrong[1]?.typed ?? ''}”.`, {
      example: line(command, { ...options, [wrong[0]]: own === 'F' ? '70 F' : '21 C' }),
    });
  return Object.fromEntries(found.map(([name, each]) => [name, each?.value[own] ?? null])) as Record<Name, number | null>;
}
