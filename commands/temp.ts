import { readTemperature } from '../src/bench/decide.ts';
import { byUrgency, temperatureLine } from '../src/cards/brief-card.ts';
import { isoIn } from '../src/cards/iso.ts';
import { outsideUsable } from '../src/cards/usable.ts';
import { card } from '../src/chat/card.ts';
import { text, typed } from '../src/chat/options.ts';
import { group, part } from '../src/desk/desk.ts';
import { inLine, line } from '../src/desk/examples.ts';
import { moment } from '../src/desk/resolve.ts';
import { type JobState, nextIndex, nextStep } from '../src/job/state.ts';
import { nextWindow, type Window } from '../src/job/window.ts';
import { MINUTE } from '../src/trade/calendar.ts';
import { temperatureText } from '../src/trade/format.ts';
import { parsePercent, parseTemperature } from '../src/trade/quantity.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { clock, joined, plain, say, strong, type Text } from '../src/words/text.ts';

/** Colder or hotter than any workshop: a slip of the finger. */
const ROOM = { least: -30, most: 60 };

const roomTemperature = (typedText: string): number | Refusal => {
  const celsius = parseTemperature(typedText, 'C');
  if (isRefusal(celsius) || (celsius >= ROOM.least && celsius <= ROOM.most)) return celsius;
  return new Refusal('bad-temperature', say`Expected the temperature of a workshop, got “${typedText}”.`, { example: '21 C' });
};
const humidity = (typedText: string): number | Refusal => {
  const percent = parsePercent(typedText);
  if (isRefusal(percent) || percent <= 100) return percent;
  return new Refusal('bad-humidity', say`Expected a relative humidity up to 100 %, got “${typedText}”.`, { example: '55 %' });
};

/** Less than a minute is nothing that anybody could act upon. */
const apart = (one: number | null, other: number | null) => Math.abs((one ?? 0) - (other ?? 0)) >= MINUTE;

/** How a reading moved the next window of a job. */
function movedLine({ job, before, after }: { job: JobState; before: Window; after: Window }): Text {
  const from = (word: string, was: number | null, is: number | null) =>
    was !== null && is !== null && apart(was, is) ? [say`${plain(word)} at ${clock(is)}, not at ${clock(was)}`] : [];
  const moves = [...from('opens', before.opensAt, after.opensAt), ...from('closes', before.closesAt, after.closesAt)];
  return say`${strong(say`${job.name}`)}: ${nextStep(job)?.plan.title ?? ''} ${joined(moves, '; ')}.`;
}

export default group({
  name: 'temp',
  summary: 'The temperature of this bench, which every clock follows',
  commands: {
    log: part({
      summary: 'Log what the thermometer shows; every open wait and pot life moves with it',
      options: {
        value: typed(
          inLine(roomTemperature, (value) => line('temp log', { value })),
          { about: 'The temperature: 21 C or 70 F' },
        ),
        humidity: typed(
          inLine(humidity, (value) => line('temp log', { value: '21 C', humidity: value })),
          { about: 'Relative humidity: 55 %' },
        ).optional(),
        at: text({ about: 'When it was read, if not just now: 10m ago, 14:05' }).optional(),
      },
      examples: ['value:18,5 C', 'value:64 F humidity:55 % at:20m ago'],
      run: async (input, desk) => {
        const at = moment(desk, input.at, (ago) => line('temp log', { value: `${Number(input.value.toFixed(1))} C`, at: ago }));
        if (isRefusal(at)) return at;
        const decided = await desk.bench.decide(() =>
          readTemperature(input.value, input.humidity ?? null, { by: desk.who, at, now: desk.now }),
        );
        if (isRefusal(decided)) return decided;
        const view = { state: decided.state, studio: desk.studio, now: desk.now };
        const jobs = byUrgency(view);
        const moved = jobs.flatMap((job) => {
          const before = nextWindow(job, decided.before.temperatures);
          const after = nextWindow(job, decided.state.temperatures);
          return before && after && (apart(before.opensAt, after.opensAt) || apart(before.closesAt, after.closesAt))
            ? [{ job, before, after }]
            : [];
        });
        // What cures now counts as much as what is mixed next.
        const concerned = new Set(
          jobs.flatMap((job) =>
            job.steps.slice(Math.max(0, nextIndex(job) - 1), nextIndex(job) + 1).map(({ plan }) => plan.material?.id),
          ),
        );
        const warnings = desk.materials
          .flatMap((material) => (concerned.has(material.id) ? [outsideUsable(decided.state, material, desk.now)] : []))
          .filter((warning) => warning !== null);
        const iso = isoIn(desk.studio.zone);
        const shown = (celsius: number) => plain(temperatureText(celsius, desk.studio.units));
        const newest = decided.state.temperatures.at(-1);
        const current = newest && newest.at > at ? newest.celsius : input.value;
        return card(
          current === input.value
            ? say`Bench at ${shown(input.value)} since ${clock(at)}`
            : say`Read ${shown(input.value)} at ${clock(at)}; the bench is at ${shown(current)} now`,
          [...moved.map(movedLine), ...(moved.length === 0 ? [say`No open wait moves.`] : []), ...warnings],
          {
            data: {
              temperature: { celsius: input.value, humidityPercent: input.humidity ?? null, at: iso(at) },
              moved: moved.map(({ job, before, after }) => ({
                job: job.id,
                opensAtBefore: iso(before.opensAt),
                opensAt: iso(after.opensAt),
                closesAtBefore: before.closesAt === null ? null : iso(before.closesAt),
                closesAt: after.closesAt === null ? null : iso(after.closesAt),
              })),
            },
          },
        );
      },
    }),
    show: part({
      summary: 'What was logged lately',
      options: {},
      examples: [],
      run: async (_, desk) => {
        const state = await desk.bench.state();
        const readings = state.temperatures.slice(-8).reverse();
        return card(
          temperatureLine({ state, studio: desk.studio, now: desk.now }),
          readings.map((reading) => say`${clock(reading.at)}: ${plain(temperatureText(reading.celsius, desk.studio.units))}`),
          {
            aside: true,
            data: {
              temperatures: state.temperatures.map((reading) => ({
                celsius: reading.celsius,
                at: isoIn(desk.studio.zone)(reading.at),
              })),
            },
          },
        );
      },
    }),
  },
});
