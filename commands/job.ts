import { openJobs } from '../src/bench/fold.ts';
import { dueLine } from '../src/cards/board-card.ts';
import { byUrgency } from '../src/cards/brief-card.ts';
import { jobCard, noteWay, progress, waysOn } from '../src/cards/job-card.ts';
import { jobData, recipeText } from '../src/cards/words.ts';
import { card } from '../src/chat/card.ts';
import { someone, text } from '../src/chat/options.ts';
import { changeJob } from '../src/desk/change.ts';
import { group, part } from '../src/desk/desk.ts';
import { makingOptions } from '../src/desk/making-options.ts';
import { planOptions } from '../src/desk/plan-options.ts';
import { planJob } from '../src/desk/planning-kept.ts';
import { job as jobNamed } from '../src/desk/resolve.ts';
import { startJob } from '../src/desk/starting.ts';
import * as decide from '../src/job/decide.ts';
import { isRefusal } from '../src/words/refusal.ts';
import { clock, joined, person, plain, say } from '../src/words/text.ts';

const whichOf = (complete: string) => text({ about: 'Which job; may be left out where there is only one', complete }).optional();
const which = whichOf('job');
const why = (about: string) => text({ about, free: true }).optional();

/** What a job needs beside its size: for examples. */
const EXAMPLE = { name: 'Lion head', skin: 'brush-urethane', shell: 'shell-paste' };

const { extra, room } = planOptions('job plan', { 'ready-by': 'fri 16:00' });

const start = part({
  summary: 'Start a job: one mould, from bare model to first casting',
  options: {
    name: text({ about: 'What the mould is of', free: true }),
    ...makingOptions('job start', EXAMPLE),
    ...planOptions('job start', EXAMPLE),
    holder: someone({ about: 'Who answers for it; left out, you', complete: 'person' }).optional(),
  },
  examples: [
    'name:Lion head recipe:skin-paste skin:brush-urethane shell:shell-paste area:0.4 m2',
    'name:Lion head skin:brush-urethane shell:shell-paste shape:half sphere 30 cm flange:40 mm',
  ],
  form: () => ({ title: 'A new job', fields: [{ option: 'name', label: 'What is the mould of?', example: 'Lion head' }] }),
  run: (input, desk) => startJob(desk, input),
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
            ...(job.recipe.version === null || job.recipe.version === 1 ? [] : [say`By the recipe ${recipeText(job)}.`]),
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
    plan: part({
      summary: 'Say when a job is to begin, and when it is to be ready',
      options: {
        job: which,
        start: text({ about: 'When its first step begins, unless it has: tomorrow 7:00', free: true }).optional(),
        'ready-by': text({ about: 'When it is to be ready: fri 16:00; none for no promise', free: true }).optional(),
        extra,
        room,
      },
      examples: ['job:lion-head ready-by:fri 16:00'],
      run: (input, desk) => planJob(desk, input),
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
