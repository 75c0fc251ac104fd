import { isRefusal, Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import { absurdAmount, type Quantity, readQuantity } from './amount.ts';
import { NUMBER, parseNumber, tidy } from './number.ts';

/** What is in the cup of one part. */
export interface Poured {
  readonly part: string;
  readonly quantity: Quantity;
}

type Token = { is: 'name'; name: string } | { is: 'quantity'; quantity: Quantity; unit: boolean };

const EXAMPLE = { example: '171 g A, 200 g B' };
const JOINT = /^(?:[,;:=+&]|(?:of|and)(?![\p{L}\d])) ?/iu;
const NAME = /^(?:part |component )?[\p{L}\d][\p{L}\d_/'-]*/iu;

/**
 * What was poured: "171 g A, 200 g B", "A 171 g B 200 g", "A: 171,5; B: 200". Grams are assumed where the list has no
 * unit at all; zero is allowed. Parts keep the names that were typed.
 *
 * Refusals: `poured-unreadable`, `unit-missing` (some have a unit and some have not), `part-twice`, `amount-absurd`, and
 * those of `parseNumber`.
 */
export function parsePoured(text: string): Poured[] | Refusal {
  const unreadable = new Refusal(
    'poured-unreadable',
    say`I expected an amount and a part, again and again, and got “${text}”.`,
    EXAMPLE,
  );
  const tokens = tokensOf(tidy(text));
  if (isRefusal(tokens)) return tokens;
  if (tokens === undefined || tokens.length === 0 || tokens.length % 2 === 1) return unreadable;
  const poured: Poured[] = [];
  const seen = new Set<string>();
  const first = tokens[0]?.is;
  const units = tokens.flatMap((token) => (token.is === 'quantity' ? [token.unit] : []));
  if (units.includes(true) && units.includes(false)) {
    return new Refusal('unit-missing', say`Which unit? Some amounts in “${text}” have one, and some have none.`, EXAMPLE);
  }
  for (let i = 0; i < tokens.length; i += 2) {
    const pair = [tokens[i], tokens[i + 1]];
    if (pair[0]?.is !== first) return unreadable;
    const name = pair.find((token) => token?.is === 'name');
    const amount = pair.find((token) => token?.is === 'quantity');
    if (name?.is !== 'name' || amount?.is !== 'quantity') return unreadable;
    const key = name.name.toLowerCase();
    if (seen.has(key))
      return new Refusal('part-twice', say`“${name.name}” stands in “${text}” twice; I expected each part once.`, EXAMPLE);
    seen.add(key);
    const absurd = absurdAmount(amount.quantity, text);
    if (absurd) return absurd;
    poured.push({ part: name.name, quantity: amount.quantity });
  }
  return poured;
}

/** Undefined where something in the text is neither a name nor an amount. */
function tokensOf(text: string): Token[] | Refusal | undefined {
  const tokens: Token[] = [];
  const number = new RegExp(`^${NUMBER}(?![\\p{L}\\d])`, 'u');
  let rest = text;
  while (rest !== '') {
    rest = rest.replace(JOINT, '').trimStart();
    if (rest === '') break;
    const read = readQuantity(rest);
    if (isRefusal(read)) return read;
    const bare = read ? null : number.exec(rest);
    const name = read || bare ? null : NAME.exec(rest);
    if (read) {
      tokens.push({ is: 'quantity', quantity: read.quantity, unit: true });
      rest = read.rest;
    } else if (bare) {
      const grams = parseNumber(bare[0]);
      if (isRefusal(grams)) return grams;
      tokens.push({ is: 'quantity', quantity: { kind: 'mass', grams }, unit: false });
      rest = rest.slice(bare[0].length).trimStart();
    } else if (name) {
      const last = tokens.at(-1);
      if (last?.is === 'name') last.name += ` ${name[0]}`;
      else tokens.push({ is: 'name', name: name[0] });
      rest = rest.slice(name[0].length).trimStart();
    } else return undefined;
  }
  return tokens;
}
