/** What a line of the local chat asks for, before anything is looked up. */
export type Asked =
  | { as: 'nothing' }
  | { as: 'command'; line: string }
  | { as: 'press'; label: string }
  | { as: 'advance'; by: string }
  | { as: 'advance-until'; wallClock: string }
  | { as: 'speaker'; who: string; next: Asked }
  | { as: 'channel'; channel: string; next: Asked }
  | { as: 'unknown'; text: string };

const NAME = '[\\p{L}\\p{N}][\\p{L}\\p{N}._-]{0,63}';
const SPEAKER = new RegExp(`^@(${NAME})(?:\\s+(.+))?$`, 'su');
const CHANNEL = new RegExp(`^#(${NAME})(?:\\s+(.+))?$`, 'su');

export function askedBy(typed: string): Asked {
  // A file made elsewhere may begin with a byte order mark.
  const text = typed.replace(/^\uFEFF/, '').trim();
  if (text === '' || text.startsWith(';')) return { as: 'nothing' };
  if (text.startsWith('/')) return { as: 'command', line: text };
  const label = /^\[\s*([^[\]]*[^[\]\s])\s*\]$/.exec(text)?.[1];
  if (label !== undefined) return { as: 'press', label };
  const until = /^\+\s*until\b(.*)$/i.exec(text)?.[1];
  if (until !== undefined) return { as: 'advance-until', wallClock: until.trim() };
  if (text.startsWith('+')) return { as: 'advance', by: text.slice(1).trim() };
  const speaker = SPEAKER.exec(text);
  const channel = CHANNEL.exec(text);
  const next = askedBy(speaker?.[2] ?? channel?.[2] ?? '');
  // Behind a name only a command, a button or the other name goes on; anything else is talk, and none of ours.
  if (next.as !== 'unknown' && next.as !== 'advance' && next.as !== 'advance-until') {
    if (speaker) return { as: 'speaker', who: speaker[1] as string, next };
    if (channel) return { as: 'channel', channel: channel[1] as string, next };
  }
  return { as: 'unknown', text };
}
