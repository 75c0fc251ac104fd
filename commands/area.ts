import { areaCard } from '../src/cards/area-card.ts';
import { text, typed } from '../src/chat/options.ts';
import { coverFor, coverOptions, coverTyped, USUAL_FLANGE } from '../src/desk/covering.ts';
import { command, type Desk } from '../src/desk/desk.ts';
import { again, givenOf, inLine, kept, line, type Typed } from '../src/desk/examples.ts';
import { leftOutLines, recipeFor } from '../src/desk/recipe-for.ts';
import { pick } from '../src/desk/resolve.ts';
import { bodyOf, type Sized, sizeOptions, sizeTyped } from '../src/desk/sizing.ts';
import { laidOut } from '../src/job/laid-out.ts';
import { layersOf, unknownBlock } from '../src/job/layers-of.ts';
import { type Recipe, rolesOf } from '../src/job/recipe.ts';
import { type Coverage, coverageOf, type LayerRole } from '../src/trade/cover/coverage.ts';
import type { Material } from '../src/trade/material.ts';
import { scaleText } from '../src/trade/measures/format.ts';
import { parseLength } from '../src/trade/measures/quantity.ts';
import { isRefusal, Refusal, type Way } from '../src/words/refusal.ts';
import { plain, say } from '../src/words/text.ts';

const EXAMPLE = { area: '0.4 m2' };
const option = <T>(name: string, parse: (text: string) => T | Refusal) =>
  kept(inLine(parse, (example) => line('area', { ...EXAMPLE, [name]: example })));

const materialOption = (about: string) => text({ about, complete: 'material' }).optional();

export default command({
  name: 'area',
  summary: 'The area to cover, and what each layer of a mould takes',
  options: {
    ...sizeOptions('area'),
    recipe: text({ about: 'Whose coats; left out, the first recipe that fits', complete: 'recipe' }).optional(),
    detail: materialOption('The material of the thin detail coats'),
    skin: materialOption('The material of the skin'),
    shell: materialOption('The material of the shell'),
    thickness: typed(option('thickness', parseLength), { about: 'Of the skin: 3 mm; left out, as the recipe has it' }).optional(),
    backing: typed(option('backing', parseLength), { about: 'Of the shell: 10 mm; left out, by the size' }).optional(),
    ...coverOptions('area', EXAMPLE),
  },
  examples: [
    'area:0.4 m2 skin:brush-urethane shell:shell-paste',
    'area:20 x 30 cm relief:folds edges:15 %',
    'shape:half sphere 30 cm skin:brush-urethane shell:shell-paste flange:40 mm',
  ],
  run: async (input, desk) => {
    const others: Typed = {
      recipe: input.recipe,
      detail: input.detail,
      skin: input.skin,
      shell: input.shell,
      thickness: input.thickness?.typed,
      backing: input.backing?.typed,
      ...coverTyped(input),
    };
    const options: Typed = { ...others, ...sizeTyped(input) };
    const sized = await bodyOf(desk, input, { command: 'area', options: others });
    if (isRefusal(sized)) return sized;
    if (sized === null)
      return new Refusal('size-missing', say`How big is it? I expected an area, a shape or a model.`, {
        example: line('area', { ...EXAMPLE, ...others }),
      });
    const cover = coverFor(sized, input, (more) => line('area', { ...options, ...more }));
    if (isRefusal(cover)) return cover;
    const recipe = recipeFor(desk, input.recipe, options, (id) => line('area', { ...options, recipe: id }));
    if (isRefusal(recipe)) return recipe;
    const materials = materialsOf(desk, options);
    if (isRefusal(materials)) return materials;
    const wastePercent = input.waste?.value ?? desk.studio.wastePercent;
    const laid = laidOut(recipe, materials, {
      skinMillimetres: input.thickness?.value ?? null,
      shellMillimetres: input.backing?.value ?? null,
      body: sized.body,
    });
    if (isRefusal(laid)) return again(laid, { example: line('area', { ...options, thickness: laid.example }) });
    const coverage = coverageOf(sized.body, layersOf(laid, cover), wastePercent, desk.studio.scale);
    if (isRefusal(coverage))
      return again(coverage, { example: line('area', { ...options, detail: undefined, skin: undefined, shell: undefined }) });
    return areaCard({
      body: sized.body,
      cover,
      from: sized.from,
      spoken: sized.spoken,
      doubts: sized.doubts,
      warnings: [...leftOutLines(recipe, options), ...sized.warnings],
      mesh: sized.mesh,
      coverage,
      splits: laid.splits,
      unknownBlock: unknownBlock(laid),
      millimetres: input.thickness?.value ?? null,
      wastePercent,
      studio: desk.studio,
      buttons: waysOn(desk, sized, coverage, recipe, options),
    });
  },
});

/** The named materials, each for its layer; refused where one is not there, or is not made for it. */
function materialsOf(desk: Desk, options: Typed): Partial<Record<LayerRole, Material>> | Refusal {
  const materials: Partial<Record<LayerRole, Material>> = {};
  for (const role of ['detail', 'skin', 'shell'] as const) {
    const typed = options[role];
    if (typed === undefined) continue;
    const fit = desk.materials.filter(({ use }) => use.includes(role));
    const lineOf = (id: string) => line('area', { ...options, [role]: id });
    const named = pick('material', typed, desk.materials, lineOf);
    // What is offered must do for the layer.
    const found = isRefusal(named) ? pick('material', typed, fit, lineOf) : named;
    if (isRefusal(found)) return found;
    if (!found.use.includes(role))
      return new Refusal(
        'wrong-use',
        say`${found.name} is a material for ${plain(found.use.join(', '))}, not for the ${plain(role)}.`,
        { example: lineOf(fit[0]?.id ?? '…') },
      );
    materials[role] = found;
  }
  return materials;
}

/** A hole that is as wide has room for the usual flange, in either system. */
const ROOM_FOR_FLANGE_MILLIMETRES = 40;

function waysOn(desk: Desk, { body }: Sized, { layers }: Coverage, recipe: Recipe, options: Typed): Way[] {
  const needed = rolesOf(recipe).filter((role) => role === 'skin' || role === 'shell');
  const ready = needed.length > 0 && needed.every((role) => options[role] !== undefined);
  const first = layers.find(({ role }) => role !== 'shell');
  const block = layers.some(({ how }) => how === 'block');
  const bare = !block && options['flange'] === undefined && body.outlineMillimetres !== null && body.outlineMillimetres > 0;
  const room = (body.holeRadiusMillimetres ?? Number.POSITIVE_INFINITY) >= ROOM_FOR_FLANGE_MILLIMETRES;
  const flange = desk.studio.units === 'customary' ? '1.5 in' : USUAL_FLANGE;
  return [
    ...(ready
      ? [{ label: 'Start job', command: 'job start', options: { ...givenOf(options), recipe: recipe.id }, asks: true }]
      : []),
    ...(first
      ? [
          {
            label: first.how === 'brushed' ? 'Mix first coat' : 'Mix first cup',
            command: 'mix',
            options: { material: first.material.id, amount: scaleText(first.firstCup.askGrams, desk.studio.scale.stepGrams) },
          },
        ]
      : []),
    ...(bare && room ? [{ label: `Add ${flange} flange`, command: 'area', options: givenOf({ ...options, flange }) }] : []),
  ];
}
