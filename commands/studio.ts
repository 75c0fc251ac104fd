import type { Studio } from '../src/bench/studio.ts';
import { type Card, card } from '../src/chat/card.ts';
import { choice, text, typed, yesNo } from '../src/chat/options.ts';
import { type Desk, group, part } from '../src/desk/desk.ts';
import { inLine, inMinutes, line } from '../src/desk/examples.ts';
import { aboutText, cupText, massText, minutesText, percentText, scaleText } from '../src/trade/measures/format.ts';
import { volumeText } from '../src/trade/measures/format-sizes.ts';
import { parseDuration, parsePercent, parseQuantity } from '../src/trade/measures/quantity.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { plain, say, type Text } from '../src/words/text.ts';

/** Reads an amount of one kind; `what` says for what. */
const amountOf =
  (kind: 'mass' | 'volume', what: string) =>
  (typedText: string): number | Refusal => {
    const quantity = parseQuantity(typedText);
    if (isRefusal(quantity)) return quantity;
    if (quantity.kind === kind) return quantity.kind === 'mass' ? quantity.grams : quantity.millilitres;
    return new Refusal('wrong-unit', say`Expected ${plain(what)}, got “${typedText}”.`);
  };
const scaleMost = (typedText: string) =>
  ['any', 'none', 'off'].includes(typedText.trim().toLowerCase())
    ? ('any' as const)
    : amountOf('mass', 'what the scale can carry')(typedText);
/** An option of /studio set; its refusals show it with a value that would do. */
const setting = <T>(name: string, example: string, parse: (typedText: string) => T | Refusal) =>
  inLine(parse, () => line('studio set', { [name]: example }));

function studioCard(title: Text, studio: Studio, materials: number, aside = false): Card {
  const { scale, units, measureStepMillilitres } = studio;
  const step = plain(massText(scale.stepGrams, units, scale.stepGrams));
  const most = scale.mostGrams === null ? say`no limit` : say`up to ${plain(aboutText(scale.mostGrams, units, scale.stepGrams))}`;
  return card(
    title,
    [
      say`Scale: steps of ${step}, ${most}. Measuring cups: steps of ${plain(cupText(measureStepMillilitres, units, measureStepMillilitres))}.`,
      say`Units: ${plain(studio.units)}. Waste in cup and brush: ${plain(percentText(studio.wastePercent))}. A snooze lasts ${plain(minutesText(studio.snoozeMinutes))}.`,
      say`${plain(studio.materialsText === null ? 'The program’s list of materials' : 'Its own list of materials')}, ${materials} in all.`,
      say`Zone ${plain(studio.zone)}; shifts and duty: /shift show.`,
    ],
    {
      aside,
      data: {
        studio: {
          name: studio.name,
          zone: studio.zone,
          units: studio.units,
          scaleStepGrams: scale.stepGrams,
          scaleMostGrams: scale.mostGrams,
          measureStepMillilitres: studio.measureStepMillilitres,
          snoozeMinutes: studio.snoozeMinutes,
          wastePercent: studio.wastePercent,
          ownMaterials: studio.materialsText !== null,
        },
      },
    },
  );
}

async function counts({ house }: Desk) {
  const states = await Promise.all((await house.channels()).map((channel) => house.bench(channel).state()));
  return { channels: states.length, jobs: states.reduce((sum, { jobs }) => sum + jobs.size, 0) };
}

const forgetWay = { label: 'Forget everything', command: 'studio forget', options: { confirm: 'yes' } };

