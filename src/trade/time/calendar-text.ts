import { IANAZone } from 'luxon';
import { named, nearest } from '../../words/nearest.ts';
import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import { type Hours, hoursText } from './calendar.ts';

/** Wall-clock time as minutes after midnight (`6`, `6:30`, `06.30`, `6am`, `6 Uhr`, `24:00`), or null where it is none. */
function minuteOf(text: string): number | null {
  const found = /^(\d{1,2})(?:[:.h](\d{2}))?\s*(?:h|uhr|(am|pm))?$/i.exec(text.trim());
  if (!found) return null;
  const half = found[3]?.toLowerCase();
  const hour = Number(found[1]);
  const minute = Number(found[2] ?? 0);
  if (minute > 59 || (half ? hour < 1 || hour > 12 : hour > 24 || (hour === 24 && minute > 0))) return null;
  return ((half ? (hour % 12) + (half === 'pm' ? 12 : 0) : hour) * 60 + minute) % 1440;
}

/** Reads `06:00-14:00`, `6-14`, `6:00 to 14:00`, `6am-2pm` or `6-14 Uhr`; hours that end at or before their start end the next day. */
export function parseHours(text: string): Hours | Refusal {
  const ends = text
    .trim()
    .replace(/^(?:from|von)\s+/i, '')
    .split(/\s*(?:-|–|—|\b(?:to|until|bis)\b)\s*/i);
  const [fromMinute, untilMinute] = ends.map(minuteOf);
  if (ends.length === 2 && fromMinute != null && untilMinute != null) return { fromMinute, untilMinute };
  return new Refusal('not-hours', say`Expected hours as a start and an end by the wall clock, got “${text}”`, {
    example: '06:00-14:00',
  });
}

const DAY_MINUTES = 1440;
const later = (minute: number, from: number) => (minute - from + DAY_MINUTES) % DAY_MINUTES;

/** Shifts share no minute of the day, and each has a length. */
function overlapIn(list: readonly Hours[]): Refusal | null {
  const example = '06:00-14:00, 14:00-22:00';
  for (const [index, hours] of list.entries()) {
    const long = later(hours.untilMinute, hours.fromMinute);
    if (long === 0)
      return new Refusal('no-length', say`A shift ends at another time than it starts, got “${hoursText(hours)}”`, { example });
    const other = list.find((next, at) => at !== index && later(next.fromMinute, hours.fromMinute) < long);
    if (other)
      return new Refusal('overlap', say`Shifts do not overlap, got “${hoursText(hours)}” and “${hoursText(other)}”`, { example });
  }
  return null;
}

/** Reads hours separated by commas, semicolons or `and`; each once, in order of their start, and none that overlap. */
export function parseHoursList(text: string): Hours[] | Refusal {
  const list = new Map<string, Hours>();
  for (const piece of text.split(/\s*[,;]\s*|\s+and\s+/i).filter((word) => word.trim() !== '')) {
    const hours = parseHours(piece);
    if (isRefusal(hours)) return new Refusal(hours.code, hours.message, { example: '06:00-14:00, 14:00-22:00' });
    list.set(hoursText(hours), hours);
  }
  const wrong = overlapIn([...list.values()]);
  if (wrong) return wrong;
  if (list.size === 0)
    return new Refusal('not-hours', say`Expected the hours of one or more shifts, got nothing`, {
      example: '06:00-14:00, 14:00-22:00',
    });
  return [...list.values()].sort((a, b) => a.fromMinute - b.fromMinute);
}

export const WEEKDAYS = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'];
const GROUPS: Readonly<Record<string, readonly number[]>> = {
  daily: [1, 2, 3, 4, 5, 6, 7],
  everyday: [1, 2, 3, 4, 5, 6, 7],
  all: [1, 2, 3, 4, 5, 6, 7],
  weekdays: [1, 2, 3, 4, 5],
  workdays: [1, 2, 3, 4, 5],
  weekend: [6, 7],
  weekends: [6, 7],
};

/** As German workshops write them; none begins like another day in English. */
const GERMAN_WEEKDAYS = ['montag', 'dienstag', 'mittwoch', 'donnerstag', 'freitag', 'samstag', 'sonntag'];

