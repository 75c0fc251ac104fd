/** A file as it came with a request. */
export interface SentFile {
  /** The index in `files[…]`, which the body's `attachments` refer to. */
  readonly index: string;
  readonly name: string;
  readonly type: string;
  readonly bytes: Uint8Array;
}

export interface ReadBody {
  readonly body: unknown;
  readonly files: readonly SentFile[];
}

const MEBIBYTE = 1024 * 1024;

/** More than the platform takes: of one file, or in one request. */
export const isTooMuch = (files: readonly SentFile[]): boolean =>
  files.some(({ bytes }) => bytes.length > 10 * MEBIBYTE) ||
  files.reduce((sum, { bytes }) => sum + bytes.length, 0) > 25 * MEBIBYTE;

/** Reads JSON, or a form with `payload_json` and `files[n]`. A body that is neither reads as its text. */
export async function readBody(type: string, bytes: Buffer): Promise<ReadBody> {
  if (type.startsWith('multipart/form-data')) return readForm(type, bytes);
  if (bytes.length === 0) return { body: undefined, files: [] };
  return { body: readJson(bytes.toString('utf8')), files: [] };
}

async function readForm(type: string, bytes: Buffer): Promise<ReadBody> {
  const form = await new Response(new Uint8Array(bytes), { headers: { 'content-type': type } }).formData();
  const files: SentFile[] = [];
  let body: unknown;
  for (const [key, value] of form) {
    if (typeof value === 'string') {
      if (key === 'payload_json') body = readJson(value);
      continue;
    }
    const index = /^files\[(\d+)\]$/.exec(key)?.[1] ?? key;
    files.push({ index, name: value.name, type: value.type, bytes: new Uint8Array(await value.arrayBuffer()) });
  }
  return { body, files };
}

function readJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}
