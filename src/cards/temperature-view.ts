import { celsiusOn, temperaturesOf } from '../bench/conditions.ts';
import type { BenchState } from '../bench/fold.ts';
import { plainText } from '../chat/plain.ts';
import { type JobState, nextIndex, nextStep } from '../job/state.ts';
import { timesOf } from '../job/window.ts';
import type { TemperaturePicture } from '../picture/models.ts';
import { minutesText, temperaturesText, temperatureText } from '../trade/measures/format.ts';
import { DAY, HOUR, MINUTE } from '../trade/time/calendar.ts';
import { stretches } from '../trade/time/conditions.ts';
import { clock, plain, say, type Text } from '../words/text.ts';
import { momentText } from './board-view.ts';
import { type BenchView, byUrgency } from './brief-card.ts';
import { lastChange, movedJobs } from './moved.ts';
import { nightsBetween } from './nights.ts';

/** So much of the past is shown, and so much of what is expected. */
const PAST = 2 * DAY;
const TO_COME = DAY;
/** Without anything expected, the line of what was read ends here. */
const A_WHILE = 6 * HOUR;

/** The bench's temperature record, read and expected, and the waits that were moved by what was told last. */
export function temperatureModel(view: BenchView): TemperaturePicture {
  const { state, studio, now } = view;
  const moved = movedOf(view);
  const shown = (celsius: number) => (studio.units === 'metric' ? celsius : (celsius * 9) / 5 + 32);
  const readings = state.temperatures.filter(({ at }) => at > now - PAST && at <= now);
  const last = Math.max(now, ...moved.flatMap(({ was, is }) => [was ?? now, is ?? now]));
  const until = Math.max(now + (state.expectations.length > 0 ? TO_COME : A_WHILE), last + 2 * HOUR);
  const course = courseOf(state, now - PAST, until).map(({ celsius, ...rest }) => ({ ...rest, degrees: shown(celsius) }));
  const span = { from: Math.min(now - 2 * HOUR, ...course.map(({ from }) => from)), until };
  const celsius = celsiusOn(state, now);
  const { zone } = studio;
  return {
    now,
    zone,
    title: `Temperature, ${momentText(now, zone)}`,
    headline: celsius === null ? 'No temperature is logged' : plainText(headlineOf(view, celsius), { zone, now }),
    unit: studio.units === 'metric' ? '°C' : '°F',
    readings: readings.map((reading) => ({ at: reading.at, degrees: shown(reading.celsius) })),
    course,
    usable: usableOf(view, shown),
    nights: nightsBetween(state, studio, span),
    moved,
  };
}

function headlineOf(view: BenchView, celsius: number): Text {
  const { state, studio, now } = view;
  const read = state.temperatures.findLast(({ at }) => at <= now);
  const degrees = plain(temperatureText(celsius, studio.units));
  const said = read?.celsius === celsius ? say`${degrees}, read at ${clock(read.at)}` : say`${degrees}, as expected`;
  const ranges = rangesOf(view);
  if (ranges.some(({ fromCelsius }) => celsius < fromCelsius)) return say`${said}: too cold, check by touch`;
  return ranges.some(({ untilCelsius }) => celsius > untilCelsius) ? say`${said}: too warm, check by touch` : said;
}

function courseOf(state: BenchState, from: number, until: number) {
  const course: { from: number; until: number; celsius: number; read: boolean }[] = [];
  let at = from;
  for (const { until: ends, celsius, read } of stretches(temperaturesOf(state), from)) {
    if (celsius !== null) course.push({ from: at, until: Math.min(ends, until), celsius, read });
    at = ends;
    if (ends >= until) break;
  }
  return course;
}

/** What all the materials that cure now, or are mixed next, are made for together; null where there are none. */
function usableOf(view: BenchView, shown: (celsius: number) => number): TemperaturePicture['usable'] {
  const ranges = rangesOf(view);
  if (ranges.length === 0) return null;
  const from = Math.max(...ranges.map(({ fromCelsius }) => fromCelsius));
  const until = Math.min(...ranges.map(({ untilCelsius }) => untilCelsius));
  if (from >= until) return null;
  return { from: shown(from), until: shown(until), words: `made for ${temperaturesText(from, until, view.studio.units)}` };
}

/** What each of the materials that cure now, or are mixed next, is made for. */
const rangesOf = (view: BenchView) => byUrgency(view).flatMap((job) => atWorkOn(job));

const atWorkOn = (job: JobState) =>
  job.steps.slice(Math.max(0, nextIndex(job) - 1), nextIndex(job) + 1).flatMap(({ plan }) => (plan.usable ? [plan.usable] : []));

/** The next steps that what was told last has moved, as long as they are to come. */
function movedOf({ state, studio, now }: BenchView): TemperaturePicture['moved'] {
  return movedJobs(lastChange(state, studio, now)).flatMap(({ job, before, after }) => {
    const title = nextStep(job)?.plan.title;
    if (title === undefined) return [];
    const [from, to] = [timesOf(before), timesOf(after)];
    const opens = from.opensAt !== to.opensAt;
    const [was, is] = opens ? [from.opensAt, to.opensAt] : [from.closesAt, to.closesAt];
    if (is !== null && is <= now) return [];
    const by =
      was === null || is === null ? '' : `, ${minutesText(Math.abs(is - was) / MINUTE)} ${is > was ? 'later' : 'earlier'}`;
    const words =
      is === null
        ? say`${job.name}: no clock can tell when ${title} opens`
        : say`${job.name}: ${title} ${plain(opens ? 'opens' : 'closes')} at ${clock(is)}${plain(by)}`;
    return [{ words: plainText(words, { zone: studio.zone, now }), was, is }];
  });
}
