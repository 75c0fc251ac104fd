import { celsiusOn } from '../src/bench/conditions.ts';
import { expectTemperature, readTemperature, type Said } from '../src/bench/decide.ts';
import type { BenchState } from '../src/bench/fold.ts';
import { byUrgency, temperatureLine } from '../src/cards/brief-card.ts';
import { isoIn } from '../src/cards/iso.ts';
import { movedData, movedLines } from '../src/cards/moved.ts';
import { paceText } from '../src/cards/pace.ts';
import { expectedData, expectedText } from '../src/cards/temperature.ts';
import { outsideUsable } from '../src/cards/usable.ts';
import { card } from '../src/chat/card.ts';
import { text, typed, yesNo } from '../src/chat/options.ts';
import { celsiusOf, roomDegrees } from '../src/desk/degrees.ts';
import { type Desk, group, part } from '../src/desk/desk.ts';
import { inLine, kept, line } from '../src/desk/examples.ts';
import { orNone, temperaturePicture } from '../src/desk/pictures.ts';
import { atText, material as materialNamed, moment } from '../src/desk/resolve.ts';
import { nextIndex } from '../src/job/state.ts';
import { temperatureText } from '../src/trade/measures/format.ts';
import { parsePercent } from '../src/trade/measures/quantity.ts';
import { parseHours } from '../src/trade/time/calendar-text.ts';
import { USUAL_DAY } from '../src/trade/time/conditions.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { clock, plain, say, type Text } from '../src/words/text.ts';

const humidity = (typedText: string): number | Refusal => {
  const percent = parsePercent(typedText);
  if (isRefusal(percent) || percent <= 100) return percent;
  return new Refusal('bad-humidity', say`Expected a relative humidity up to 100 %, got “${typedText}”.`, { example: '55 %' });
};

/** Materials of the open jobs that the bench is too cold or too warm for, each once: what cures now, and what is still to come. */
function warnings(state: BenchState, { studio, now }: Desk): Text[] {
  const concerned = new Map<string, Parameters<typeof outsideUsable>[1]>();
  for (const job of byUrgency({ state, studio, now })) {
    const next = nextIndex(job);
    const before = job.steps[next - 1]?.plan;
    for (const { material, usable } of [
      ...(before?.wait?.speed ? [before] : []),
      ...job.steps.slice(next).map(({ plan }) => plan),
    ])
      if (material && !concerned.has(material.id)) concerned.set(material.id, { name: material.name, usable });
  }
  return [...concerned.values()]
    .map((used) => outsideUsable(state, used, now, studio.units))
    .filter((warning) => warning !== null);
}

const log = part({
  summary: 'Log what the thermometer shows; every open wait and pot life moves with it',
  options: {
    value: typed(
      inLine(roomDegrees, (value) => line('temp log', { value })),
      { about: 'The temperature: 21 C or 70 F; a bare number is in the studio’s units' },
    ),
    humidity: typed(kept(inLine(humidity, (value) => line('temp log', { value: '21 C', humidity: value }))), {
      about: 'Relative humidity: 55 %',
    }).optional(),
    at: text({ about: 'When it was read, if not just now: 10m ago, 14:05' }).optional(),
  },
  examples: ['value:18,5 C', 'value:64 F humidity:55 % at:20m ago'],
  run: async (input, desk) => {
    const options = { value: input.value.typed, humidity: input.humidity?.typed };
    const at = moment(desk, input.at, (ago) => line('temp log', { ...options, at: ago }));
    if (isRefusal(at)) return at;
    const told = input.at === undefined ? undefined : atText(desk, at);
    const degrees = celsiusOf(desk, { value: input.value }, { command: 'temp log', options: { ...options, at: told } });
    if (isRefusal(degrees)) return degrees;
    const read = degrees.value ?? 0;
    const humidityPercent = input.humidity?.value ?? null;
    const { studio, now } = desk;
    const decided = await desk.bench.decide(() => readTemperature(read, humidityPercent, { by: desk.who, at, now }));
    if (isRefusal(decided)) return decided;
    const change = { before: decided.before, after: decided.state, studio, now };
    const shown = (celsius: number) => plain(temperatureText(celsius, studio.units));
    const current = celsiusOn(decided.state, now) ?? read;
    return card(
      current === read
        ? say`Bench at ${shown(read)} since ${clock(at)}`
        : say`Read ${shown(read)} at ${clock(at)}; the bench is at ${shown(current)} now`,
      [...movedLines(change), ...warnings(decided.state, desk)],
      {
        data: {
          temperature: { celsius: read, humidityPercent, at: isoIn(studio.zone)(at) },
          ...movedData(change),
        },
      },
    );
  },
});

const expected = (name: 'day' | 'night', about: string) =>
  typed(
    inLine(roomDegrees, (value) => line('temp expect', { [name]: value })),
    { about },
  ).optional();

