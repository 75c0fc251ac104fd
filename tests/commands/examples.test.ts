import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { Declaration } from '../../src/chat/declaration.ts';
import { splitOptions, writeLine } from '../../src/chat/line.ts';
import type { Desk } from '../../src/desk/desk.ts';
import { commands } from '../../src/main/registry.ts';
import { code, example, room, SETTING } from '../support/room.ts';

/**
 * What a refusal gives as an example must work when it is typed. Each option of each command is typed wrong, in a line that is
 * right but for that, and what is offered is typed into a room in the same state.
 */
const NONSENSE = ['!!', '5'];

/**
 * What may be refused again, and why: the example puts the typing right, and the line then speaks of something that this room
 * does not hold, or meets a limit that only the whole line shows.
 */
const OUT_OF_PLACE = new Set([
  // The step is named, and its time has not come.
  'too-soon',
  // No window is missed, no job held, no cup open, no ping out, nothing logged, no list loaded, no day closed.
  'no-missed-window',
  'not-on-hold',
  'no-open-cup',
  'unknown-cup',
  'cup-ended',
  'nothing-to-snooze',
  'nothing-to-undo',
  'no-own-list',
  'no-own-recipe',
  'no-holiday',
  // What was typed lacked its unit alone; with it, it is too much, or too little, for the material.
  'batch-too-large',
  'batch-too-small',
  'wall-too-thick',
  'coat-too-thick',
  'too-slow',
  // No coat is on the job yet.
  'nothing-to-check',
  'out-of-order',
  // Whoever types has the job.
  'already-yours',
  // The line was wrong in two ways from the start.
  'day-or-off',
]);

/** These need a file beside them. */
const OF_FILES = ['model', 'unit', 'up', 'file'];
/** These store nothing, whatever they are told. */
const READS = /^(?:mix|fix|plaster|cast|laminate|area|cups|board|help|material (?:show|list|pair)|temp (?:show|pace))$/;

const rightOf = ({ path, examples, options }: Declaration<Desk>, name: string): Record<string, string> => {
  const names = options.map((option) => option.name);
  const read = examples.map((each) => {
    const { values } = splitOptions(each.slice(path.length + 1), names);
    return Object.fromEntries(values.map((value) => [value.name, value.value.text]));
  });
  return read.find((each) => Object.hasOwn(each, name)) ?? read[0] ?? {};
};

const folder = mkdtempSync(join(tmpdir(), 'coatbell-examples.'));
afterAll(() => rmSync(folder, { recursive: true }));
const own = join(folder, 'own.yaml');
writeFileSync(
  own,
  `materials:
  - id: river-rubber
    name: A rubber of our own
    family: urethane
    use: [skin]
    parts: [{ part: A, density: 1.0 }, { part: B, density: 1.1 }]
    ratio: { weight: { A: 1, B: 2 } }
    reference: { temperature: 23 C, mass: 100 g }
    potLife: 15 min
    recoat: { from: 40 min, until: 3 h }
    coat: { thickness: 0.5 mm }
    demould: 16 h
    source: an invented example
  - id: hill-shell
    name: A shell of our own
    family: urethane
    use: [shell]
    parts: [{ part: A, density: 1.0 }, { part: B, density: 1.1 }]
    ratio: { weight: { A: 1, B: 1 } }
    reference: { temperature: 23 C, mass: 100 g }
    potLife: 15 min
    recoat: { from: 20 min, until: 3 h }
    coat: { thickness: 3 mm }
    demould: 4 h
    source: an invented example
`,
);
const OWN_SETTING = [
  `/material load file:${own}`,
  '/shift set hours:07:00-15:00 days:daily',
  '/job start name:Owl skin:river-rubber shell:hill-shell',
];

/** All lines of a command that are wrong in one option. */
const wrongLines = (declaration: Declaration<Desk>): string[] =>
  declaration.options
    .filter(({ name }) => !OF_FILES.includes(name))
    .flatMap(({ name }) =>
      NONSENSE.map((value) => writeLine(declaration.path, { ...rightOf(declaration, name), [name]: value })),
    );

/** Types each line, and what is offered into the same room: no refusal has changed anything there. */
async function refusedTwice(setting: readonly string[], lines: readonly string[], reads: boolean): Promise<string[]> {
  const fresh = async () => {
    const here = await room();
    await here.type(...setting);
    return here;
  };
  const found: string[] = [];
  const seen = new Set<string>();
  let here = await fresh();
  for (const line of lines) {
    const [refused] = await here.type(line);
    const offered = code(refused) === undefined ? undefined : example(refused);
    if (offered !== undefined && !offered.startsWith('/')) found.push(`${line} -> ${offered}: no whole line`);
    const isNew = offered?.startsWith('/') && !seen.has(offered);
    const [answer] = isNew ? await here.type(offered ?? '') : [];
    seen.add(offered ?? '');
    const again = code(answer);
    if (again !== undefined && !OUT_OF_PLACE.has(again)) found.push(`${line} -> ${offered} -> ${again}`);
    found.push(...here.troubles.splice(0).map((trouble) => `${line} -> ${String(trouble)}`));
    const isStored = !reads && (refused?.kind !== 'refusal' || answer?.kind === 'reply');
    if (!isStored) continue;
    await here.close();
    here = await fresh();
  }
  await here.close();
  return found;
}

describe.each([
  { bench: 'the shipped materials', setting: SETTING },
  { bench: 'materials of its own', setting: OWN_SETTING },
])('with $bench', ({ setting }) => {
  it.each([...commands.declarations.values()].filter(({ path, options }) => options.length > 0 && path !== 'studio forget'))(
    'what a refusal of /$path offers works',
    async (declaration) => {
      expect(await refusedTwice(setting, wrongLines(declaration), READS.test(declaration.path))).toEqual([]);
    },
    60_000,
  );
});
