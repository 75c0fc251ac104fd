import { isOpen, type JobState } from '../job/state.ts';
import { Refusal } from '../words/refusal.ts';
import { joined, people, say, type Text } from '../words/text.ts';
import { type Decision, type Said, stampOf } from './decide.ts';
import { type BenchState, type NumberedEvent, type Offer, openJobs } from './fold.ts';

/** Offers the jobs to others; they stay with their holders until somebody takes them. */
export function giveOver(jobs: readonly JobState[], to: readonly string[], note: string | null, said: Said): Decision {
  const open = jobs.filter(isOpen);
  if (open.length === 0)
    return new Refusal('nothing-to-hand-over', say`There is no open job here to hand over.`, {
      example: '/job list',
    });
  const others = to.filter((who) => open.some((job) => job.holder !== who));
  if (others.length === 0)
    return new Refusal(
      'nobody-to-take',
      to.length > 0
        ? say`A handover needs somebody else to take it; ${people(to)} has it already.`
        : say`Nobody else is on duty: name whom you hand over to.`,
      { example: '/handover give to:kim' },
    );
  return [{ ...stampOf(said), type: 'HandoverOffered', to: others, jobs: open.map((job) => job.id), note }];
}

/** What a button of a card meant when it was shown: one offer, or a job as long as it was with that person. */
export interface Meant {
  readonly offer: { readonly seq: number; readonly at: number } | null;
  readonly from: string | null;
  /** Every open job, offered or not. */
  readonly all?: boolean;
}

/**
 * Takes the job that is named; or else what was offered to this person, or to others; or else the only open job. Where
 * somebody was faster than a button that is pressed, they keep it.
 */
export function takeOver(
  state: BenchState,
  log: readonly NumberedEvent[],
  { job, offer, from, all = false }: Meant & { readonly job: JobState | null },
  said: Said,
): Decision {
  if (offer) {
    const open = state.offers.find(({ seq, at }) => seq === offer.seq && at === offer.at);
    if (!open) return offerGone(state, log, offer, said);
    const jobs = open.jobs.flatMap((id) => state.jobs.get(id) ?? []);
    return jobs.every(({ holder }) => holder === said.by) ? ownOffer(jobs, open) : takeJobs(jobs, said);
  }
  if (job && from !== null && job.holder !== from && job.holder !== said.by) return alreadyTaken([job], said);
  const toMe = state.offers.filter((offer) => offer.to.includes(said.by));
  const offered = (toMe.length > 0 ? toMe : state.offers).flatMap((offer) =>
    offer.jobs.flatMap((id) => state.jobs.get(id) ?? []),
  );
  const wanted = job ? [job] : offered.length > 0 && !all ? offered : openJobs(state);
  const taken = wanted.filter((each) => isOpen(each) && each.holder !== said.by);
  if (wanted.length === 0)
    return new Refusal('nothing-to-take', say`There is no open job here to take over.`, { example: '/job list' });
  if (job === null && !all && offered.length === 0 && taken.length > 1)
    return new Refusal('which-job', say`Nothing was offered. Which do you take over: ${names(taken, ' or ')}?`, {
      example: `/handover take job:${taken[0]?.id}`,
      ways: [
        { label: `Take all ${taken.length}`, command: 'handover take', options: { job: 'all' } },
        ...taken.slice(0, 2).map(({ id, name }) => ({
          label: `Take ${name}`.slice(0, 80),
          command: 'handover take',
          options: { job: id },
        })),
      ],
    });
  return takeJobs(wanted, said);
}

const names = (jobs: readonly JobState[], last: string): Text =>
  joined(
    jobs.map((each) => say`${each.name}`),
    ', ',
    last,
  );

function takeJobs(wanted: readonly JobState[], said: Said): Decision {
  const taken = wanted.filter((each) => isOpen(each) && each.holder !== said.by);
  if (taken.length === 0)
    return new Refusal('already-yours', say`${names(wanted, ' and ')}: you have that already.`, { example: '/handover brief' });
  return [{ ...stampOf(said), type: 'HandoverTaken', jobs: taken.map((each) => each.id) }];
}

/** Whoever offers sees the same button as those whom it is for. */
const ownOffer = (jobs: readonly JobState[], { to }: Offer): Refusal =>
  new Refusal(
    'own-offer',
    say`This button is for ${people(to)}; ${names(jobs, ' and ')}: yours until one of them presses it. To keep it, take the handover back with /undo.`,
    { example: '/handover brief', ways: [{ label: 'Brief', command: 'handover brief', options: {} }] },
  );

function alreadyTaken(jobs: readonly JobState[], said: Said): Refusal {
  const theirs = jobs.filter((each) => each.holder !== said.by);
  return new Refusal(
    'already-taken',
    say`${names(theirs, ' and ')}: ${people([...new Set(theirs.map((each) => each.holder))])} took that over already. Nothing was changed.`,
    {
      example: '/board',
      ways: theirs.slice(0, 3).map((each) => ({
        label: `Take ${each.name} from them`.slice(0, 80),
        command: 'handover take',
        options: { job: each.id, from: each.holder },
      })),
    },
  );
}

/** The offer that a button means is over: somebody took it, or it was taken back, or its jobs have ended. */
function offerGone(state: BenchState, log: readonly NumberedEvent[], offer: { seq: number; at: number }, said: Said): Refusal {
  const made = log[offer.seq - 1];
  const jobs =
    made?.type === 'HandoverOffered' && made.enteredAt === offer.at
      ? made.jobs.flatMap((id) => state.jobs.get(id) ?? []).filter(isOpen)
      : [];
  const took = log.some(
    (event) =>
      event.type === 'HandoverTaken' && event.seq > offer.seq && event.jobs.some((id) => jobs.some((job) => job.id === id)),
  );
  if (took && jobs.every((job) => job.holder === said.by))
    return new Refusal('already-yours', say`${names(jobs, ' and ')}: you have that already.`, { example: '/handover brief' });
  if (took) return alreadyTaken(jobs, said);
  return new Refusal('offer-gone', say`This handover is not open any more. Nothing was changed.`, { example: '/board' });
}