/** The ISO weekday that a word of two letters or more names, also in the plural, or 0. */
export function weekdayNamed(word: string): number {
  const name = word.replace(/\.$/, '');
  if (name.length < 2) return 0;
  if (name === 'sonnabend') return SATURDAY;
  const english = WEEKDAYS.findIndex((day) => day.startsWith(name) || `${day}s` === name) + 1;
  return english || GERMAN_WEEKDAYS.findIndex((day) => day.startsWith(name) || `${day}s` === name) + 1;
}
const SATURDAY = 6;

function daysOf(word: string): readonly number[] | null {
  const group = Object.hasOwn(GROUPS, word) ? GROUPS[word] : undefined;
  if (group) return group;
  const [first = 0, last = first, ...more] = word.split('-').map(weekdayNamed);
  if (first === 0 || last === 0 || more.length > 0) return null;
  return Array.from({ length: ((last - first + 7) % 7) + 1 }, (_, index) => ((first - 1 + index) % 7) + 1);
}

/** Reads `mon-fri`, `mon, wed`, `daily`, `weekdays` or `weekends` into ISO weekdays (Monday is 1), sorted, each once. */
export function parseDays(text: string): number[] | Refusal {
  const words = text
    .toLowerCase()
    .replace(/every\s+day/g, 'daily')
    .replace(/\s*(?:-|–|—|\bto\b)\s*/g, '-')
    .split(/[\s,;]+|\band\b/)
    .filter((word) => word !== '');
  const days = new Set<number>();
  for (const word of words) {
    const found = daysOf(word);
    const meant = found ? '' : nearest(word, [...WEEKDAYS, ...Object.keys(GROUPS)], 1).join('');
    if (!found)
      return new Refusal('not-days', say`Expected days of the week, got “${word}”${plain(meant && `; did you mean ${meant}?`)}`, {
        example: meant || 'mon-fri',
      });
    for (const day of found) days.add(day);
  }
  if (days.size === 0) return new Refusal('not-days', say`Expected days of the week, got nothing`, { example: 'mon-fri' });
  return [...days].sort((a, b) => a - b);
}

const placeOf = (zone: string) => zone.slice(zone.lastIndexOf('/') + 1);

/** Reads an IANA time zone, whatever its case; a place alone, or a slip, is refused with the nearest zones. */
export function parseZone(text: string): string | Refusal {
  const typed = text.trim();
  const zones = Intl.supportedValuesOf('timeZone');
  const known = named(typed.replaceAll(' ', '_'), [...zones, 'Etc/UTC', 'UTC']);
  if (known) return known;
  if (/^[a-z]/i.test(typed) && IANAZone.isValidZone(typed)) return typed;
  const close = new Set([
    ...zones.filter((zone) => named(placeOf(typed), [placeOf(zone)])),
    ...nearest(typed, zones),
    ...zones.filter((zone) => nearest(placeOf(typed), [placeOf(zone)]).length > 0),
  ]);
  const offered = typed === '' ? [] : [...close].slice(0, 3);
  const hint = offered.length > 0 ? `; did you mean ${offered.join(' or ')}?` : '';
  return new Refusal('unknown-zone', say`Expected a time zone such as Europe/Berlin, got “${typed}”${plain(hint)}`, {
    example: offered[0] ?? 'Europe/Berlin',
  });
}

/**
 * Reads `dana, kim` or `@dana @kim and lee`, and chat mentions such as `<@42>`, into ids, each once. A role, mentioned as
 * `<@&42>`, is `&42`: everybody who has it. Refusal: `not-people`, also for all the channel or all the server at once.
 */
export function parsePeople(text: string): string[] | Refusal {
  const words = text.split(/(?:[\s,;+]|&(?!\d))+/).filter((word) => word !== '' && word.toLowerCase() !== 'and');
  const all = words.find((word) => /^@?(?:everyone|here)$/i.test(word));
  if (all !== undefined)
    return new Refusal('not-people', say`Expected people’s names, got “${all}”: I ring nobody but whom you name.`, {
      example: '@dana, @kim',
    });
  const ids = words
    .map((word) => /^(?:<@!?([\p{L}\p{N}._-]+|&\d+)>|@?([\p{L}\p{N}._-]+|&\d+))$/u.exec(word))
    .map((found) => found?.[1] ?? found?.[2]);
  const wrong = words[ids.indexOf(undefined)];
  if (wrong !== undefined)
    return new Refusal('not-people', say`Expected people’s names, got “${wrong}”`, { example: '@dana, @kim' });
  if (ids.length === 0) return new Refusal('not-people', say`Expected people’s names, got nobody`, { example: '@dana, @kim' });
  return [...new Set(ids as string[])];
}
