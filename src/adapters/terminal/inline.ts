const ESC = String.fromCharCode(27);
const BELL = String.fromCharCode(7);
/** More base64 than this does not go into one sequence of kitty's protocol. */
const CHUNK = 4096;
/** About as wide as one cell is where a screen's pixels are not doubled. */
const CELL_PIXELS = 8;
const PNG = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

/** How a terminal takes a picture among its text: the protocols of iTerm2 and of kitty, which other terminals took over. */
export type PictureProtocol = 'iterm2' | 'kitty';

/** What a terminal writes a picture with, not wider than its lines; null for what is no PNG. */
export type Inline = (png: Uint8Array) => string | null;

/** `columns`: how many cells a line of the terminal has now. */
export const inlineBy =
  (protocol: PictureProtocol, columns: () => number): Inline =>
  (png) => {
    const width = widthOf(png);
    if (width === null) return null;
    const cells = Math.max(1, Math.min(columns(), Math.ceil(width / CELL_PIXELS)));
    return (protocol === 'kitty' ? kitty : iterm2)(png, cells);
  };

/** iTerm2's documentation, "Inline Images Protocol". */
const iterm2 = (png: Uint8Array, cells: number) =>
  `${ESC}]1337;File=inline=1;size=${png.length};width=${cells}:${Buffer.from(png).toString('base64')}${BELL}`;

/**
 * kitty's documentation, "The terminal graphics protocol": a PNG (`f=100`) is sent and shown (`a=T`) so many columns wide, and
 * the terminal answers nothing (`q=2`), as its answer would count as typed.
 */
function kitty(png: Uint8Array, cells: number): string {
  const text = Buffer.from(png).toString('base64');
  const parts = Array.from({ length: Math.ceil(text.length / CHUNK) }, (_, index) =>
    text.slice(index * CHUNK, (index + 1) * CHUNK),
  );
  return parts
    .map((part, index) => {
      const keys = [...(index === 0 ? ['a=T', 'f=100', 'q=2', `c=${cells}`] : []), `m=${index < parts.length - 1 ? 1 : 0}`];
      return `${ESC}_G${keys.join(',')};${part}${ESC}\\`;
    })
    .join('');
}

/** In pixels, from the first chunk of a PNG: ISO/IEC 15948, "IHDR Image header". */
function widthOf(png: Uint8Array): number | null {
  const head = Buffer.from(png.buffer, png.byteOffset, png.byteLength);
  if (head.length < 24 || !head.subarray(0, PNG.length).equals(PNG)) return null;
  return head.readUInt32BE(16) || null;
}
