import { describe, expect, test } from 'vitest';
import { readDocument } from '../../../src/adapters/yaml/document.ts';
import { materialsFile } from '../../../src/adapters/yaml/materials.ts';
import { problemText } from '../../../src/adapters/yaml/problem.ts';

const RIGHT = `materials:
  - id: skin-x
    name: An example rubber
    family: urethane
    use: [skin]
    parts:
      - { part: A, density: 1.00, viscosity: 1.5 }
      - { part: B, density: 1.25, viscosity: 70 }
    ratio: { weight: { A: 80, B: 100 }, volume: { A: 1, B: 1 } }
    tolerance: 5 %
    reference: { temperature: 23 C, mass: 100 g }
    potLife: 18 min
    recoat: { from: 30 min, until: 3 h }
    demould: 14 h
    cure: { law: q10, q10: 2 }
    usable: { from: 15 C, until: 32 C }
    coat: { thickness: 0.8 mm, most: 1.5 mm }
    additives: [{ name: thickener, of: B, least: 0 %, most: 3 %, usual: 1 % }]
    source: made up
`;
const read = (text: string) => readDocument(materialsFile, 'materials.yaml', text);
const problems = (...changes: [string, string][]) => {
  let text = RIGHT;
  for (const [from, to] of changes) {
    expect(text).toContain(from);
    text = text.replace(from, to);
  }
  const result = read(text);
  return result.ok ? [] : result.problems;
};
const material = (...changes: [string, string][]) => {
  const result = read(changes.reduce((text, [from, to]) => text.replace(from, to), RIGHT));
  if (!result.ok) throw new Error(result.problems.map(problemText).join('\n'));
  return result.value[0];
};

type Row = [string, string, number, string, RegExp, string];
/** A field that is wrong, in a line of its own before the tenth; where it has an example of its own, that. */
const row = (field: string, path: string, message: RegExp, example?: string): Row[] => [
  ['    tolerance', `${field}\n    tolerance`, 10, `materials[0].${path}`, message, example ?? ANY],
];
const ANY = 'any';

test('the right one is right, in base units', () =>
  expect(material()).toMatchObject({
    tolerancePercent: 5,
    potLifeMinutes: 18,
    recoat: { fromMinutes: 30, untilMinutes: 180 },
    reference: { celsius: 23, massGrams: 100 },
    cure: { law: 'q10', q10: 2 },
    pourOrder: null,
    shrinkagePercent: null,
    hazards: [],
  }));

test('the example that problems quote is right itself', () => expect(read(materialsFile.example)).toMatchObject({ ok: true }));

test('what is left out of the ratio is worked out', () => {
  expect(material(['weight: { A: 80, B: 100 }, ', ''])?.parts.map(({ weightShare }) => weightShare)).toEqual([1, 1.25]);
  expect(material([', volume: { A: 1, B: 1 }', ''])?.parts.map(({ volumeShare }) => volumeShare)).toEqual([1, 1]);
  const bare = material([', volume: { A: 1, B: 1 }', ''], ['density: 1.25, ', '']);
  expect(bare?.parts.map(({ volumeShare }) => volumeShare)).toEqual([null, null]);
  expect(material(['    tolerance: 5 %\n', ''])?.tolerancePercent).toBe(2);
  expect(material(['law: q10, q10: 2', 'law: arrhenius, activationEnergy: 51.2 kJ/mol'])?.cure).toEqual({
    law: 'arrhenius',
    joulesPerMole: 51_200,
  });
});

