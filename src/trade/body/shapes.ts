import { Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import { tidy } from '../measures/number.ts';
import type { Body } from './body.ts';
import { article, counting, type Piece, readPiece, Unread } from './shape-piece.ts';
import { sideBySide, standingOn } from './shape-sums.ts';
import { labelOf, shapeIn, startsWithShape, type Token, tokensOf } from './shape-words.ts';

/** What was read, and how a card repeats it; typed again, the words of the card make the same body. */
export interface Shapes {
  readonly body: Body;
  readonly spoken: string;
}

const EXAMPLE = 'box 30 x 20 x 10 cm';

/**
 * Shapes as a mould maker types them: "plate 30 x 20 cm", "half sphere d 20 cm", "2 x cylinder 5 cm across, 20 cm high",
 * sums of them with "+", and one on top of another with "on": "half sphere 12 cm on box 30 x 20 x 10 cm". A length without
 * a unit has the next one's, or the last one's, of the same shape first.
 *
 * A sum counts its pieces as standing side by side, and says so: where two of them touch, both faces are in the area. With
 * "on", the faces that touch drop out.
 *
 * Refusals: `shape-missing`, `shape-unknown`, `shape-words`, `shape-measures`, `shape-impossible`, `shape-absurd`,
 * `shape-no-room`, `unit-missing`, `length-zero`, and those of `parseNumber`. Each has a whole text that works as its example.
 */
export function readShapes(text: string): Shapes | Refusal {
  if (text.length > MOST_CHARACTERS) {
    const message = say`I expected shapes in at most ${MOST_CHARACTERS} characters, and got ${text.length}.`;
    return new Refusal('shape-absurd', message, { example: EXAMPLE });
  }
  const read = readSum(text);
  if (!(read instanceof Unread)) return read;
  const works = read.instead.find((example) => !(readSum(example) instanceof Unread)) ?? EXAMPLE;
  return new Refusal(read.refusal.code, read.refusal.message, { example: works });
}

/** More than anybody types about a model. */
const MOST_CHARACTERS = 500;
/** As much text as a count and a shape's name take. */
const NAME_LENGTH = 40;

const AND = / ?(?:\+|&|;|\b(?:plus|and)\b|,(?!\d)) ?/giu;
const ON = /,? (?:standing |sitting )?on (?:top of )?/giu;

function readSum(text: string): Shapes | Unread {
  const stacks = split(tidy(text).replace(/,? side by side$/i, ''), AND).map((part) => split(part, ON).map(tokensOf));
  const pieces: Piece[] = [];
  let later = stacks.flat(2);
  const fallback = firstUnit(later.toReversed());
  for (const stack of stacks) {
    const standing: Piece[] = [];
    for (const tokens of stack) {
      later = later.slice(tokens.length);
      const piece = readPiece(tokens, firstUnit(later) ?? fallback, text);
      if (piece instanceof Unread) return piece;
      standing.push(piece);
    }
    const whole = stacked(standing, text);
    if (whole instanceof Unread) return whole;
    pieces.push(whole);
  }
  const spoken = pieces.map(({ said }) => said).join(' + ') + (pieces.length > 1 ? ', side by side' : '');
  return { body: sideBySide(pieces.map(({ many }) => many)).body, spoken };
}

function firstUnit(tokens: readonly Token[]): string | null {
  const measure = tokens.find((token) => token.kind === 'measure' && token.unit !== null);
  return measure?.kind === 'measure' ? measure.unit : null;
}

/** At a plus, and at the other places of `by` where another shape is named next. */
function split(text: string, by: RegExp): string[] {
  const parts: string[] = [];
  let from = 0;
  for (const match of text.matchAll(by)) {
    const end = match.index + match[0].length;
    const part = text.slice(from, match.index);
    if (!match[0].includes('+') && !namesAnother(part, counting(tokensOf(text.slice(end, end + NAME_LENGTH))).tokens)) continue;
    parts.push(part);
    from = end;
  }
  return [...parts, text.slice(from)];
}

/** Rather than a measure of the shape before: a ring's "ring", a cap's "ball". */
function namesAnother(part: string, after: readonly Token[]): boolean {
  if (!startsWithShape(after)) return false;
  const label = after[0]?.kind === 'word' ? labelOf(after[0].word) : undefined;
  const before = shapeIn(tokensOf(part))?.shape;
  return !(label && before?.forms.some(({ slots }) => slots.some(({ fits }) => label in fits)));
}

/** The first on the second, and those on the third. */
function stacked(pieces: readonly Piece[], text: string): Piece | Unread {
  const [lowest, ...above] = pieces.toReversed();
  if (!lowest || above.length === 0) return lowest ?? new Unread('shape-missing', say`I expected a shape, and got “${text}”.`);
  let solid = sideBySide([lowest.many]);
  for (const { many } of above) {
    const higher = standingOn(sideBySide([many]), solid);
    if (!higher) {
      const message = say`What stands on another shape has to fit its flat top, and I got “${text}”; “+” puts it beside.`;
      return new Unread('shape-no-room', message, text.replace(ON, ' + '));
    }
    solid = higher;
  }
  const said = pieces.map((piece, index) => (index === 0 ? piece.said : `on ${article(piece.said)}`)).join(', ');
  return { many: { solid, count: 1 }, said };
}