const expect = part({
  summary: 'What the days and nights to come will be like; waits that run into them move',
  options: {
    day: expected('day', 'By day: 21 C or 70 F; left out, as it was read last'),
    night: expected('night', 'By night: 14 C or 57 F; left out, as it was read last'),
    hours: typed(kept(inLine(parseHours, () => line('temp expect', { night: '14 C', hours: '06:00-22:00' }))), {
      about: 'What counts as day: 06:00-22:00; left out, 07:00-19:00',
    }).optional(),
    off: yesNo({ about: 'Expect nothing any more: what was read last holds' }).optional(),
  },
  examples: ['day:21 C night:14 C', 'night:57 F hours:06:00-22:00'],
  run: async ({ day, night, hours, off }, desk) => {
    const { studio, now } = desk;
    if (off === true && (day !== undefined || night !== undefined))
      return new Refusal('day-or-off', say`Expected temperatures to come, or off, and got both.`, {
        example: '/temp expect off:yes',
      });
    if (off !== true && day === undefined && night === undefined)
      return new Refusal('nothing-expected', say`I expected how warm the days or the nights will be.`, {
        example: '/temp expect day:21 C night:14 C',
      });
    const options = { day: day?.typed, night: night?.typed, hours: hours?.typed };
    const degrees = celsiusOf(desk, { day, night }, { command: 'temp expect', options });
    if (isRefusal(degrees)) return degrees;
    const said: Said = { by: desk.who, at: now, now };
    const decided = await desk.bench.decide(() =>
      expectTemperature(
        { dayCelsius: degrees.day, nightCelsius: degrees.night, day: hours?.value ?? USUAL_DAY, zone: studio.zone },
        said,
      ),
    );
    if (isRefusal(decided)) return decided;
    const change = { before: decided.before, after: decided.state, studio, now };
    return card(
      expectedText(decided.state, studio) ?? say`What was read last holds`,
      [...movedLines(change), ...warnings(decided.state, desk)],
      {
        data: { expected: expectedData(decided.state), ...movedData(change) },
      },
    );
  },
});

const show = part({
  summary: 'What was logged lately, and what is expected',
  options: {},
  examples: [],
  run: async (_, desk) => {
    const { studio, now } = desk;
    const state = await desk.bench.state();
    const readings = state.temperatures.slice(-8).reverse();
    const iso = isoIn(studio.zone);
    const expectation = expectedText(state, studio);
    return card(
      temperatureLine({ state, studio, now }),
      [
        ...(expectation === null ? [] : [say`${expectation}.`]),
        ...readings.map((reading) => say`${clock(reading.at)}: ${plain(temperatureText(reading.celsius, studio.units))}`),
      ],
      {
        aside: true,
        files: await orNone(temperaturePicture({ state, studio, now }, desk.painter)),
        data: {
          temperatures: state.temperatures.map((reading) => ({
            celsius: reading.celsius,
            humidityPercent: reading.humidityPercent ?? null,
            at: iso(reading.at),
          })),
          expected: expectedData(state),
        },
      },
    );
  },
});

const paceData = (desk: Desk) => ({
  paces: [...desk.studio.paces].map(([material, { factor, checks }]) => ({
    material,
    factor: Number(factor.toFixed(4)),
    checks,
  })),
});

const nameOf = (desk: Desk, id: string): string => desk.materials.find((each) => each.id === id)?.name ?? id;

const pace = part({
  summary: 'How fast this studio’s materials cure beside their sheets, as tack checks have shown',
  options: {},
  examples: [],
  run: async (_, desk) => {
    const paces = [...desk.studio.paces];
    return card(
      paces.length === 0 ? say`No tack check has told anything yet` : say`What tack checks have shown`,
      [
        ...paces.map(([id, learned]) => say`${nameOf(desk, id)}: ${paceText(learned)}.`),
        ...(paces.length === 0
          ? [say`Touch each coat when its clock says so, and log what you find: /check. Late or early, I reckon with it.`]
          : [say`Their coats are reckoned so, and their cures where they are slower; pot lives are the sheet’s.`]),
      ],
      {
        aside: true,
        data: paceData(desk),
        buttons: paces
          .filter(([, { checks }]) => checks > 0)
          .slice(0, 2)
          .map(([id]) => ({
            label: `Unlearn ${nameOf(desk, id)}`.slice(0, 80),
            command: 'temp unlearn',
            options: { material: id },
          })),
      },
    );
  },
});

const unlearn = part({
  summary: 'Forget what tack checks have shown of a material: its sheet’s times count again',
  manage: true,
  options: { material: text({ about: 'Which material', complete: 'material' }) },
  examples: ['material:brush-urethane'],
  run: async ({ material: typedId }, desk) => {
    const known = desk.studio.paces.has(typedId.trim().toLowerCase()) ? typedId.trim().toLowerCase() : null;
    const found = known === null ? materialNamed(desk, typedId, (id) => line('temp unlearn', { material: id })) : null;
    if (isRefusal(found)) return found;
    const id = known ?? found?.id ?? typedId;
    const before = desk.studio.paces.get(id);
    const studio = await desk.house.changeStudio(() => [
      { version: 1, type: 'PaceReset', at: desk.now, by: desk.who, materials: [id] },
    ]);
    if (isRefusal(studio)) return studio;
    return card(
      say`${nameOf(desk, id)}: its sheet’s times count again`,
      [before ? say`It was reckoned ${paceText(before)}.` : say`Nothing was learned of it.`],
      { data: paceData({ ...desk, studio }) },
    );
  },
});

export default group({
  name: 'temp',
  summary: 'The temperature of this bench, which every clock follows',
  commands: { log, expect, show, pace, unlearn },
});
