/** How wide a text is, in pixels, at a size in pixels. A text that is fitted by it fits when it is painted. */
export type Measure = (text: string, size: number, bold: boolean) => number;

/** Paints pictures. An implementer measures with the very font that it paints with, and shows a character that this font lacks as another one. */
export interface Painter {
  readonly measure: Measure;
  /** The picture as PNG. Resolves without having held up others for long. */
  png(svg: string): Promise<Uint8Array>;
  /** Is told why a picture cannot be had. */
  readonly trouble?: (error: unknown) => void;
}