describe('one thing wrong: line, path, words, example', () => {
  test.each<Row>([
    ['potLife: 18 min', 'potLife: soon', 12, 'materials[0].potLife', /^expected a duration with its unit, got "soon"$/, '18 min'],
    ['potLife: 18 min', 'potLife: 18', 12, 'materials[0].potLife', /got 18$/, '18 min'],
    ['potLife: 18 min', 'potLife: 0 min', 12, 'materials[0].potLife', /^expected a duration over 0, got "0 min"$/, '18 min'],
    ['potLife: 18 min', 'potLife: -1 min', 12, 'materials[0].potLife', /^expected a duration over 0, got "-1 min"$/, '18 min'],
    ['    potLife', '    most: 0 kg\n    potLife', 12, 'materials[0].most', /^expected a mass over 0, got "0 kg"$/, '1 kg'],
    ['weight: { A: 80', 'weight: { A: -90', 9, 'materials[0].ratio.weight.A', /a number over 0, got -90$/, '90'],
    ['part: A', 'part: "A, B"', 7, 'materials[0].parts[0].part', /without comma/, 'A'],
    ['part: A', 'part: "A:"', 7, 'materials[0].parts[0].part', /without comma/, 'A'],
    ['part: A', 'part: 2K', 7, 'materials[0].parts[0].part', /not begin with a digit/, 'A'],
    ['part: A', 'part: Total', 7, 'materials[0].parts[0].part', /mean something else/, 'A'],
    ['part: A', 'part: " "', 7, 'materials[0].parts[0].part', /expected a name/, 'A'],
    ['part: B', 'part: a', 8, 'materials[0].parts[1].part', /twice/, 'B'],
    ['An example rubber', 'x'.repeat(61), 3, 'materials[0].name', /at most 60 characters, got 61/, 'An example rubber'],
    ['id: skin-x', `id: ${'x'.repeat(41)}`, 2, 'materials[0].id', /at most 40 characters, got 41/, 'skin-x'],
    ['tolerance: 5 %', 'tolerance: 0 %', 10, 'materials[0].tolerance', /0\.1 to 20 %/, '5 %'],
    [
      'volume: { A: 1, B: 1 }',
      'volume: { A: 1, B: 2 }',
      9,
      'materials[0].ratio.volume',
      /volume ratio is wrong/,
      '{ A: 1, B: 1 }',
    ],
    ['    potLife: 18 min\n', '', 2, 'materials[0].potLife', /got nothing/, '18 min'],
    ['potLife', 'potlife', 2, 'materials[0].potLife', /got nothing/, '18 min'],
    ['id: skin-x', 'id: Skin X', 2, 'materials[0].id', /lower case/, 'skin-x'],
    ['urethane', 'uretane', 4, 'materials[0].family', /did you mean urethane/, 'urethane'],
    ['use: [skin]', 'use: []', 5, 'materials[0].use', /at least one/, '[ skin ]'],
    ['use: [skin]', 'use: skin', 5, 'materials[0].use', /expected a list, got "skin"/, '[ skin ]'],
    ['viscosity: 70', 'viscosity: thick', 8, 'materials[0].parts[1].viscosity', /Pa·s/, '1.5'],
    ['part: B', 'part: A', 8, 'materials[0].parts[1].part', /twice/, 'B'],
    ['weight: { A: 80, B: 100 }', 'weight: { A: 80, C: 100 }', 9, 'materials[0].ratio.weight.C', /no part "C"/, '90'],
    ['weight: { A: 80, B: 100 }', 'weight: { A: 80 }', 9, 'materials[0].ratio.weight', /none for B/, '{ A: 90, B: 100 }'],
    ['weight: { A: 80, B: 100 }', 'weight: { A: 80, B: 0 }', 9, 'materials[0].ratio.weight.B', /over 0/, '100'],
    [
      '{ weight: { A: 80, B: 100 }, volume: { A: 1, B: 1 } }',
      '{}',
      9,
      'materials[0].ratio',
      /got neither/,
      '{ weight: { A: 90, B: 100 }, volume: { A: 1, B: 1 } }',
    ],
    ['tolerance: 5 %', 'tolerance: 25 %', 10, 'materials[0].tolerance', /0\.1 to 20 %/, '5 %'],
    ['temperature: 23 C', 'temperature: 40 C', 11, 'materials[0].reference.temperature', /usable range/, '23.5 C'],
    ['until: 3 h', 'until: 20 min', 13, 'materials[0].recoat.until', /close after it opens/, '60 min'],
    ['q10: 2 }', '}', 15, 'materials[0].cure.q10', /needs it/, '2'],
    ['law: q10, q10: 2', 'law: arrhenius', 15, 'materials[0].cure.activationEnergy', /needs it/, '51.2 kJ/mol'],
    ['from: 15 C', 'from: 35 C', 16, 'materials[0].usable.until', /warmer/, '45 C'],
    ['most: 1.5 mm', 'most: 0.5 mm', 17, 'materials[0].coat.most', /at least the usual/, '1.6 mm'],
    ['of: B', 'of: C', 18, 'materials[0].additives[0].of', /no part "C"/, 'B'],
    ['least: 0 %', 'least: 4 %', 18, 'materials[0].additives[0].least', /no more than most/, '0 %'],
    ['usual: 1 %', 'usual: 4 %', 18, 'materials[0].additives[0].usual', /0 to 3 %/, '1 %'],
    ['    tolerance', '    pourOrder: [B]\n    tolerance', 10, 'materials[0].pourOrder', /none for A/, '[ B, A ]'],
    ['tolerance', 'tolerence', 10, 'materials[0].tolerence', /did you mean tolerance\?/, 'tolerance: 5 %'],
    ['tolerance', 'colour', 10, 'materials[0].colour', /expected one of id, name/, ''],
    ['viscosity: 70', 'equivalent: 190', 8, 'materials[0].parts[1].group', /needs it/, 'amine'],
    ['viscosity: 70', 'group: polyol', 8, 'materials[0].parts[1].equivalent', /group needs it/, '190'],
    ['viscosity: 70', 'equivalent: -1, group: polyol', 8, 'materials[0].parts[1].equivalent', /over 0/, '180'],
    ['viscosity: 70', 'equivalent: 190, group: amin', 8, 'materials[0].parts[1].group', /did you mean amine/, 'isocyanate'],
    ...row('    potLifeByMass: [{ mass: 100 g, potLife: 9 min }]', 'potLifeByMass[0].mass', /two pot lives for 100 g/, '200 g'),
    ...row('    potLifeByMass: [{ mass: 500 g, potLife: 19 min }]', 'potLifeByMass[0].potLife', /go off no later/, '18 min'),
    ...row('    postShrinkage: 21 %', 'postShrinkage', /0 to 20 %/, '0.05 %'),
    ...row('    expansion: 6 %', 'expansion', /0 to 5 %/, '0 %'),
    ...row('    yieldStress: 40', 'yieldStress', /with its unit/, '40 Pa'),
    ...row('    peak: 10 C', 'peak', /more than the reference temperature/, '60 C'),
    ...row('    stands: 10 C', 'stands', /more than the reference temperature/, '80 C'),
    ...row('    catalyst: { part: A, least: 2 %, most: 1 % }', 'catalyst.most', /more than least/, '3 %'),
    ...row('    catalyst: { part: A, least: 1 %, most: 2 % }', 'catalyst', /within its limits, 1 to 2 %, got 80 %/),
    ...row('    catalyst: { part: C, least: 1 %, most: 2 % }', 'catalyst.C', /no part "C"/),
    ...row('    price: cheap', 'price', /a price such as/, '24.50 EUR/kg'),
    ...row('    release: { needed: [epoxy], notNeeded: [epoxy] }', 'release.notNeeded[0]', /in both lists/),
    ...row('    leaves: [""]', 'leaves[0]', /name of a substance/, 'amines'),
  ])('%s → %s', (from, to, line, path, message, example) => {
    const found = problems([from, to]).filter((problem) => problem.path === path);
    const shown = example === ANY ? expect.any(String) : example;
    expect(found).toEqual([{ file: 'materials.yaml', line, path, message: expect.stringMatching(message), example: shown }]);
  });

  test('only by volume, and a density missing', () =>
    expect(problems(['weight: { A: 80, B: 100 }, ', ''], ['density: 1.25, ', ''])).toMatchObject([
      { path: 'materials[0].parts[1].density', line: 8 },
    ]));

  test('an id twice', () => {
    const result = read(RIGHT + RIGHT.replace('materials:\n', ''));
    expect(result).toMatchObject({
      problems: [{ path: 'materials[1].id', line: 20, message: 'the id "skin-x" is taken further up' }],
    });
  });
});

