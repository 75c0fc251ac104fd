import { createRequire } from 'node:module';
import { renderAsync } from '@resvg/resvg-js';
import { type Font, openSync } from 'fontkit';
import type { Painter } from '../../picture/painter.ts';
import { legible } from './legible.ts';

const fontFile = createRequire(import.meta.url).resolve;
/** The fonts come with a package, so that a picture looks the same on every machine. */
const REGULAR = fontFile('dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf');
const BOLD = fontFile('dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf');
const FAMILY = 'DejaVu Sans';

/** So many texts are remembered with their widths: measuring takes most of the time of a layout. */
const MOST_KEPT = 5000;

/** A painter with the fonts of its own, which are read once; `trouble` is told why a picture cannot be had. */
export function pngPainter(trouble: (error: unknown) => void = () => {}): Painter {
  const [regular, bold] = [openFont(REGULAR), openFont(BOLD)];
  const known = new Set(regular.characterSet.filter((point) => bold.hasGlyphForCodePoint(point)));
  const widths = new Map<string, number>();
  /** In parts of the size. */
  const widthOf = (text: string, heavy: boolean): number => {
    const key = `${heavy ? 'b' : 'r'}${text}`;
    const kept = widths.get(key);
    if (kept !== undefined) return kept;
    const font = heavy ? bold : regular;
    const width = font.layout(legible(text, known)).advanceWidth / font.unitsPerEm;
    if (widths.size >= MOST_KEPT) widths.clear();
    widths.set(key, width);
    return width;
  };
  return {
    measure: (text, size, heavy) => (text === '' ? 0 : widthOf(text, heavy) * size),
    png: async (svg) => {
      const image = await renderAsync(legible(svg, known), {
        font: { loadSystemFonts: false, fontFiles: [REGULAR, BOLD], defaultFontFamily: FAMILY, sansSerifFamily: FAMILY },
      });
      return image.asPng();
    },
    trouble,
  };
}

function openFont(file: string): Font {
  const font = openSync(file);
  if (font.type === 'TTF') return font as Font;
  throw new Error(`${file} holds no single font`);
}
