import type { SentFile } from './multipart.ts';
import { isRecord, type Piece, pieces } from './pieces.ts';

/** Says what is wrong with a body. */
export type Report = (fault: string) => void;

const V2_FLAG = 1 << 15;
/** Section, text, thumbnail, gallery, file, separator, container. */
const V2_TYPES = new Set([9, 10, 11, 12, 13, 14, 17]);

const textOf = (value: unknown): string => (typeof value === 'string' ? value : '');
const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

/** What a message is before an edit. */
export interface Before {
  readonly flags: number;
  /** Its files, by their ids. */
  readonly names: ReadonlyMap<string, string>;
  /** It shows nothing yet. */
  readonly empty: boolean;
}

const NEW: Before = { flags: 0, names: new Map(), empty: true };

/** Checks one message as it is sent, or edited if it was something `before`. */
export function checkMessage(body: unknown, files: readonly SentFile[], report: Report, before: Before = NEW): void {
  if (!isRecord(body)) {
    report('the body of a message is no object');
    return;
  }
  const all = [...pieces(body['components'])];
  const flags = before.flags | (typeof body['flags'] === 'number' ? body['flags'] : 0);
  const v2 = (flags & V2_FLAG) !== 0;
  const content = textOf(body['content']);
  const embeds = listOf(body['embeds']);
  if (content.length > 2000) report(`content of ${content.length} characters`);
  if (v2 && content !== '') report('content beside components v2');
  if (v2 && embeds.length > 0) report('embeds beside components v2');
  if (!v2 && all.some(({ type }) => V2_TYPES.has(type))) report('components v2 without their flag');
  if (before.empty && content === '' && embeds.length === 0 && all.length === 0 && files.length === 0) report('an empty message');
  checkEmbeds(embeds, report);
  checkPieces(all, listOf(body['components']).length, v2, report);
  checkMentions(body['allowed_mentions'], report);
  checkFiles(body, files, before.names, report);
}

/** What only `create_message` has: a nonce that makes a repeated request harmless. */
export function checkNonce(body: unknown, report: Report): void {
  const nonce = isRecord(body) ? body['nonce'] : undefined;
  if (typeof nonce !== 'string' || nonce.length === 0 || nonce.length > 25) report('no nonce of 1 to 25 characters');
  if (!isRecord(body) || body['enforce_nonce'] !== true) report('enforce_nonce is not set');
}

function checkMentions(mentions: unknown, report: Report): void {
  if (!isRecord(mentions)) {
    report('allowed_mentions is missing');
    return;
  }
  for (const kind of listOf(mentions['parse'])) report(`allowed_mentions parses ${String(kind)} wholesale`);
  for (const key of ['users', 'roles']) {
    const ids = listOf(mentions[key]);
    if (ids.length > 100) report(`${ids.length} ${key} in allowed_mentions`);
    for (const id of ids) if (!/^\d{15,20}$/.test(String(id))) report(`${String(id)} in allowed_mentions.${key} is no id`);
  }
}

function checkEmbeds(embeds: readonly unknown[], report: Report): void {
  if (embeds.length > 10) report(`${embeds.length} embeds`);
  let sum = 0;
  const limit = (what: string, value: unknown, most: number) => {
    sum += textOf(value).length;
    if (textOf(value).length > most) report(`an embed's ${what} has ${textOf(value).length} characters`);
  };
  for (const embed of embeds.filter(isRecord)) {
    limit('title', embed['title'], 256);
    limit('description', embed['description'], 4096);
    if (isRecord(embed['footer'])) limit('footer', embed['footer']['text'], 2048);
    const fields = listOf(embed['fields']);
    if (fields.length > 25) report(`an embed with ${fields.length} fields`);
    for (const field of fields.filter(isRecord)) {
      limit('field name', field['name'], 256);
      limit('field value', field['value'], 1024);
    }
  }
  if (sum > 6000) report(`${sum} characters in embeds`);
}

function checkPieces(all: readonly Piece[], top: number, v2: boolean, report: Report): void {
  if (v2 && all.length > 40) report(`${all.length} components`);
  if (!v2 && top > 5) report(`${top} rows`);
  const characters = all.reduce((sum, piece) => sum + (piece.type === 10 ? textOf(piece['content']).length : 0), 0);
  if (characters > 4000) report(`${characters} characters in text displays`);
  const seen = new Set<string>();
  for (const piece of all) {
    checkPiece(piece, report);
    const id = piece['custom_id'];
    if (typeof id !== 'string') continue;
    if (id.length < 1 || id.length > 100) report(`a custom_id of ${id.length} characters`);
    if (seen.has(id)) report(`custom_id ${id} stands twice`);
    seen.add(id);
  }
}

