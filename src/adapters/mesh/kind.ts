import { plain, say, type Text } from '../../words/text.ts';
import { isBinaryStl } from './stl-length.ts';

/** What is in a file; or what else it is, in words. */
export type Kind = 'binary-stl' | 'ascii-stl' | 'obj' | 'ply' | Text;

/** First bytes of what people hand in instead. */
const OTHERS: readonly (readonly [RegExp, string])[] = [
  [/^\x89PNG|^\xff\xd8\xff|^GIF8|^RIFF....WEBP|^BM[\s\S]{4}\0\0\0\0|^II\*\0|^MM\0\*/, 'a picture'],
  [/^PK\x03\x04/, 'a zip archive, which a 3MF file is, too'],
  [/^\x1f\x8b|^7z\xbc\xaf|^Rar!/, 'a packed archive'],
  [/^\s*ISO-10303-21/, 'a STEP file'],
  [/^\s*</, 'an XML or HTML file'],
  [/^%PDF/, 'a PDF file'],
  [/^glTF/, 'a glTF file'],
];

/** Tells by the contents, and where they tell nothing, by the ending of the name. */
export function kindOf(name: string, bytes: Uint8Array, beginning: string): Kind {
  if (isBinaryStl(bytes)) return 'binary-stl';
  const other = OTHERS.find(([pattern]) => pattern.test(beginning));
  if (other) return say`${plain(other[1])}`;
  if (/^ply[ \t]*[\r\n]/.test(beginning) || (bytes.length < 4 && 'ply'.startsWith(beginning))) return 'ply';
  const ending = /\.([a-z]+)$/i.exec(name.trim())?.[1]?.toLowerCase();
  if (beginning.includes('\0')) return ending === 'stl' ? 'binary-stl' : say`something else`;
  if (/^\s*solid/i.test(beginning)) return 'ascii-stl';
  if (/(?:^|[\r\n])[ \t]*v[ \t]+[-+.\d]/.test(beginning) || ending === 'obj') return 'obj';
  return say`some other text`;
}
