import { openJobs } from '../src/bench/fold.ts';
import { coverText } from '../src/cards/area-card.ts';
import { dueLine } from '../src/cards/board-card.ts';
import { byUrgency } from '../src/cards/brief-card.ts';
import { concernData, concernLines } from '../src/cards/compatibility.ts';
import { jobCard, noteWay, progress, waysOn } from '../src/cards/job-card.ts';
import { jobData } from '../src/cards/words.ts';
import { card } from '../src/chat/card.ts';
import { someone, text, typed } from '../src/chat/options.ts';
import { changeJob } from '../src/desk/change.ts';
import { concernsOfJob } from '../src/desk/contacts.ts';
import { coverFor, coverOptions, coverTyped } from '../src/desk/covering.ts';
import { group, part } from '../src/desk/desk.ts';
import { inLine, kept, line, startLine, type Typed } from '../src/desk/examples.ts';
import { job as jobNamed, materialFor, pick } from '../src/desk/resolve.ts';
import { bodyOf, sizeOptions, sizeTyped } from '../src/desk/sizing.ts';
import * as decide from '../src/job/decide.ts';
import { plannedSteps, rolesOf } from '../src/job/planned.ts';
import type { Material, Use } from '../src/trade/material.ts';
import { parseLength } from '../src/trade/measures/quantity.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { clock, joined, person, plain, say } from '../src/words/text.ts';

const whichOf = (complete: string) => text({ about: 'Which job; may be left out where there is only one', complete }).optional();
const which = whichOf('job');
const why = (about: string) => text({ about, free: true }).optional();

/** A short id that can be typed with gloves on: the name in small letters, numbered where it is taken. */
function idFor(name: string, taken: ReadonlyMap<string, unknown>): string {
  const slug =
    name
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 24)
      .replace(/-+$/, '') || 'job';
  for (let number = 1; ; number += 1) {
    const id = number === 1 ? slug : `${slug}-${number}`;
    if (!taken.has(id)) return id;
  }
}

/** What a job needs beside its size: for examples. */
const EXAMPLE = { name: 'Lion head', skin: 'brush-urethane', shell: 'shell-paste' };

const start = part({
  summary: 'Start a job: one mould, from bare model to first casting',
  options: {
    name: text({ about: 'What the mould is of', free: true }),
    recipe: text({ about: 'The steps that it follows; left out, the first recipe', complete: 'recipe' }).optional(),
    detail: text({ about: 'The material of the thin detail coats', complete: 'material' }).optional(),
    skin: text({ about: 'The material of the skin', complete: 'material' }).optional(),
    shell: text({ about: 'The material of the shell', complete: 'material' }).optional(),
    ...sizeOptions('job start', EXAMPLE),
    ...coverOptions('job start', { ...EXAMPLE, area: '0.4 m2' }),
    thickness: typed(kept(inLine(parseLength, (thick) => line('job start', { ...EXAMPLE, thickness: thick }))), {
      about: 'How thick the whole skin is to be: 3 mm',
    }).optional(),
    casting: text({ about: 'The material of the first casting', complete: 'material' }).optional(),
    surface: text({
      about: 'What the model is of: wax, plaster, sulphur clay, 3D print, wood with shellac',
      free: true,
    }).optional(),
    holder: someone({ about: 'Who answers for it; left out, you', complete: 'person' }).optional(),
  },
  examples: [
    'name:Lion head recipe:skin-paste skin:brush-urethane shell:shell-paste area:0.4 m2',
    'name:Lion head skin:brush-urethane shell:shell-paste shape:half sphere 30 cm flange:40 mm',
  ],
  form: () => ({ title: 'A new job', fields: [{ option: 'name', label: 'What is the mould of?', example: 'Lion head' }] }),
  run: async (input, desk) => {
    const recipe =
      input.recipe === undefined ? desk.recipes[0] : pick('recipe', input.recipe, desk.recipes, (id) => `recipe:${id}`);
    if (recipe === undefined)
      return new Refusal('unknown-recipe', say`There is no recipe yet.`, { example: 'recipe:skin-paste' });
    if (isRefusal(recipe)) return recipe;
    if (input.name.trim() === '') return new Refusal('name-missing', say`A job needs a name.`, { example: startLine(desk) });
    const roles: Partial<Record<Use, Material>> = {};
    for (const role of rolesOf(recipe)) {
      // A detail coat may be of the skin's own material; the casting is often chosen only when the mould is open.
      const optional = role === 'detail' || role === 'casting';
      if (optional && input[role] === undefined) continue;
      const material = materialFor(desk, role, input[role]);
      if (isRefusal(material)) return material;
      roles[role] = material;
    }
    const { name, recipe: recipeId, detail, skin, shell, casting, surface, holder } = input;
    const others = { name, recipe: recipeId, detail, skin, shell, casting, surface, holder };
    const options: Typed = { ...others, thickness: input.thickness?.typed, ...coverTyped(input) };
    const sized = await bodyOf(desk, input, { command: 'job start', options });
    if (isRefusal(sized)) return sized;
    const cover = sized && coverFor(sized, input, (more) => line('job start', { ...options, ...sizeTyped(input), ...more }));
    if (isRefusal(cover)) return cover;
    const steps = plannedSteps(recipe, roles, {
      areaSquareMetres: cover?.areaSquareMetres ?? null,
      skinMillimetres: input.thickness?.value ?? null,
      wastePercent: desk.studio.wastePercent,
    });
    if (isRefusal(steps)) return steps;
    const decided = await desk.bench.decide((state) => [
      {
        version: 1 as const,
        type: 'JobStarted' as const,
        at: desk.now,
        enteredAt: desk.now,
        by: desk.who,
        job: idFor(input.name, state.jobs),
        name: input.name.trim(),
        recipe: { id: recipe.id, name: recipe.name },
        steps,
        areaSquareMetres: cover?.areaSquareMetres ?? null,
        volumeLitres: sized?.body.volumeLitres ?? null,
        surface: input.surface?.trim() || null,
        holder: input.holder ?? desk.who,
      },
    ]);
    if (isRefusal(decided)) return decided;
    const event = decided.events[0];
    const job = event?.type === 'JobStarted' ? decided.state.jobs.get(event.job) : undefined;
    if (!job) throw new Error('a job that was started is not on the bench');
    const concerns = concernsOfJob({ surface: job.surface, steps }, desk);
    const mixes = steps.filter((step) => step.grams !== null).length;
    const started = jobCard({ job, state: decided.state, studio: desk.studio, now: desk.now }, say`${job.name} has started`, {
      to: job.holder === desk.who ? [] : [job.holder],
      lines: [
        say`${recipe.name}: ${steps.length} steps${mixes > 0 ? say`, ${mixes} of them with a mix` : say``}. Id: ${job.id}.`,
        ...(['Etc/UTC', 'UTC'].includes(desk.studio.zone)
          ? [say`Times that are typed count as UTC here. If your clock shows another: /shift set zone:Europe/Berlin.`]
          : []),
        ...(sized && cover
          ? [say`${coverText(cover, sized, desk.studio)}.`, ...sized.warnings]
          : [say`Give an area to be told how much to mix: area:0.4 m2.`]),
        ...concernLines(concerns, desk.studio),
      ],
    });
    return { ...started, data: { ...started.data, concerns: concernData(concerns) } };
  },
});

