import { fitted, tidy, wrapped } from './fit.ts';
import type { Measure } from './painter.ts';
import { DARK_TEXT, type Look, PANEL, type Pattern, QUIET_TEXT, TEXT } from './palette.ts';
import type { Box, PlacedBar, PlacedText, Scene, Shape } from './scene.ts';

/** As wide as this; shown 400 pixels wide on a telephone, its smallest text is still 12 pixels high. */
export const WIDTH = 900;
export const MARGIN = 28;
export const INNER = WIDTH - 2 * MARGIN;
export const SMALL = 28;
export const BODY = 31;
/** The sign of a state before words, and the room that it takes. */
const SIGN = 24;
export const SIGN_ROOM = 34;
const HEADLINE = 46;
const LINE = 1.22;
export const heightOf = (size: number): number => Math.ceil(size * LINE);

interface TextAt {
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly bold?: boolean;
  readonly colour?: string;
  readonly most?: number;
  readonly within?: Box | null;
}

interface Lines {
  readonly bold?: boolean;
  readonly colour?: string;
  readonly indent?: number;
}

const isFull = (pattern: Pattern): boolean => pattern === 'solid' || pattern === 'framed';

/** A scene while it is laid out, from the top to the bottom. */
export class Sketch {
  readonly shapes: Shape[] = [];
  readonly texts: PlacedText[] = [];
  readonly bars: PlacedBar[] = [];
  /** Where the next thing goes. */
  y = MARGIN;

  readonly measure: Measure;

  constructor(measure: Measure) {
    this.measure = measure;
  }

  /** Puts a text there, cut to `most` pixels; gives its box. */
  text(words: string, { x, y, size, bold = false, colour = TEXT, most, within = null }: TextAt): Box {
    const text = fitted(tidy(words), most ?? WIDTH - MARGIN - x, size, bold, this.measure);
    const box = { x, y, width: this.measure(text, size, bold), height: heightOf(size) };
    if (text !== '') this.texts.push({ ...box, text, size, bold, colour, within });
    return box;
  }

  /** A text over the whole width, on at most so many lines. */
  lines(words: string, size: number, most: number, { indent = 0, ...more }: Lines = {}): void {
    for (const line of wrapped(tidy(words), INNER - indent, size, more.bold ?? false, most, this.measure)) {
      this.text(line, { x: MARGIN + indent, y: this.y, size, ...more });
      this.y += heightOf(size);
    }
  }

  /** What every picture begins with: what it is, small, and what it says, large. */
  head(title: string, headline: string): void {
    this.lines(title, SMALL, 1, { colour: QUIET_TEXT });
    this.y += 4;
    this.lines(headline, HEADLINE, 3, { bold: true });
    this.y += 14;
  }

  /** The sign of a state, at the left of a line of text whose top is `y`. */
  sign(look: Look, x: number, y: number): void {
    this.look({ x, y: y + (heightOf(BODY) - SIGN) / 2, width: SIGN, height: SIGN }, look);
  }

  /** Words over at most so many lines, with the sign of a state before them. */
  signed(look: Look, words: string, most: number): void {
    this.sign(look, MARGIN, this.y);
    this.lines(words, BODY, most, { indent: SIGN_ROOM });
  }

  rect(box: Box, fill: string | null, edge: string | null = null): void {
    if (box.width > 0) this.shapes.push({ as: 'rect', box, fill, edge });
  }

  line(points: readonly (readonly [number, number])[], colour: string, width: number, dashed = false): void {
    this.shapes.push({ as: 'line', points, colour, width, dashed });
  }

  /** A bar in its colour and pattern. */
  look(whole: Box, { colour, pattern }: Look): void {
    // Two full ones side by side are seen to be two.
    const box = pattern === 'solid' ? { ...whole, width: Math.max(0, whole.width - 2) } : whole;
    if (pattern !== 'thread') this.rect(box, isFull(pattern) ? colour : PANEL, pattern === 'framed' ? TEXT : colour);
    if (!isFull(pattern) && pattern !== 'outline') this.shapes.push({ as: 'pattern', box, pattern, colour });
  }

  /** Whether a text fits into a bar; if so it is put there, on a plate where the pattern would run through it. */
  inside(words: string, bar: Box, { pattern }: Look): boolean {
    const text = tidy(words);
    const width = this.measure(text, SMALL, false);
    if (text === '' || width + 16 > bar.width || heightOf(SMALL) > bar.height) return false;
    const box = { x: bar.x + 8, y: bar.y + (bar.height - heightOf(SMALL)) / 2, width, height: heightOf(SMALL) };
    if (!isFull(pattern)) this.rect({ x: bar.x + 2, y: bar.y + 2, width: width + 12, height: bar.height - 4 }, PANEL);
    this.text(text, { ...box, size: SMALL, colour: isFull(pattern) ? DARK_TEXT : TEXT, within: bar });
    return true;
  }

  /** Swatches and their words, side by side, on as many lines as they take. */
  legend(entries: readonly (readonly [Look, (box: Box) => void])[]): void {
    let x = MARGIN;
    const swatch = 40;
    for (const [{ word }, draw] of entries) {
      const width = swatch + 10 + this.measure(word, SMALL, false);
      if (x > MARGIN && x + width > WIDTH - MARGIN) {
        x = MARGIN;
        this.y += heightOf(SMALL) + 8;
      }
      draw({ x, y: this.y + 5, width: swatch, height: heightOf(SMALL) - 10 });
      this.text(word, { x: x + swatch + 10, y: this.y, size: SMALL, colour: QUIET_TEXT });
      x += width + 30;
    }
    if (entries.length > 0) this.y += heightOf(SMALL);
  }

  scene(): Scene {
    const { shapes, texts, bars } = this;
    return { width: WIDTH, height: Math.ceil(this.y + MARGIN), shapes, texts, bars };
  }
}
