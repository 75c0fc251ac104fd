import type { Files } from '../../../desk/desk.ts';
import { Refusal } from '../../../words/refusal.ts';
import { plain, quoted, say } from '../../../words/text.ts';

export interface AttachmentOptions {
  /** Counted after unpacking. 20 MiB unless told. */
  mostBytes?: number;
  /**
   * From the first look-up to the last byte of a small file. 10 s unless told; a tenth more for each 2 MiB that are announced,
   * and six times as long at most.
   */
  timeoutMilliseconds?: number;
  /** Host names that it may come from, over https. */
  hosts?: readonly string[];
  /** For tests: whole origins, such as `http://127.0.0.1:1234`, instead of `hosts`. */
  origins?: readonly string[];
}

const MEBIBYTE = 1024 * 1024;
const TENTH_MORE_BYTES = 2 * MEBIBYTE;
const MOST_TIMES = 6;
const HOSTS = ['cdn.discordapp.com', 'media.discordapp.net'];

/** The files of the chat platform's own store; `options` as in `fetchAttachment`. */
export const attachedFiles = (options: AttachmentOptions): Files => ({
  read: (url, mostBytes) => fetchAttachment(url, mostBytes === undefined ? options : { ...options, mostBytes }),
  nameOf: (url) => (URL.canParse(url) ? decoded(new URL(url).pathname.split('/').at(-1) ?? '') : url),
});

function decoded(name: string): string {
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}

/**
 * Fetches a file that somebody attached, from the chat platform's own file store and nowhere else: the address comes with
 * a message, so it is trusted no more than one. Refuses with `attachment-elsewhere`, `attachment-too-large`,
 * `attachment-too-slow` or `attachment-gone`; nothing is fetched any further then. Never rejects.
 */
export async function fetchAttachment(url: string, options: AttachmentOptions = {}): Promise<Uint8Array | Refusal> {
  const { mostBytes = 20 * MEBIBYTE, timeoutMilliseconds = 10_000, hosts = HOSTS } = options;
  const origins = options.origins ?? hosts.map((host) => `https://${host}`);
  const address = addressIn(url, origins);
  if (address === null) return elsewhere(url, origins);
  const ending = new AbortController();
  const began = performance.now();
  let timer: NodeJS.Timeout | undefined;
  let until = (_milliseconds: number) => {};
  // A race of its own: with a broken packed body, Node's fetch hangs and not even its signal ends the wait.
  const late = new Promise<Refusal>((resolve) => {
    until = (milliseconds) => {
      clearTimeout(timer);
      timer = setTimeout(() => resolve(tooSlow(milliseconds)), began + milliseconds - performance.now());
    };
  });
  until(timeoutMilliseconds);
  const announced = (bytes: number) => until(timeFor(bytes, timeoutMilliseconds));
  const file = download(address, { mostBytes, signal: ending.signal, announced }).catch(() =>
    gone(say`the connection broke off`),
  );
  const result = await Promise.race([file, late]);
  clearTimeout(timer);
  // Whatever was refused half-way would go on coming in otherwise. After the last byte it does nothing.
  ending.abort();
  return result;
}

const timeFor = (bytes: number, milliseconds: number): number =>
  Math.round(milliseconds * Math.min(MOST_TIMES, 1 + Math.floor(bytes / TENTH_MORE_BYTES) / 10));

/** Null unless it leads straight to one of the origins. Names are compared after the parser has put them in order. */
function addressIn(url: string, origins: readonly string[]): URL | null {
  if (!URL.canParse(url)) return null;
  const address = new URL(url);
  if (address.username !== '' || address.password !== '') return null;
  // The origins of `data:` and `file:` are all "null".
  return ['https:', 'http:'].includes(address.protocol) && origins.includes(address.origin) ? address : null;
}

interface Downloading {
  readonly mostBytes: number;
  readonly signal: AbortSignal;
  /** Told how large it is said to be, once that is no more than allowed. */
  readonly announced: (bytes: number) => void;
}

/** What the store answers for what was deleted, and for an address that has run out. */
const NOT_THERE: readonly number[] = [403, 404, 410];

async function download(address: URL, { mostBytes, signal, ...told }: Downloading): Promise<Uint8Array | Refusal> {
  // A redirect could lead into the network that the bot runs in, so none is followed.
  const response = await fetch(address, { redirect: 'manual', signal, headers: { 'accept-encoding': 'identity' } });
  if (response.status >= 300 && response.status < 400) return redirected();
  if (NOT_THERE.includes(response.status))
    return gone(
      say`it is not there any more (the chat's file store answered ${response.status}); what is attached can be fetched for some hours only`,
    );
  if (response.status !== 200) return gone(say`the chat's file store answered ${response.status}`);
  const announced = Number(response.headers.get('content-length') ?? 0);
  if (announced > mostBytes) return tooLarge(mostBytes, `it has ${sizeText(announced)}`);
  if (announced > 0) told.announced(announced);
  return collect(response.body ?? [], mostBytes);
}

/** What was announced may be a lie, and a packed file says nothing of what comes out of it; so this counts. */
async function collect(body: AsyncIterable<Uint8Array> | Iterable<Uint8Array>, mostBytes: number): Promise<Uint8Array | Refusal> {
  const chunks: Uint8Array[] = [];
  let bytes = 0;
  for await (const chunk of body) {
    bytes += chunk.byteLength;
    if (bytes > mostBytes) return tooLarge(mostBytes, 'it has more');
    chunks.push(chunk);
  }
  const whole = new Uint8Array(bytes);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.byteLength;
  }
  return whole;
}

function elsewhere(url: string, origins: readonly string[]): Refusal {
  const allowed = origins.map((origin) => new URL(origin).host).join(' or ');
  // Only where it leads: the rest of an address can hold a signature that gives access.
  const got = URL.canParse(url) ? `${new URL(url).protocol}//${new URL(url).host}` : 'something that is no address';
  return new Refusal(
    'attachment-elsewhere',
    say`A file is only taken from the chat's own file store, ${plain(allowed)}; this one is at ${quoted(got.slice(0, 100))}. Attach the file to the command itself.`,
  );
}

const redirected = () =>
  new Refusal(
    'attachment-elsewhere',
    say`A file is only taken straight from the chat's own file store; this one is said to be somewhere else. Attach it again.`,
  );

const tooLarge = (mostBytes: number, got: string) =>
  new Refusal(
    'attachment-too-large',
    say`A file may have ${plain(sizeText(mostBytes))} at most; ${plain(got)}. Attach a smaller one.`,
  );

const tooSlow = (timeoutMilliseconds: number) =>
  new Refusal(
    'attachment-too-slow',
    say`The file should have been here within ${timeoutMilliseconds / 1000} s; it was still on its way then. Try again.`,
  );

const gone = (why: ReturnType<typeof say>) =>
  new Refusal('attachment-gone', say`The attached file cannot be fetched: ${why}. Attach it again.`);

function sizeText(bytes: number): string {
  if (bytes < MEBIBYTE) return `${Math.ceil(bytes / 1024)} KiB`;
  return `${Math.ceil((bytes / MEBIBYTE) * 10) / 10} MiB`;
}