export default group({
  name: 'job',
  summary: 'The moulds being built on this bench',
  commands: {
    start,
    list: part({
      summary: 'All open jobs, the most urgent first',
      options: {},
      examples: [],
      run: async (_, desk) => {
        const state = await desk.bench.state();
        const view = { state, studio: desk.studio, now: desk.now };
        const ended = [...state.jobs.values()].filter((job) => !openJobs(state).includes(job));
        const jobs = byUrgency(view);
        return card(
          say`${plain(jobs.length === 0 ? 'No open job' : jobs.length === 1 ? '1 open job' : `${jobs.length} open jobs`)} on this bench`,
          [
            ...jobs.map((job) => say`${dueLine(job.id, view)} (${job.id})`),
            ...(ended.length > 0
              ? [
                  say`Ended: ${joined(
                    ended.slice(-5).map((job) => say`${job.name} (${plain(job.status)})`),
                    ', ',
                  )}.`,
                ]
              : []),
          ],
          { data: { jobs: [...jobs, ...ended].map(jobData) }, aside: true },
        );
      },
    }),
    show: part({
      summary: 'Where a job stands, step by step',
      options: { job: whichOf('any-job') },
      examples: ['job:lion-head'],
      run: async (input, desk) => {
        const state = await desk.bench.state();
        const job = jobNamed(state, input.job);
        if (isRefusal(job)) return job;
        const remarks = [...job.deviations, ...job.notes].sort((a, b) => a.at - b.at);
        return jobCard({ job, state, studio: desk.studio, now: desk.now }, say`${job.name}: ${progress(job)}`, {
          lines: [
            ...job.steps.map(({ plan, done }) =>
              done ? say`✓ ${plan.title}, ${clock(done.at)}, ${person(done.by)}` : say`· ${plan.title}`,
            ),
            ...(job.surface === null ? [] : [say`The model: ${job.surface}.`]),
            ...remarks.map((remark) => say`Note of ${clock(remark.at)}, ${person(remark.by)}: ${remark.text}`),
          ],
          buttons: [...waysOn({ job, state, studio: desk.studio, now: desk.now }).slice(0, 2), noteWay(job.id)],
          aside: true,
        });
      },
    }),
    note: part({
      summary: 'Write something down for whoever comes next',
      options: { text: text({ about: 'What to remember', free: true }), job: which },
      examples: ['text:undercut behind the left ear runs thin job:lion-head'],
      form: () => ({
        title: 'A note',
        fields: [{ option: 'text', label: 'What must the next one know?', example: 'left ear runs thin', long: true }],
      }),
      run: (input, desk) =>
        changeJob(
          desk,
          input.job,
          undefined,
          (job, told) => decide.addNote(job, input.text, told),
          (job) => say`Noted on ${job.name}`,
        ),
    }),
    hold: part({
      summary: 'Put a job on hold: its pings stop, its material goes on curing',
      options: { job: whichOf('active-job'), text: why('Why') },
      examples: ['job:lion-head text:waiting for material'],
      run: (input, desk) =>
        changeJob(
          desk,
          input.job,
          undefined,
          (job, told) => decide.hold(job, input.text ?? null, told),
          (job) => say`${job.name} is on hold`,
          { told: true },
        ),
    }),
    resume: part({
      summary: 'Take a job up again',
      options: { job: whichOf('held-job') },
      examples: ['job:lion-head'],
      run: (input, desk) =>
        changeJob(desk, input.job, undefined, decide.resume, (job) => say`${job.name} goes on`, { told: true }),
    }),
    close: part({
      summary: 'Close a job: finished, or given up',
      options: { job: which, text: why('How it ended') },
      examples: ['job:lion-head text:mould on shelf 3'],
      run: (input, desk) =>
        changeJob(
          desk,
          input.job,
          undefined,
          (job, told) => decide.close(job, input.text ?? null, told),
          (job) => say`${job.name} is closed`,
          { told: true },
        ),
    }),
  },
});
