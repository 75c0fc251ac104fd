import type { BenchState, NumberedEvent } from '../bench/fold.ts';
import { joined, plain, say, type Text } from '../words/text.ts';

const NAMES: Partial<Record<NumberedEvent['type'], string>> = {
  JobStarted: 'the start',
  StepDone: 'the step',
  TackChecked: 'the tack check of',
  MissedWindowDecided: 'the decision on the missed window for',
  NoteAdded: 'the note',
  JobHeld: 'the hold',
  JobResumed: 'the end of the hold',
  JobClosed: 'the closing',
  CupStarted: 'the start of',
  CupEnded: 'the end of',
  HandoverOffered: 'the handover',
  HandoverTaken: 'the taking over',
  JobPlanned: 'when it is planned',
  HandsAsked: 'the hands asked for',
  TemperatureRead: 'the temperature',
  TemperatureExpected: 'the expected temperatures',
};

/** What somebody logged, by the names that people use: "Lion head, the step First coat". */
export function entryName(event: NumberedEvent, state: BenchState): Text {
  const what = plain(NAMES[event.type] ?? event.type);
  const ids = 'jobs' in event ? event.jobs : 'job' in event && event.job !== null ? [event.job] : [];
  const jobs = ids.map((id) => say`${state.jobs.get(id)?.name ?? id}`);
  const of = jobs.length === 0 ? say`` : say`${joined(jobs, ', ', ' and ')}, `;
  if ('cup' in event) return say`${of}${what} ${event.cup}`;
  if (!('step' in event) || !event.step || !('job' in event)) return say`${of}${what}`;
  const step = state.jobs.get(event.job ?? '')?.steps.find(({ plan }) => plan.id === event.step);
  return say`${of}${what} ${step?.plan.title ?? event.step}`;
}