test('everything wrong is said at once, in order, checks across fields too', () =>
  expect(
    problems(
      ['family: urethane', 'family: rubber'],
      ['{ A: 80, B: 100 }', '{ A: 100, B: 80 }'],
      ['18 min', 'soon'],
      ['until: 3 h', 'until: 3 min'],
      ['source', 'sauce'],
    ).map(({ line, path }) => [line, path]),
  ).toEqual([
    [2, 'materials[0].source'],
    [4, 'materials[0].family'],
    [9, 'materials[0].ratio.weight'],
    [12, 'materials[0].potLife'],
    [13, 'materials[0].recoat.until'],
    [19, 'materials[0].sauce'],
  ]));

describe('the file itself', () => {
  test.each<[string, string, number, string, RegExp]>([
    ['an open bracket', 'materials: [', 1, '', /^not valid YAML/],
    ['a key twice', RIGHT.replace('    potLife', '    name: Again\n    potLife'), 12, 'materials[0].name', /stands here twice/],
    ['nothing', '', 1, '', /expected a mapping, got nothing/],
    ['two documents', `${RIGHT}---\n${RIGHT}`, 20, '', /^expected one document, got a second one/],
    ['a list', '- a', 1, '', /expected a mapping, got a list/],
    ['no materials', 'materials: []', 1, 'materials', /at least one/],
    ['a text for a material', 'materials:\n  - skin', 2, 'materials[0]', /expected a mapping, got "skin"/],
    ['an unknown anchor', 'materials: *none', 1, '', /not valid YAML/],
  ])('%s', (_, text, line, path, message) => {
    const result = read(text);
    expect(result.ok ? [] : result.problems).toEqual([
      { file: 'materials.yaml', line, path, message: expect.stringMatching(message), example: expect.any(String) },
    ]);
  });
});

