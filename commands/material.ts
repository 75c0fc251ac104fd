import { openJobs } from '../src/bench/fold.ts';
import { pairCard } from '../src/cards/compatibility.ts';
import { materialCard, materialLine } from '../src/cards/material-card.ts';
import { card } from '../src/chat/card.ts';
import { choice, file, text } from '../src/chat/options.ts';
import { onLiving } from '../src/desk/contacts.ts';
import { type Desk, group, part } from '../src/desk/desk.ts';
import { line } from '../src/desk/examples.ts';
import { material as materialNamed } from '../src/desk/resolve.ts';
import { surfaceOf } from '../src/trade/compatibility/surface.ts';
import { type Material, USES } from '../src/trade/material.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { joined, plain, say, type Text } from '../src/words/text.ts';

/**
 * What another list means for the jobs under way: their waits and amounts stay as they began, their mixes follow the list. A
 * list without a material that one of them still needs would leave it stranded, and is refused.
 */
async function jobsUnderWay(desk: Desk, next: readonly Material[]): Promise<Text[] | Refusal> {
  const changed: Text[] = [];
  for (const channel of await desk.house.channels())
    for (const job of openJobs(await desk.house.bench(channel).state())) {
      const needs = new Set(job.steps.flatMap(({ done, plan }) => (done === null && plan.material ? [plan.material.id] : [])));
      for (const id of needs) {
        const after = next.find((material) => material.id === id);
        if (!after)
          return new Refusal(
            'material-in-use',
            say`${job.name} is under way and still needs ${id}, which this list does not have.`,
            {
              example: '/material save',
            },
          );
        const before = desk.materials.find((material) => material.id === id);
        if (JSON.stringify(before) !== JSON.stringify(after)) changed.push(say`${job.name} (${id})`);
      }
    }
  if (changed.length === 0) return [say`No job under way is touched by it.`];
  return [say`Under way: ${joined(changed, ', ')}. Their waits and amounts stay as they began; their mixes follow this list.`];
}

/** A list of some hundred materials is a tenth of this. */
const MOST_BYTES = 256 * 1024;

const counted = (count: number) => plain(count === 1 ? '1 material' : `${count} materials`);

async function load(desk: Desk, name: string) {
  const bytes = await desk.files.read(name);
  if (isRefusal(bytes)) return bytes;
  const no = (code: string, message: ReturnType<typeof say>) =>
    new Refusal(code, message, { example: '/material save gives a list that is right' });
  if (bytes.length > MOST_BYTES)
    return no('list-too-large', say`Expected a list of materials of at most 256 KiB, got ${Math.ceil(bytes.length / 1024)} KiB.`);
  let listText: string;
  try {
    listText = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return no('not-text', say`Expected a list of materials as text (UTF-8), got something else.`);
  }
  const materials = desk.lists.read(listText);
  if (isRefusal(materials)) return materials;
  const underWay = await jobsUnderWay(desk, materials);
  if (isRefusal(underWay)) return underWay;
  const studio = await desk.house.changeStudio(() => [
    { version: 1, type: 'MaterialsLoaded', at: desk.now, by: desk.who, text: listText },
  ]);
  if (isRefusal(studio)) return studio;
  return card(
    say`${counted(materials.length)} loaded: they are this studio’s list now`,
    [...underWay, say`/material save gives the list back as a file; /material reset goes back to the program’s.`],
    { data: { materials: materials.map(({ id }) => ({ id })) } },
  );
}

export default group({
  name: 'material',
  summary: 'The materials that this studio knows',
  commands: {
    list: part({
      summary: 'All materials, or those for one use',
      options: { use: choice(USES, { about: 'Only those for this use' }).optional() },
      examples: ['use:skin'],
      run: async ({ use }, desk) => {
        const materials = desk.materials.filter((material) => use === undefined || material.use.includes(use));
        return card(
          say`${counted(materials.length)}${use === undefined ? say`` : say` for the ${plain(use)}`}`,
          materials.map(materialLine),
          {
            aside: true,
            data: {
              materials: materials.map(({ id, name, family, use: uses, potLifeMinutes }) => ({
                id,
                name,
                family,
                use: uses,
                potLifeMinutes,
              })),
            },
          },
        );
      },
    }),
    show: part({
      summary: 'Ratio, times, limits, cautions and source of one material',
      options: { material: text({ about: 'Which', complete: 'material' }) },
      examples: ['material:brush-urethane'],
      run: async (input, desk) => {
        const material = materialNamed(desk, input.material);
        return isRefusal(material) ? material : materialCard(material, desk.studio);
      },
    }),
    pair: part({
      summary: 'What to mind where one is laid on another, or on a model: cure, bond, release, heat',
      options: {
        material: text({ about: 'What is laid fresh', complete: 'material' }),
        on: text({ about: 'What it lies on: a material, or a surface such as sulphur clay', complete: 'material', free: true }),
      },
      examples: ['material:cast-resin-fast on:brush-urethane', 'material:brush-silicone-platinum on:3D print'],
      run: async (input, desk) => {
        const fresh = materialNamed(desk, input.material, (id) => line('material pair', { material: id, on: input.on }));
        if (isRefusal(fresh)) return fresh;
        const under = materialNamed(desk, input.on);
        const living = isRefusal(under)
          ? onLiving(input.on, line('material pair', { material: fresh.id, on: 'wood, shellac' }))
          : null;
        if (living) return living;
        return pairCard(fresh, isRefusal(under) ? surfaceOf(input.on) : under, desk.studio);
      },
    }),
    save: part({
      summary: 'The whole list as a file, to be changed and loaded again',
      options: {},
      examples: [],
      run: async (_, desk) => {
        const bytes = new TextEncoder().encode(desk.lists.textOf(desk.studio));
        return card(
          say`${counted(desk.materials.length)}, ${plain(desk.studio.materialsText === null ? 'the program’s list' : 'this studio’s list')}`,
          [say`Put your data sheets’ values in, and give it back with /material load.`],
          {
            aside: true,
            files: [{ name: 'materials.yaml', about: 'The list of materials', type: 'text/plain', bytes }],
          },
        );
      },
    }),
    load: part({
      summary: 'Work with a list of materials of your own, from a file',
      manage: true,
      options: { file: file({ about: 'In the form that /material save gives' }) },
      examples: ['file:config/materials.yaml'],
      run: (input, desk) => load(desk, input.file),
    }),
    reset: part({
      summary: 'Go back to the list of materials that came with the program',
      manage: true,
      options: {},
      examples: [],
      run: async (_, desk) => {
        const shipped = desk.lists.read(desk.lists.textOf({ ...desk.studio, materialsText: null }));
        const underWay = isRefusal(shipped) ? shipped : await jobsUnderWay(desk, shipped);
        if (isRefusal(underWay)) return underWay;
        const studio = await desk.house.changeStudio((now) =>
          now.materialsText === null
            ? new Refusal('no-own-list', say`This studio works with the program’s list already.`, { example: '/material save' })
            : [{ version: 1, type: 'MaterialsLoaded', at: desk.now, by: desk.who, text: null }],
        );
        if (isRefusal(studio)) return studio;
        return card(say`Back to the program’s list of materials`, underWay);
      },
    }),
  },
});
