import type { CupState } from '../bench/fold.ts';
import { type Ping, potOverAt } from '../bench/pings.ts';
import { nextStep } from '../job/state.ts';
import { away, clock, person, plain, say, strong } from '../words/text.ts';
import { doneWay } from './job-card.ts';
import type { PingView, Said } from './ping-view.ts';
import { untoldCelsius, untoldLine } from './usable.ts';

/** What is said of a cup whose pot life runs out. */
export function saidOfCup(ping: Ping, cup: CupState, { state, studio, now }: PingView): Said {
  const over = potOverAt(state, cup);
  const owner = cup.job === null ? undefined : state.jobs.get(cup.job);
  const buttons = [
    ...(owner?.status === 'active' && nextStep(owner)?.plan.id === cup.step ? [doneWay(owner)] : []),
    { label: 'Cup spent', command: 'cup spent', options: { cup: cup.id } },
    { label: 'Discard cup', command: 'cup discard', options: { cup: cup.id } },
  ];
  const step = owner?.steps.find(({ plan }) => plan.id === cup.step)?.plan.title;
  const whose = owner
    ? say`For ${step === undefined ? say`` : say`${step}, `}${owner.name}, with ${person(owner.holder)}.`
    : say`Mixed by ${person(cup.by)}.`;
  const of = owner ? say` (${owner.name})` : say``;
  const untold = untoldCelsius(state, cup, now);
  if (untold !== null)
    return {
      title: say`Look at ${cup.id}${of}: no clock can tell how long it is good`,
      lines: [
        say`Mixed at ${clock(cup.startedAt)}; by the sheet’s clock it would ${plain(ping.kind === 'pot-low' ? 'soon be' : 'be')} over. Does it still flow?`,
        untoldLine({ name: cup.material.name, usable: cup.usable }, untold, studio.units),
        whose,
      ],
      tone: 'soon',
      buttons,
    };
  if (ping.kind === 'pot-low')
    return {
      title:
        over > now ? say`Use up ${cup.id}${of}: pot life ends ${away(over)}` : say`${cup.id} is over${of}: do not brush it on`,
      lines: [
        say`${cup.material.name}, mixed at ${clock(cup.startedAt)}, ${over > now ? plain('is') : plain('was')} good until ${strong(clock(over))}.`,
        whose,
      ],
      tone: 'soon',
      buttons,
    };
  return {
    title: say`${cup.id} is over${of}: do not brush it on`,
    lines: [
      say`The pot life of ${cup.material.name}, mixed at ${clock(cup.startedAt)}, ended at ${clock(over)}. Spread out what is left to let its heat go, and discard it once cured.`,
      whose,
    ],
    tone: 'late',
    buttons,
  };
}