export default group({
  name: 'studio',
  summary: 'What holds for this whole studio, on all its benches',
  commands: {
    show: part({
      summary: 'Scale, units, waste, snooze, and which list of materials',
      options: {},
      examples: [],
      run: async (_, desk) => studioCard(say`${desk.studio.name}`, desk.studio, desk.materials.length, true),
    }),
    set: part({
      summary: 'Set what is given; what is left out stays as it is',
      manage: true,
      options: {
        name: text({ about: 'What the studio is called', free: true }).optional(),
        units: choice(['metric', 'customary'], { about: 'What cards show first' }).optional(),
        scale: typed(setting('scale', '0.1 g', amountOf('mass', 'the smallest step that the scale shows')), {
          about: 'The smallest step that the scale shows: 0.1 g',
        }).optional(),
        carries: typed(setting('carries', '5 kg', scaleMost), { about: 'What the scale can carry: 5 kg, or any' }).optional(),
        cups: typed(setting('cups', '5 mL', amountOf('volume', 'the smallest step of the measuring cups')), {
          about: 'The smallest step of the measuring cups: 5 mL',
        }).optional(),
        snooze: typed(
          inLine(parseDuration, (_, typedText) => line('studio set', { snooze: inMinutes(typedText, '10 min') })),
          { about: 'How long a snooze lasts: 10 min' },
        ).optional(),
        waste: typed(setting('waste', '10 %', parsePercent), { about: 'What stays in cup and brush: 10 %' }).optional(),
      },
      examples: ['scale:0.1 g carries:2 kg', 'name:Stillwater Moulds units:metric waste:8 % snooze:5 min'],
      run: async ({ name, units, scale, carries, cups, snooze, waste }, desk) => {
        const given = [name, units, scale, carries, cups, snooze, waste];
        if (given.every((each) => each === undefined))
          return new Refusal('nothing-to-set', say`Say what to set: name, units, scale, carries, cups, snooze or waste.`, {
            example: '/studio set scale:0.1 g',
          });
        const wrong = faultOf({ name, units, scale, carries, cups, snooze, waste }, desk.studio);
        if (wrong) return wrong;
        const studio = await desk.house.changeStudio(() => [
          {
            version: 1,
            type: 'StudioSet',
            at: desk.now,
            by: desk.who,
            name: name?.trim() ?? null,
            units: units ?? null,
            scaleStepGrams: scale ?? null,
            scaleMostGrams: carries ?? null,
            measureStepMillilitres: cups ?? null,
            snoozeMinutes: snooze ?? null,
            wastePercent: waste ?? null,
          },
        ]);
        return isRefusal(studio) ? studio : studioCard(say`${studio.name}: set`, studio, desk.materials.length);
      },
    }),
    forget: part({
      summary: 'Delete everything that is kept of this studio, on all its benches, for good',
      manage: true,
      options: { confirm: yesNo({ about: 'yes deletes at once; left out, you are asked first' }).optional() },
      examples: ['confirm:no'],
      run: async ({ confirm }, desk) => {
        const { channels, jobs } = await counts(desk);
        const what = say`${plain(`${jobs} ${jobs === 1 ? 'job' : 'jobs'} on ${channels} ${channels === 1 ? 'bench' : 'benches'}`)}, with their records, shifts, people, temperatures and materials`;
        const data = { forget: { jobs, channels, done: confirm === true } };
        if (confirm === true) {
          await desk.house.forget();
          return card(say`Everything is forgotten`, [say`It was ${what}. Nothing rings any more.`], { data });
        }
        if (confirm === false) return card(say`Nothing was forgotten`, [say`There still is ${what}.`], { data, aside: true });
        return card(
          say`Forget this studio? There is no way back`,
          [say`It would delete ${what}. Clocks that run would ring no more.`],
          { data, aside: true, buttons: [forgetWay] },
        );
      },
    }),
  },
});

interface Wished {
  units?: Studio['units'] | undefined;
  name?: string | undefined;
  scale?: number | undefined;
  carries?: number | 'any' | undefined;
  cups?: number | undefined;
  snooze?: number | undefined;
  waste?: number | undefined;
}

function faultOf({ name, units, scale, carries, cups, snooze, waste }: Wished, studio: Studio): Refusal | null {
  const no = (message: Text, example: string) => new Refusal('bad-setting', message, { example });
  if (name !== undefined && (name.trim() === '' || name.length > 80))
    return no(say`Expected a name of 1 to 80 characters, got ${name.length}.`, '/studio set name:Stillwater Moulds');
  const step = scale ?? studio.scale.stepGrams;
  const shown = (grams: number) => plain(aboutText(grams, units ?? studio.units, step));
  if (scale !== undefined && !(scale >= 0.001 && scale <= 1000))
    return no(say`Expected a step from 1 mg to 1 kg, got ${shown(scale)}.`, '/studio set scale:0.1 g');
  const most = carries ?? studio.scale.mostGrams ?? 'any';
  if (most !== 'any' && most <= step)
    return no(
      say`Expected the scale to carry more than one step of ${shown(step)}, got ${shown(most)}.`,
      `/studio set carries:${scaleText(step * 1000, step)}`,
    );
  if (cups !== undefined && !(cups > 0 && cups <= 5000))
    return no(
      say`Expected a step of the measuring cups up to 5 L, got ${plain(volumeText(cups, units ?? studio.units))}.`,
      '/studio set cups:5 mL',
    );
  if (snooze !== undefined && !(snooze >= 1 && snooze <= 24 * 60))
    return no(say`Expected a snooze from 1 min to 24 h, got ${snooze} min.`, '/studio set snooze:10 min');
  if (waste !== undefined && !(waste >= 0 && waste <= 100))
    return no(say`Expected a waste from 0 to 100 %, got ${waste} %.`, '/studio set waste:10 %');
  return null;
}
