import type { Form, Label, Shape, Slot } from './shape-table.ts';
import { labelOf, type Token } from './shape-words.ts';

/** A length as typed, with what it was called. */
export interface Measure {
  readonly millimetres: number;
  readonly unit: Unit;
  readonly labels: readonly Label[];
}

/** A unit of length as it is said, and its size. */
export interface Unit {
  readonly name: string;
  readonly millimetres: number;
}

/** A form of a shape, and its measures in the order of its slots. */
export interface Filled {
  readonly form: Form;
  readonly measures: readonly Measure[];
}

type Numbered = Extract<Token, { kind: 'measure' }>;

/**
 * Which words name which measure. People write "d 12 cm, h 30 cm" or "12 cm across, 30 cm high": where the last thing said is
 * a label, one that directly follows a measure is that measure's, and otherwise the next one's. `strays`: words that are
 * neither, and labels of nothing.
 */
export function labelled(tokens: readonly Token[]): { named: { measure: Numbered; labels: Label[] }[]; strays: string[] } {
  const named: { measure: Numbered; labels: Label[] }[] = [];
  const strays: string[] = [];
  const last = tokens.findLast(({ kind }) => kind !== 'stop');
  const follows = last?.kind === 'word' && labelOf(last.word) !== undefined;
  let waiting: { label: Label; word: string }[] = [];
  let open = false;
  for (const token of tokens) {
    if (token.kind === 'stop') open = false;
    else if (token.kind === 'measure') {
      named.push({ measure: token, labels: waiting.map(({ label }) => label) });
      [waiting, open] = [[], follows];
    } else {
      const label = labelOf(token.word);
      if (label === undefined) strays.push(token.typed);
      else if (open) named.at(-1)?.labels.push(label);
      else waiting.push({ label, word: token.typed });
    }
  }
  return { named, strays: [...strays, ...waiting.map(({ word }) => word)] };
}

/** The first form of the shape that needs just these measures; undefined where there is none. */
export function fill(shape: Shape, measures: readonly Measure[]): Filled | undefined {
  for (const form of shape.forms) {
    const filled = fitted(form.slots, measures);
    if (filled) return { form, measures: filled };
  }
  return undefined;
}

/** In the order they were typed as far as their labels allow it. A radius becomes what lies across. */
function fitted(slots: readonly Slot[], measures: readonly Measure[]): Measure[] | undefined {
  if (measures.length !== slots.length) return undefined;
  const [slot, ...further] = slots;
  if (!slot) return [];
  for (const [at, measure] of measures.entries()) {
    const by = factor(slot, measure);
    const rest = by === undefined ? undefined : fitted(further, measures.toSpliced(at, 1));
    if (by !== undefined && rest) return [{ ...measure, millimetres: measure.millimetres * by }, ...rest];
  }
  return undefined;
}

function factor({ fits }: Slot, { labels }: Measure): number | undefined {
  const factors = labels.map((label) => fits[label]);
  return factors.reduce<number | undefined>((product, one) => (product && one ? product * one : undefined), 1);
}

/** "half sphere, 20 cm across": as a card repeats it, and as it can be typed again. */
export function spoken({ form, measures }: Filled): string {
  const said = (measure: Measure) => Number((measure.millimetres / measure.unit.millimetres).toPrecision(6)).toString();
  const same = measures.every(({ unit }) => unit.name === measures[0]?.unit.name);
  if (form.sides !== null) {
    const sides = measures.map((measure) => (same ? said(measure) : `${said(measure)} ${measure.unit.name}`)).join(' x ');
    return `${form.said}, ${sides}${same ? ` ${measures[0]?.unit.name}` : ''} ${form.sides}`.trim();
  }
  const parts = form.slots.map(({ before, after }, index) => {
    const measure = measures[index];
    return measure ? `${before} ${said(measure)} ${measure.unit.name} ${after}`.trim() : '';
  });
  return `${form.said}, ${parts.join(', ')}`;
}
