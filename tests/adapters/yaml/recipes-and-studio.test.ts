import { expect, test } from 'vitest';
import { type Kind, readDocument } from '../../../src/adapters/yaml/document.ts';
import { recipesFile } from '../../../src/adapters/yaml/recipes.ts';
import { studioFile } from '../../../src/adapters/yaml/studio.ts';
import { COAT } from '../../support/recipes.ts';

const problems = <T>(kind: Kind<T>, text: string) => {
  const result = readDocument(kind, 'it.yaml', text);
  return result.ok ? [] : result.problems.map(({ line, path, message, example }) => [line, path, message, example]);
};
const value = <T>(kind: Kind<T>, text: string): T => {
  const result = readDocument(kind, 'it.yaml', text);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
};

const recipe = (step: string) => `recipes:
  - id: one
    name: One
    summary: One step
    steps:
      - { id: only, title: Only, ${step} }
`;

test('steps', () => {
  const step = (text: string) => value(recipesFile, recipe(text))[0]?.steps[0];
  expect(step('kind: coat, hands: 15 min, role: skin, layer: 0.7 x, wait: recoat')).toEqual({
    ...COAT,
    id: 'only',
    title: 'Only',
  });
  expect(step('kind: prepare, hands: 30 min, wait: { from: 15 min, until: 4 h }')?.wait).toEqual({
    kind: 'fixed',
    fromMinutes: 15,
    untilMinutes: 240,
  });
  expect(step('kind: shell, hands: 1 h, role: shell, layer: 1 cm, wait: cure')?.layer).toEqual({ millimetres: 10 });
  expect(step('kind: shell, hands: 1 h, role: skin, block: 12 mm, wait: cure')?.layer).toEqual({
    blockWallMillimetres: 12,
  });
  expect(step('kind: finish, hands: 0 min, wait: none')).toMatchObject({ role: null, layer: null, handsMinutes: 0 });
  expect(problems(recipesFile, recipesFile.example)).toEqual([]);
});

test.each<[string, string, RegExp]>([
  ['kind: coat, hands: 15 min, layer: 1 x, wait: none', 'role', /a coat uses up a material/],
  ['kind: coat, hands: 15 min, role: skin, wait: none', 'layer', /a coat adds a layer/],
  ['kind: coat, hands: 15 min, role: skin, layer: 2, wait: none', 'layer', /times the usual coat/],
  ['kind: finish, hands: 15 min, role: skin, block: 12 mm, wait: none', 'block', /kind shell/],
  ['kind: shell, hands: 15 min, role: skin, layer: 1 mm, block: 12 mm, wait: none', 'block', /got both/],
  ['kind: shell, hands: 15 min, block: 12 mm, wait: none', 'role', /uses up a material/],
  ['kind: shell, hands: 15 min, role: skin, blok: 12 mm, wait: none', 'blok', /did you mean block/],
  ['kind: finish, hands: 15 min, wait: cure', 'role', /takes its time from/],
  ['kind: finish, hands: 15 min, wait: overnight', 'wait', /recoat, cure, none or a mapping/],
  ['kind: finish, hands: 15 min, wait: { from: 4 h, until: 15 min }', 'wait.until', /longer than from/],
  ['kind: finish, hands: 15 min, wait: { form: 4 h, from: 1 h }', 'wait.form', /did you mean from/],
  ['kind: polish, hands: 15 min, wait: none', 'kind', /expected one of prepare/],
  ['kind: finish, hands: -5 min, wait: none', 'hands', /expected a duration/],
])('a step with %s', (text, path, message) =>
  expect(problems(recipesFile, recipe(text))).toEqual([
    [6, `recipes[0].steps[0].${path}`, expect.stringMatching(message), expect.any(String)],
  ]),
);

test('ids of recipes, and of the steps in one, differ', () => {
  const text = recipe('kind: finish, hands: 5 min, wait: none');
  const twice = `${text}      - { id: only, title: Again, kind: finish, hands: 5 min, wait: none }\n`;
  expect(problems(recipesFile, twice + text.replace('recipes:\n', ''))).toEqual([
    [7, 'recipes[0].steps[1].id', 'the id "only" is taken further up', 'only-2'],
    [8, 'recipes[1].id', 'the id "one" is taken further up', 'one-2'],
  ]);
});

test('a studio that gives only its zone', () =>
  expect(value(studioFile, 'studio: { zone: Europe/Berlin }')).toEqual({
    name: 'The studio',
    materialsText: null,
    recipes: new Map(),
    zone: 'Europe/Berlin',
    units: 'metric',
    scale: { stepGrams: 1, mostGrams: 5000 },
    measureStepMillilitres: 5,
    graceMinutes: 10,
    snoozeMinutes: 10,
    wastePercent: 10,
    shifts: { hours: [], days: [1, 2, 3, 4, 5], closed: [] },
    duty: { always: [], byShift: {} },
    hands: { all: null, byShift: {} },
    extras: [],
    missing: [],
    quiet: null,
    shiftsSince: 0,
    staffingToldAt: 0,
    paceResets: new Map(),
    paces: new Map(),
  }));