function checkPiece(piece: Piece, report: Report): void {
  const children = listOf(piece['components']);
  switch (piece.type) {
    case 1:
      if (children.length < 1 || children.length > 5) report(`a row of ${children.length}`);
      break;
    case 2:
      checkButton(piece, report);
      break;
    case 3:
      if (listOf(piece['options']).length > 25 || listOf(piece['options']).length < 1) report('a selection of none or over 25');
      if (textOf(piece['placeholder']).length > 150) report('a placeholder of over 150 characters');
      break;
    case 9:
      if (children.length < 1 || children.length > 3) report(`a section of ${children.length} texts`);
      if (!isRecord(piece['accessory'])) report('a section without accessory');
      break;
    case 10:
      if (textOf(piece['content']).trim() === '') report('an empty text display');
      break;
    case 12:
      if (listOf(piece['items']).length < 1 || listOf(piece['items']).length > 10) report('a gallery of none or over 10');
      for (const item of listOf(piece['items']).filter(isRecord))
        if (textOf(item['description']).length > 1024) report(`a picture's description of over 1024 characters`);
      break;
    case 17: {
      const colour = piece['accent_color'] ?? 0;
      if (!Number.isInteger(colour) || Number(colour) < 0 || Number(colour) > 0xffffff) report(`accent colour ${String(colour)}`);
      if (children.length < 1) report('an empty container');
    }
  }
}

function checkButton(button: Piece, report: Report): void {
  const label = textOf(button['label']);
  if (label.length > 80) report(`a label of ${label.length} characters`);
  if (label.trim() === '' && button['emoji'] === undefined) report('a button without label');
  const link = button['style'] === 5;
  if (link !== (typeof button['url'] === 'string')) report('a url on a button that is no link, or a link without one');
  if (link === (typeof button['custom_id'] === 'string')) report('a button needs a custom_id, a link must have none');
}

/** Every file that is spoken of comes along or stays, and every one that comes along or stays is shown. */
function checkFiles(body: Record<string, unknown>, files: readonly SentFile[], before: Before['names'], report: Report): void {
  const stay = new Map(before);
  if (Array.isArray(body['attachments'])) {
    const kept = new Set(body['attachments'].filter(isRecord).map(({ id }) => String(id)));
    for (const id of before.keys()) if (!kept.has(id)) stay.delete(id);
  }
  const staying = new Set(stay.values());
  const text = JSON.stringify([body['components'] ?? null, body['embeds'] ?? null]);
  const named = new Set([...text.matchAll(/"attachment:\/\/([^"]+)"/g)].map(([, name]) => name ?? ''));
  const sent = new Set(files.map(({ name }) => name));
  if (files.length > 10) report(`${files.length} files`);
  if (sent.size < files.length) report('two files of one name');
  for (const name of named) if (!sent.has(name) && !staying.has(name)) report(`attachment://${name} did not come along`);
  const v2 = [...pieces(body['components'])].some(({ type }) => V2_TYPES.has(type));
  if (v2) for (const name of sent) if (!named.has(name)) report(`the file ${name} came along and is not shown`);
  if (v2) for (const name of staying) if (!named.has(name)) report(`the file ${name} stays and is not shown`);
  for (const name of sent) if (staying.has(name)) report(`the file ${name} comes beside one of that name`);
  for (const one of listOf(body['attachments']).filter(isRecord))
    if (textOf(one['description']).length > 1024) report(`a description of ${textOf(one['description']).length} characters`);
  for (const { name, bytes } of files) {
    if (bytes.length > 10 * 1024 * 1024) report(`the file ${name} has ${bytes.length} bytes`);
    if (!/^[\w.-]{1,255}$/.test(name)) report(`the file name ${name} would be changed`);
  }
  const indexes = new Set(files.map(({ index }) => index));
  for (const one of listOf(body['attachments']).filter(isRecord)) {
    const id = String(one['id']);
    if (id.length < 15 && !indexes.has(id)) report(`attachments speaks of files[${id}], which did not come along`);
  }
}
