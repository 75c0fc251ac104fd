import { conditionsOf } from '../bench/conditions.ts';
import { laidFor } from '../bench/fold.ts';
import { leftBehind, type Ping } from '../bench/pings.ts';
import { planNow } from '../bench/planning/standing.ts';
import { type Card, card } from '../chat/card.ts';
import { OPENINGS } from '../job/pings.ts';
import { begunInTime, missedWays } from '../job/refusals.ts';
import { type JobState, nextIndex } from '../job/state.ts';
import { atWork, needsTouch, nextWindow, timesOf } from '../job/window.ts';
import { comingShifts } from '../trade/time/calendar.ts';
import type { Way } from '../words/refusal.ts';
import { away, clock, people, person, say, strong } from '../words/text.ts';
import { briefLines } from './brief-card.ts';
import { isoIn } from './iso.ts';
import { decideLine, doneWay, mixWay, planWay, tackWay } from './job-card.ts';
import { saidOfCup } from './ping-cup.ts';
import type { PingView, Said } from './ping-view.ts';
import { planCloses } from './plan-closing.ts';
import { planLine, toWait } from './plan-line.ts';
import { takeFromWay, takeWay } from './take-way.ts';
import { remindOf } from './trouble-card.ts';
import { outsideLine, usableLine } from './usable.ts';
import { amountText, checkFirst, jobData } from './words.ts';

/** What a ping says: what to do now, how much, by when, who. A late one says so, and what is still possible now. */
export function pingCard(ping: Ping, view: PingView): Card {
  const { studio, now, late, state, channel } = view;
  const { title, lines, tone, buttons } = saidOf(ping, view);
  const iso = isoIn(studio.zone);
  const job = ping.job === null ? undefined : state.jobs.get(ping.job);
  const notes = [
    ...(late ? [say`Late: this was due at ${clock(ping.dueAt)} (${away(ping.dueAt)}).`] : []),
    ...(ping.why === 'unanswered' ? [say`Nobody has answered yet, so this goes to everybody on duty.`] : []),
    ...(ping.why === 'snoozed' ? [say`Snoozed before.`] : []),
  ];
  const take: Way[] = ping.why === 'unanswered' && job ? [takeFromWay(job)] : [];
  const again: Way = { label: 'Snooze', command: 'snooze', options: { ping: ping.base } };
  return card(title, [...lines.filter((line) => line.length > 0), ...notes], {
    data: {
      ping: {
        // On the bench an id is enough; among all channels it needs the channel.
        id: `${channel}/${ping.id}`,
        kind: ping.kind,
        job: ping.job,
        step: ping.step,
        dueAt: iso(ping.dueAt),
        sentAt: iso(now),
        late,
        unanswered: ping.why === 'unanswered',
        ...(ping.cup === null ? {} : { cup: ping.cup }),
      },
      ...(job ? { job: jobData(job) } : {}),
    },
    to: ping.to,
    tone,
    buttons: [...take, ...buttons, ...(ping.job === null || take.length > 0 ? [] : [again])],
  });
}

function saidOf(ping: Ping, view: PingView): Said {
  const { state, studio, now } = view;
  const cup = ping.cup === null ? undefined : state.cups.get(ping.cup);
  if (cup) return saidOfCup(ping, cup, view);
  const job = ping.job === null ? undefined : state.jobs.get(ping.job);
  if (job) {
    const said = withTrouble(saidOfJob(ping, job, view), ping, view);
    const window = nextWindow(job, conditionsOf(state, studio));
    // Why nobody can tell is said already.
    return window && needsTouch(window)
      ? said
      : { ...said, lines: [...said.lines, ...usableLine(job, state, now, studio.units)] };
  }
  return ping.kind === 'digest' ? digest(view) : handoverWords(ping, view);
}

