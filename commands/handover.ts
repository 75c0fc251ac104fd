import { openJobs } from '../src/bench/fold.ts';
import { giveOver, takeOver } from '../src/bench/handover.ts';
import { onDuty } from '../src/bench/studio.ts';
import { type BenchView, briefData, briefLines } from '../src/cards/brief-card.ts';
import { waysOn } from '../src/cards/job-card.ts';
import { offerIn, takeWay } from '../src/cards/take-way.ts';
import { jobData } from '../src/cards/words.ts';
import { card } from '../src/chat/card.ts';
import { text, typed } from '../src/chat/options.ts';
import { type Desk, group, part } from '../src/desk/desk.ts';
import { again, inLine, kept, line } from '../src/desk/examples.ts';
import { job as jobNamed } from '../src/desk/resolve.ts';
import type { JobState } from '../src/job/state.ts';
import { comingShifts } from '../src/trade/time/calendar.ts';
import { parsePeople } from '../src/trade/time/calendar-text.ts';
import { isRefusal } from '../src/words/refusal.ts';
import { joined, people, person, say } from '../src/words/text.ts';

const which = text({ about: 'Only this job; left out, all that you have', complete: 'job' }).optional();
const briefWay = { label: 'Brief', command: 'handover brief', options: {} };

const viewOf = (state: BenchView['state'], desk: Desk): BenchView => ({ state, studio: desk.studio, now: desk.now });

/** Who else is on duty now, or else in the shift that comes next. */
function reliefOf({ studio, now, who }: Desk): string[] {
  const next = comingShifts(studio.shifts, studio.zone, now).find((shift) => shift.from > now);
  const others = (at: number) => onDuty(studio, at).filter((each) => each !== who);
  const here = others(now);
  return here.length > 0 || !next ? here : others(next.from);
}

/** Somebody who has none of the jobs: on duty, if there is anybody. */
const otherThan = (jobs: readonly JobState[], { studio, now, who }: Desk): string | undefined =>
  [...onDuty(studio, now).filter((each) => each !== who), 'kim', 'dana', 'lee'].find(
    (each) => !each.startsWith('&') && jobs.every(({ holder }) => holder !== each),
  );

export default group({
  name: 'handover',
  summary: 'Pass the jobs of this bench to somebody else, with a brief',
  commands: {
    give: part({
      summary: 'Offer your jobs to whoever relieves you',
      options: {
        to: typed(kept(inLine(parsePeople, (to) => line('handover give', { to }))), {
          about: 'To whom: kim, or several; left out, everybody on duty',
          complete: 'person',
        }).optional(),
        note: text({ about: 'What they must know', free: true }).optional(),
        job: which,
      },
      examples: ['to:kim note:left ear runs thin'],
      run: async (input, desk) => {
        const decided = await desk.bench.decide((state) => {
          const job = input.job === undefined ? null : jobNamed(state, input.job);
          if (isRefusal(job)) return job;
          const to = input.to?.value ?? reliefOf(desk);
          const mine = openJobs(state).filter((each) => each.holder === desk.who);
          const given = job ? [job] : mine.length > 0 ? mine : openJobs(state);
          const offered = giveOver(given, to, input.note ?? null, { by: desk.who, at: desk.now, now: desk.now });
          if (!isRefusal(offered) || offered.code !== 'nobody-to-take') return offered;
          const other = otherThan(given, desk);
          return again(offered, { example: line('handover give', { to: other, note: input.note, job: input.job }) });
        });
        if (isRefusal(decided)) return decided;
        const offer = decided.state.offers.at(-1);
        if (!offer) throw new Error('a handover that was offered is not on the bench');
        const view = viewOf(decided.state, desk);
        return card(
          say`Handover to ${people(offer.to)}: waiting to be taken`,
          [
            say`${people(offer.to)}: press Take over. Until then, pings go to both sides.`,
            ...(offer.note === null ? [] : [say`Note: ${offer.note}`]),
            ...briefLines(view, offer.jobs),
          ],
          {
            data: {
              handover: { from: offer.from, to: offer.to, jobs: offer.jobs, note: offer.note, state: 'offered' },
              brief: briefData(view, offer.jobs),
            },
            to: offer.to,
            buttons: [takeWay(offer), briefWay],
            tone: 'soon',
          },
        );
      },
    }),
    take: part({
      summary: 'Take over what was offered, or the job that you name',
      options: {
        job: text({ about: 'Only this job, or all; left out, what was offered', complete: 'job' }).optional(),
        offer: text({ about: 'Which handover, as its button says' }).optional(),
        from: text({ about: 'Only if this person still has it, as a button says', complete: 'person' }).optional(),
      },
      examples: ['job:lion-head'],
      run: async (input, desk) => {
        const decided = await desk.bench.decide((state, log) => {
          const found = input.job === undefined ? null : jobNamed(state, input.job);
          // A job may be called that, too.
          const all = isRefusal(found) && /^(?:all|everything)$/i.test(input.job?.trim() ?? '');
          const job = all ? null : found;
          if (isRefusal(job)) return job;
          const meant = { job, offer: offerIn(input.offer), from: input.from ?? null, all };
          return takeOver(state, log, meant, { by: desk.who, at: desk.now, now: desk.now });
        });
        if (isRefusal(decided)) return decided;
        const event = decided.events[0];
        const ids = event?.type === 'HandoverTaken' ? event.jobs : [];
        const jobs = ids.flatMap((id) => decided.state.jobs.get(id) ?? []);
        const from = [...new Set(ids.flatMap((id) => decided.before.jobs.get(id)?.holder ?? []))];
        const offers = decided.before.offers.filter((offer) => offer.jobs.some((id) => ids.includes(id)));
        const note = offers[0]?.note ?? null;
        const concerned = [...from, ...offers.flatMap((offer) => [...offer.from, ...offer.to])];
        const view = viewOf(decided.state, desk);
        return card(
          say`${person(desk.who)} has ${joined(
            jobs.map((job) => say`${job.name}`),
            ', ',
            ' and ',
          )} now`,
          [say`Taken over from ${people(from)}.`, ...briefLines(view, ids)],
          {
            data: {
              handover: { from, to: [desk.who], jobs: ids, note, state: 'taken' },
              brief: briefData(view, ids),
              jobs: jobs.map(jobData),
            },
            to: [...new Set(concerned)].filter((who) => who !== desk.who),
            // An undo would take back a step of somebody else's, and not the taking over.
            buttons: jobs[0] ? waysOn({ job: jobs[0], ...view }).filter(({ command }) => command !== 'undo') : [],
          },
        );
      },
    }),
    brief: part({
      summary: 'Where everything on this bench stands, for whoever takes over',
      options: { job: which },
      examples: ['job:lion-head'],
      run: async (input, desk) => {
        const state = await desk.bench.state();
        const job = input.job === undefined ? null : jobNamed(state, input.job);
        if (isRefusal(job)) return job;
        const view = viewOf(state, desk);
        const only = job ? [job.id] : undefined;
        return card(say`Brief`, briefLines(view, only), {
          data: { brief: briefData(view, only) },
          aside: true,
          buttons: state.offers.slice(0, 1).map(takeWay),
        });
      },
    }),
  },
});