test('the line for a person', () =>
  expect(problems(['18 min', 'soon']).map(problemText)).toEqual([
    'materials.yaml:12 materials[0].potLife: expected a duration with its unit, got "soon"; for example: 18 min',
  ]));

test('the example for an empty file is a short one', () => {
  const result = read('');
  expect(result.ok ? [] : result.problems).toMatchObject([
    { example: 'materials: [ { id: skin-x, name: An example rubber, … } ]' },
  ]);
});

describe('the chemistry of the ratio', () => {
  const urethane = (a: number, b: number, ratio = '{ weight: { A: 80, B: 100 }, volume: { A: 1, B: 1 } }') =>
    problems(
      ['viscosity: 1.5', `equivalent: ${a}, group: isocyanate`],
      ['viscosity: 70', `equivalent: ${b}, group: polyol`],
      ['{ weight: { A: 80, B: 100 }, volume: { A: 1, B: 1 } }', ratio],
    );

  // Arithmetic: 80/420 over 100/525 is 1. Common practice, no source: an index of 1.05 is meant, one of 1.2 is a slip.
  test.each([
    [420, 525, true],
    [400, 525, true],
    [350, 525, false],
    [500, 525, false],
  ])('%d and %d g/eq at 80:100: right is %s', (a, b, right) => expect(urethane(a, b)).toHaveLength(right ? 0 : 1));

  test('says both, where it stands, and what would fit', () =>
    expect(urethane(350, 525)).toEqual([
      {
        file: 'materials.yaml',
        line: 9,
        path: 'materials[0].ratio',
        // 80 × 350/420, by hand.
        message: 'the equivalents say 66.7:100 by weight (A:B), the ratio says 80:100: one of them is wrong',
        example: '{ weight: { A: 66.7, B: 100 } }',
      },
    ]));

  test('goes by the volumes where there are no weights', () =>
    expect(urethane(350, 525, '{ volume: { A: 1, B: 1 } }')).toMatchObject([{ path: 'materials[0].ratio' }]));
});

test('the new fields in base units', () =>
  expect(
    material([
      '    potLife: 18 min',
      [
        '    potLife: 18 min',
        '    potLifeByMass: [{ mass: 1 kg, potLife: 9 min }, { mass: 500 g, potLife: 12 min }]',
        '    yieldStress: 150 dyn/cm2',
        '    peak: 140 F',
        '    price: 9 USD/lb',
        '    leaves: [tin]',
        '    release: { needed: [epoxy] }',
        '    catalyst: { part: A, least: 70 %, most: 90 % }',
      ].join('\n'),
    ]),
  ).toMatchObject({
    potLifeByMass: [
      { massGrams: 500, potLifeMinutes: 12 },
      { massGrams: 1000, potLifeMinutes: 9 },
    ],
    yieldPascals: expect.closeTo(15, 9),
    peakCelsius: expect.closeTo(60, 9),
    price: { perKilogram: expect.closeTo(9 / 0.45359237, 9), currency: 'USD' },
    leaves: ['tin'],
    release: { needed: ['epoxy'], notNeeded: [] },
    catalyst: { part: 'A', leastPercent: 70, mostPercent: 90 },
    standsCelsius: null,
  }));
