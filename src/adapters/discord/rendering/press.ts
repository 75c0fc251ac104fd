import { createHash } from 'node:crypto';
import type { Way } from '../../../words/refusal.ts';

/**
 * A button must still work after a restart, so all that pressing it means stands in its id:
 * `1p.<bench tag>.done;job=lion-head;step=coat-1;`. A `1f` asks for more in a form, a `1k` names what is kept elsewhere
 * because it is too long. The number comes first, so that a later format can be told from this one.
 */
const VERSION = '1';
/** The platform's limit, in UTF-16 units, which are never fewer than characters. */
export const MOST_ID = 100;

export type Press =
  | { bench: string; command: string; options: Readonly<Record<string, string>>; form?: true }
  | { bench: string; kept: string };

const digest = (text: string) => createHash('sha256').update(text).digest();

/** Six characters that stand for a channel, so that a press which strayed into another one can be told. */
export const benchTag = (bench: string): string => digest(bench).toString('base64url').slice(0, 6);

/** The id of a button, or of the form that it opens; null where it does not fit. */
export function pressId({ command, options, asks }: Pick<Way, 'command' | 'options' | 'asks'>, bench: string): string | null {
  const said = Object.entries(options).map(([name, value]) => `${packed(name)}=${packed(value)};`);
  const id = `${VERSION}${asks ? 'f' : 'p'}.${benchTag(bench)}.${packed(command)};${said.join('')}`;
  return id.length <= MOST_ID ? id : null;
}

/** The id of a button whose meaning is kept elsewhere under `hash`: letters, digits, `-` and `_`, at most 80. */
export const keptId = (hash: string, bench: string): string => `${VERSION}k.${benchTag(bench)}.${hash}`;

/** What an id means. `bench` is the channel's tag. Null for an id that is none of ours. */
export function pressOf(customId: string): Press | 'unknown-version' | null {
  const [, version, kind, bench, rest] = /^(\d+)([a-z])\.([^.]*)\.(.*)$/su.exec(customId) ?? [];
  if (version === undefined || kind === undefined || bench === undefined || rest === undefined) return null;
  if (version !== VERSION) return 'unknown-version';
  if (!/^[\w-]{6}$/.test(bench)) return null;
  if (kind === 'k') return /^[\w-]{1,80}$/.test(rest) ? { bench, kept: rest } : null;
  if (kind !== 'p' && kind !== 'f') return null;
  if (!rest.endsWith(';')) return null;
  const [first = '', ...pairs] = rest.slice(0, -1).split(';');
  const command = unpacked(first);
  const options = new Map<string, string>();
  for (const pair of pairs) {
    const [name, value, ...more] = pair.split('=').map(unpacked);
    if (name == null || value == null || more.length > 0 || options.has(name)) return null;
    options.set(name, value);
  }
  if (command === null || command === '') return null;
  return { bench, command, options: Object.fromEntries(options), ...(kind === 'f' ? { form: true } : {}) };
}

const SHORT: Readonly<Record<string, string>> = { '~': '~~', ';': '~,', '=': '~-' };
const LONG: Readonly<Record<string, string>> = { '~~': '~', '~,': ';', '~-': '=' };

/** Free of `;` and `=` and of all that is not seen. What people type stays as short as it is: blanks, umlauts, `%`. */
export const packed = (text: string): string =>
  text
    .replace(/[~;=]/g, (mark) => SHORT[mark] ?? mark)
    .replace(/(?! )[\p{Cc}\p{Cf}\p{Cs}\p{Z}]/gu, (unseen) =>
      Array.from({ length: unseen.length }, (_, index) => `~${unseen.charCodeAt(index).toString(16).padStart(4, '0')}`).join(''),
    );

/** Turns `packed` round; null for what it never gives. */
export function unpacked(text: string): string | null {
  if (!/^(?:[^~]|~[~,-]|~[0-9a-f]{4})*$/.test(text)) return null;
  return text.replace(/~(?:[~,-]|([0-9a-f]{4}))/g, (mark, unit?: string) =>
    unit === undefined ? (LONG[mark] ?? mark) : String.fromCharCode(Number.parseInt(unit, 16)),
  );
}

/**
 * The number that marks a message as the one of this ping: a component's id on the platform, a positive 31-bit integer.
 * The first thousand are left to the components that the platform numbers by itself.
 */
export const markOf = (pingId: string): number => (digest(pingId).readUInt32BE() % (2 ** 31 - 1001)) + 1001;