test('a studio that gives everything, in its own way of writing', () => {
  expect(problems(studioFile, studioFile.example)).toEqual([]);
  const shifts = 'shifts: { hours: 6-14, days: weekends }, duty: { byShift: { 6 to 14: ["@dana"] } }, quiet: 22-6';
  expect(value(studioFile, `studio: { zone: europe/berlin, scale: { step: 0.1 g }, ${shifts} }`)).toMatchObject({
    zone: 'Europe/Berlin',
    scale: { stepGrams: 0.1, mostGrams: null },
    shifts: { hours: [{ fromMinute: 360, untilMinute: 840 }], days: [6, 7] },
    duty: { byShift: { '06:00-14:00': ['dana'] } },
    quiet: { fromMinute: 1320, untilMinute: 360 },
  });
  expect(value(studioFile, 'studio: { zone: UTC, shifts: { hours: [] } }').shifts.hours).toEqual([]);
});

test('hands and holidays of a studio', () => {
  const shifts = 'shifts: { hours: [6-14, 14-22] }';
  const studio = (text: string) => value(studioFile, `studio: { zone: UTC, ${shifts}, ${text} }`);
  expect(studio('hands: 2').hands).toEqual({ all: 2, byShift: {} });
  expect(studio('hands: { all: 1, 6am-2pm: 3 }').hands).toEqual({ all: 1, byShift: { '06:00-14:00': 3 } });
  expect(studio('hands: { 14-22: 3 }').hands).toEqual({ all: null, byShift: { '14:00-22:00': 3 } });
  expect(studio('holidays: [2026-12-31..2027-01-02, 2026-12-25, "2026-12-25"]').shifts.closed).toEqual([
    '2026-12-25',
    '2026-12-31',
    '2027-01-01',
    '2027-01-02',
  ]);
});

test.each<[string, string, RegExp]>([
  ['zone: UTC, hands: 0', 'hands', /hands from 1 to 20, got 0/],
  ['zone: UTC, hands: 1.5', 'hands', /whole number of hands/],
  ['zone: UTC, hands: many', 'hands', /hands from 1 to 20/],
  ['zone: UTC, hands: { all: none }', 'hands.all', /hands from 1 to 20/],
  ['zone: UTC, hands: { early: 2 }', 'hands.early', /expected hours as the key/],
  ['zone: UTC, hands: { "06:00-14:00": 2 }', 'hands["06:00-14:00"]', /there is no shift 06:00-14:00/],
  ['zone: UTC, holidays: 2026-12-25', 'holidays', /expected a list/],
  ['zone: UTC, holidays: [24 Dec]', 'holidays[0]', /expected an ISO date.*got “24 Dec”/],
  ['zone: UTC, holidays: [2026-02-29]', 'holidays[0]', /No calendar has “2026-02-29”/],
  ['zone: UTC, holidays: [2026-12-26..2026-12-24]', 'holidays[0]', /a first and a last one/],
  ['zone: Europe/Berln', 'zone', /got “Europe\/Berln”; did you mean Europe\/Berlin/],
  ['units: metric', 'zone', /expected a time zone, got nothing/],
  ['zone: UTC, units: imperial', 'units', /metric, customary/],
  ['zone: UTC, scale: { step: 1 g, most: 1 g }', 'scale.most', /more than one step/],
  ['zone: UTC, scale: { step: 1 mL }', 'scale.step', /expected a mass/],
  ['zone: UTC, measure: 5 g', 'measure', /expected a volume/],
  ['zone: UTC, waste: lots', 'waste', /percentage/],
  ['zone: UTC, shifts: { hours: [noon] }', 'shifts.hours', /expected hours/i],
  ['zone: UTC, shifts: { hours: ["06:00-06:00"] }', 'shifts.hours', /ends at another time/],
  ['zone: UTC, shifts: { hours: ["22-7", "06-14"] }', 'shifts.hours', /do not overlap, got “22:00-07:00” and “06:00-14:00”/],
  ['zone: UTC, scale: { step: 0 g }', 'scale.step', /^expected a mass over 0, got "0 g"$/],
  ['zone: UTC, shifts: { days: [someday] }', 'shifts.days', /expected days/i],
  ['zone: UTC, duty: { always: [123456789012345678] }', 'duty.always[0]', /stands in quotes/],
  [
    'zone: UTC, duty: { byShift: { "06:00-14:00": [kim] } }',
    'duty.byShift["06:00-14:00"]',
    /there is no shift 06:00-14:00; the shifts are not set/,
  ],
  ['zone: UTC, duty: { byShift: { early: [kim] } }', 'duty.byShift.early', /expected hours as the key/],
  ['zone: UTC, quiet: 22', 'quiet', /expected hours/],
  ['zone: UTC, snoze: 5 min', 'snoze', /did you mean snooze/],
])('a studio with %s', (text, path, message) =>
  expect(problems(studioFile, `studio: { ${text} }`)).toEqual([
    [1, `studio.${path}`, expect.stringMatching(message), expect.any(String)],
  ]),
);