/** What a ping of a job may say, ready to be put together. */
function factsOf(ping: Ping, job: JobState, view: PingView) {
  const { state, studio, now } = view;
  const due = job.steps[nextIndex(job)];
  const step = due?.plan;
  const window = nextWindow(job, conditionsOf(state, studio));
  const closesAt = window ? timesOf(window).closesAt : null;
  const gone = closesAt !== null && (now > closesAt || ping.kind === 'recoat-missed');
  const poured = step ? laidFor(state, job, step, now) : [];
  return {
    ping,
    job,
    view,
    due,
    before: job.steps[nextIndex(job) - 1],
    window,
    closesAt,
    gone,
    title: step?.title ?? '',
    until:
      closesAt === null
        ? say``
        : gone
          ? say`The window closed at ${strong(clock(closesAt))}.`
          : say`No later than ${strong(clock(closesAt))} (${away(closesAt)}).`,
    amount: step ? amountText(step, studio, { poured, begun: atWork(job, now) }) : say``,
    who: say`With ${person(job.holder)}.`,
    plan: planLine(job, view),
    go: [...(step?.material ? [mixWay(job)] : []), doneWay(job)],
  };
}
type Facts = ReturnType<typeof factsOf>;

function saidOfJob(ping: Ping, job: JobState, view: PingView): Said {
  const facts = factsOf(ping, job, view);
  const { due, before, window, closesAt, gone, title, until, amount, who, plan, go } = facts;
  if (window && needsTouch(window)) return touchSaid(facts);
  if (gone || ping.kind === 'recoat-missed') return decisionSaid(facts);
  const { now } = view;
  const later = toWait(job, view);
  if (OPENINGS.has(ping.kind) && later?.breaks)
    return {
      title: say`${job.name}: ${title} is open, but wait until ${clock(later.at)}`,
      lines: [later.line, until, amount, who],
      tone: 'calm',
      buttons: [planWay(job), doneWay(job)],
    };
  switch (ping.kind) {
    case 'recoat-closing':
      return {
        title:
          closesAt === null
            ? say`${job.name}: ${title} must go on soon, touch it again`
            : say`${job.name}: ${title} must go on by ${clock(closesAt)}`,
        lines: [until, amount, who],
        tone: 'soon',
        buttons: go,
      };
    case 'plan-closing':
      return planClosingSaid(facts);
    case 'recoat-open':
      return {
        title: say`${job.name}: ready for ${title}`,
        lines: [
          amount,
          ...plan,
          until,
          ...checkFirst(job, [say`Touch it first: it should be tacky and leave nothing on the glove.`]),
          who,
        ],
        tone: 'go',
        buttons: [...go.slice(0, 1), ...(go.length > 1 ? go.slice(1) : [tackWay(job)])],
      };
    case 'cure-done':
      return {
        title: say`${job.name}: cured, on with ${title}`,
        lines: [
          say`${before?.plan.title ?? ''}, done at ${clock(before?.done?.at ?? now)}, has had its time.`,
          ...plan,
          amount,
          ...checkFirst(job),
          ...(due?.plan.advice == null ? [] : [say`${due.plan.advice}`]),
          who,
        ],
        tone: 'go',
        buttons: go,
      };
    default:
      return {
        title: say`${job.name}: ${title} is due`,
        lines: [amount, ...plan, until, ...checkFirst(job), who],
        tone: 'go',
        buttons: go,
      };
  }
}

/** Whoever is called to a step hears what of the job does not fit yet, while there is time to see to it. */
function withTrouble(said: Said, { kind, job }: Ping, { state, studio, now }: PingView): Said {
  if (!OPENINGS.has(kind)) return said;
  const plan = planNow(state, studio, now);
  const its = plan.troubles.filter((trouble) => trouble.job === job);
  const { lines, ways } = remindOf('Mind', its, plan, { studio, now });
  const buttons = [...said.buttons.slice(0, 2), ...ways.slice(0, 1)];
  return { ...said, lines: [...said.lines, ...lines], buttons };
}

