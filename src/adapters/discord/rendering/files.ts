import type { CardFile } from '../../../chat/card.ts';
import { cut, onOneLine } from './escape.ts';

/** A file as it is sent. */
export interface SentFile {
  name: string;
  data: Buffer;
  /** For those who cannot see it. */
  description?: string;
}

const MEBIBYTE = 1024 * 1024;
const MOST_BYTES = 10 * MEBIBYTE;
/** One file and this much are kept free of the platform's 10 and 25 MiB, for a text that is too long to be shown. */
const MOST_FILES = 9;
const MOST_TOGETHER = 22 * MEBIBYTE;
const MOST_TEXT_BYTES = 2 * MEBIBYTE;
const MOST_DESCRIPTION = 1000;
const MOST_NAME = 80;
const TEXT_FILE = 'card.txt';

/** The files that fit, in their order: pictures and others; and the names of those that do not. */
export function chosenFiles(files: readonly CardFile[]) {
  const pictures: SentFile[] = [];
  const others: SentFile[] = [];
  const left: string[] = [];
  const names = new Set([TEXT_FILE]);
  let together = 0;
  for (const { name, about, type, bytes } of files) {
    const fits = bytes.length <= MOST_BYTES && together + bytes.length <= MOST_TOGETHER;
    if (!fits || pictures.length + others.length >= MOST_FILES) {
      left.push(name);
      continue;
    }
    together += bytes.length;
    const description = cut(onOneLine(about).trim(), MOST_DESCRIPTION);
    const file = {
      name: freeName(name, names),
      data: Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength),
      ...(description === '' ? {} : { description }),
    };
    (type === 'image/png' ? pictures : others).push(file);
  }
  return { pictures, others, left };
}

/** The whole text of a card that is too long to be shown. */
export function textFile(text: string): SentFile {
  const data = Buffer.from(text);
  // Bytes of a character that was cut through become a replacement character, so that it is still a text.
  const fitting = data.length <= MOST_TEXT_BYTES ? data : Buffer.from(data.subarray(0, MOST_TEXT_BYTES).toString());
  return { name: TEXT_FILE, data: fitting, description: 'The whole text of this message' };
}

/** The name as the platform leaves it, so that `attachment://` finds it; numbered where another file has it. */
function freeName(name: string, taken: Set<string>): string {
  const safe = name.replace(/[^A-Za-z0-9._-]+/g, '_').replace(/^\.+/, '');
  const [, stem = '', ending = ''] = /^(.*?)(\.[A-Za-z0-9]{1,8})?$/.exec(safe) ?? [];
  for (let number = 1; ; number++) {
    const free = `${stem.slice(0, MOST_NAME) || 'file'}${number === 1 ? '' : `-${number}`}${ending}`;
    if (taken.has(free.toLowerCase())) continue;
    taken.add(free.toLowerCase());
    return free;
  }
}