/** Its window has closed: hands may still be at it, or somebody must decide. */
function decisionSaid({ ping, job, view: { now }, due, window, title, until, who }: Facts): Said {
  const inHand = due ? begunInTime(job, due, window, { at: now, now }) : null;
  return {
    title:
      ping.kind === 'recoat-missed'
        ? say`${job.name}: window for ${title} missed`
        : say`${job.name}: ${title} was ready, and its window has closed`,
    lines: [until, ...(inHand ? [say`If it was begun in time, finish it, and say so then.`] : []), decideLine(job, window), who],
    tone: 'late',
    // Beside them there is room for one that snoozes, or takes over.
    buttons: inHand ? [inHand, ...missedWays(job).slice(0, 1)] : missedWays(job),
  };
}

/** No clock can tell: somebody must touch it. */
function touchSaid({ ping, job, view: { studio }, before, window, title, amount, who, go }: Facts): Said {
  return {
    title: say`${job.name}: touch ${before?.plan.title ?? 'it'}`,
    lines: [
      ping.kind === 'recoat-closing'
        ? say`By the clock it would soon be too late for ${title}.`
        : say`By the clock it would be time for ${title}.`,
      ...(window ? outsideLine(job, window, studio.units) : []),
      amount,
      who,
    ],
    tone: 'soon',
    buttons: [tackWay(job), ...go.slice(0, 1)],
  };
}

/** It must begin by then, or what follows does not fit. */
function planClosingSaid({ ping, job, view, title, amount, who, plan, go }: Facts): Said {
  const by = ping.until ?? view.now;
  // It comes late, and something else is to be done by now.
  if (by < view.now)
    return {
      title: say`${job.name}: ${title} was to begin by ${clock(by)}`,
      lines: [...(plan.length > 0 ? plan : [say`The rest was planned again.`]), amount, who],
      tone: 'soon',
      buttons: [planWay(job), ...go].slice(0, 3),
    };
  const closes = planCloses(job.id, view);
  return {
    title: say`${job.name}: begin ${title} by ${clock(closes?.by ?? by)}`,
    lines: [...(closes ? [say`Later, ${closes.why}`] : []), amount, who],
    tone: 'soon',
    buttons: go,
  };
}

function digest(view: PingView): Said {
  return {
    title: say`Start of shift: what this bench has going`,
    lines: briefLines(view),
    tone: 'calm',
    buttons: [
      // Whoever comes in the morning is whom last night's handover was for.
      ...view.state.offers.slice(0, 1).map(takeWay),
      { label: 'Board', command: 'board', options: {} },
      { label: 'Brief', command: 'handover brief', options: {} },
    ],
  };
}

function handoverWords(ping: Ping, { state, studio, now }: PingView): Said {
  const offer = state.offers.find((each) => ping.id === `handover/${each.seq}`);
  if (offer)
    return {
      title: say`Nobody has taken the handover yet`,
      lines: [
        say`${people(offer.from.slice(0, 1))} offered ${offer.jobs.flatMap((id, index) => say`${index > 0 ? say`, ` : say``}${state.jobs.get(id)?.name ?? id}`)} to ${people(offer.to)} at ${clock(offer.at)}. Until it is taken, both sides get its pings.`,
      ],
      tone: 'soon',
      buttons: [takeWay(offer), { label: 'Brief', command: 'handover brief', options: {} }],
    };
  const [shift, next] = comingShifts(studio.shifts, studio.zone, now);
  const over = shift && next ? leftBehind(state, studio, shift, next) : [];
  return {
    title: say`Your shift ends ${shift ? say`at ${clock(shift.until)}` : say`soon`}: hand over what opens in the next`,
    lines: over.map((job) => {
      const window = nextWindow(job, conditionsOf(state, studio));
      const later = toWait(job, { state, studio, now });
      const opens = window && window.opensAt > now ? say`opens at ${clock(window.opensAt)}` : say`is open`;
      const when = later === null ? opens : say`is planned for ${clock(later.at)}`;
      return say`${job.name}: ${job.steps[nextIndex(job)]?.plan.title ?? ''} ${when}${window?.closesAt == null ? say`` : say`, closes at ${clock(window.closesAt)}`}.`;
    }),
    tone: 'soon',
    buttons: [
      { label: 'Hand over', command: 'handover give', options: {} },
      { label: 'Brief', command: 'handover brief', options: {} },
    ],
  };
}
