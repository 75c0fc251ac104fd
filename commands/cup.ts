import { endCup, startCup } from '../src/bench/decide.ts';
import { openCups } from '../src/bench/fold.ts';
import { potOverAt } from '../src/bench/pings.ts';
import { hazardLines } from '../src/cards/hazards.ts';
import { isoIn } from '../src/cards/iso.ts';
import { doneWay, waysOn } from '../src/cards/job-card.ts';
import { untoldCelsius, untoldLine } from '../src/cards/usable.ts';
import { mass } from '../src/cards/words.ts';
import { card, MOST_BUTTONS } from '../src/chat/card.ts';
import { text, typed, whole } from '../src/chat/options.ts';
import { pouredWrong } from '../src/desk/cup-ways.ts';
import { type Desk, group, part } from '../src/desk/desk.ts';
import { again, givenOf, inLine, kept, line, type Typed } from '../src/desk/examples.ts';
import { speedOf } from '../src/desk/mixing.ts';
import { materialOrNext, nextMaterialId } from '../src/desk/next-material.ts';
import { atText, jobIfAny, job as jobNamed, material as materialNamed, moment } from '../src/desk/resolve.ts';
import { potLifeOf } from '../src/trade/cups/pot-life.ts';
import { aboutText } from '../src/trade/measures/format.ts';
import { parseQuantity } from '../src/trade/measures/quantity.ts';
import { amountIn } from '../src/trade/mixing/limits.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { away, clock, plain, say, strong } from '../src/words/text.ts';

const at = text({ about: 'When it happened, if not just now: 10m ago, 14:05' }).optional();
const which = {
  cup: text({ about: 'Which cup, where several are open: cup-2', complete: 'cup' }).optional(),
  material: text({ about: 'The open cup of this material', complete: 'material' }).optional(),
  job: text({ about: 'The open cup of this job', complete: 'job' }).optional(),
  at,
};
type Which = { cup?: string | undefined; material?: string | undefined; job?: string | undefined; at?: string | undefined };

async function end(how: 'spent' | 'discarded', input: Which, desk: Desk) {
  const state = await desk.bench.state();
  const path = how === 'spent' ? 'cup spent' : 'cup discard';
  const when = moment(desk, input.at, (at) => line(path, { ...input, at }));
  if (isRefusal(when)) return when;
  const at = input.at === undefined ? undefined : atText(desk, when);
  const options = { ...input, at };
  const job = input.job === undefined ? null : jobNamed(state, input.job, { desk, command: path, options });
  if (isRefusal(job)) return job;
  const material =
    input.material === undefined ? null : materialNamed(desk, input.material, (id) => line(path, { ...options, material: id }));
  if (isRefusal(material)) return material;
  const only = (cup: { job: string | null; material: { id: string } }) =>
    (job === null || cup.job === job.id) && (material === null || cup.material.id === material.id);
  const decided = await desk.bench.decide((now) =>
    endCup(now, input.cup ?? null, how, only, { by: desk.who, at: when, now: desk.now }),
  );
  if (isRefusal(decided)) return inThisCommand(decided, path, at, openCups(state).filter(only));
  const event = decided.events[0];
  const cup = event?.type === 'CupEnded' ? decided.state.cups.get(event.cup) : undefined;
  const owner = cup?.job ? decided.state.jobs.get(cup.job) : undefined;
  return card(
    how === 'spent' ? say`${cup?.id ?? ''} is used up` : say`${cup?.id ?? ''} is discarded`,
    how === 'spent' ? [] : [say`Let it cure in the open, away from anything that burns, before it goes into the bin.`],
    {
      data: { cup: { cup: cup?.id, state: how } },
      buttons: owner ? waysOn({ job: owner, state: decided.state, studio: desk.studio, now: desk.now }) : [],
    },
  );
}

/** What the bench offers, for this command: to discard where it was to be discarded, and at the moment that was said. */
function inThisCommand(refusal: Refusal, path: string, at: string | undefined, open: readonly { id: string }[]): Refusal {
  const [first] = open;
  if (refusal.code === 'which-cup')
    return again(refusal, {
      example: line(path, { cup: first?.id, at }),
      ways: open.slice(0, MOST_BUTTONS).map(({ id }) => ({
        label: `${path === 'cup spent' ? 'Spent' : 'Discard'}: ${id}`,
        command: path,
        options: givenOf({ cup: id, at }),
      })),
    });
  if (refusal.code === 'unknown-cup') return again(refusal, { example: first ? line(path, { cup: first.id, at }) : '/board' });
  return refusal.code === 'out-of-order' ? again(refusal, { example: '/board' }) : refusal;
}

/** The same cup once more, poured when that button is pressed. */
const nextOf = ({ at: _, ...options }: Typed, nth: number) => givenOf({ ...options, nth: String(nth) });

export default group({
  name: 'cup',
  summary: 'The clock of each mixed cup: start it, and say when it is used up or discarded',
  commands: {
    start: part({
      summary: 'A cup was mixed: start its pot life',
      options: {
        material: text({ about: 'What was mixed; left out, what the job needs next', complete: 'material' }).optional(),
        amount: typed(kept(inLine(parseQuantity, (amount) => line('cup start', { material: 'brush-urethane', amount }))), {
          about: 'How much is in it: 240 g',
        }).optional(),
        job: text({ about: 'The job that it is for', complete: 'job' }).optional(),
        step: text({ about: 'The step that it is for; left out, what comes next', complete: 'step' }).optional(),
        nth: whole({ about: 'Which cup of its step it is: a second press is then noticed', least: 1 }).optional(),
        of: whole({ about: 'How many cups are planned: the next can then be started by a button', least: 1 }).optional(),
        at,
      },
      examples: ['material:brush-urethane amount:240 g', 'material:shell-paste amount:300 g at:2m ago'],
      run: async (input, desk) => {
        const state = await desk.bench.state();
        const typedOptions = { ...input, amount: input.amount?.typed, nth: input.nth?.toString(), of: input.of?.toString() };
        const when = moment(desk, input.at, (ago) => line('cup start', { ...typedOptions, at: ago }));
        if (isRefusal(when)) return when;
        const options = { ...typedOptions, at: input.at === undefined ? undefined : atText(desk, when) };
        const asked = { desk, command: 'cup start', options };
        const job = jobIfAny(state, input.job, asked);
        if (isRefusal(job)) return job;
        const material = materialOrNext(state, job, {
          ...asked,
          material: input.material,
          lineOf: (one) => line('cup start', { ...options, material: one }),
          question: say`Which material is in the cup?`,
          example: line('cup start', { amount: '240 g', ...givenOf(options), material: desk.materials[0]?.id }),
        });
        if (isRefusal(material)) return material;
        const grams = input.amount === undefined ? null : amountIn('mass', input.amount.value, material, null);
        if (isRefusal(grams))
          return again(grams, { example: line('cup start', { ...options, material: material.id, amount: grams.example }) });
        const { units, scale } = desk.studio;
        const shown = (amount: number) => plain(aboutText(amount, units, scale.stepGrams));
        if (grams !== null && material.mostGrams !== null && grams > material.mostGrams * 1.25)
          return new Refusal(
            'batch-too-large',
            say`${shown(grams)} is more than ${material.name} may be mixed at once: ${shown(material.mostGrams)}.`,
            {
              example: `/cup start material:${material.id} amount:${material.mostGrams} g`,
            },
          );
        // A cup counts for a job only if the job is named or its next step takes this material.
        const owner = job && (input.job !== undefined || nextMaterialId(job) === material.id) ? job : null;
        const decided = await desk.bench.decide((now, log) =>
          startCup(
            now,
            log,
            {
              material: { id: material.id, name: material.name },
              grams,
              potLifeMinutes: potLifeOf(material, grams).minutes,
              speed: speedOf(material),
              usable: material.usable,
              job: owner,
              step: input.step ?? null,
              nth: input.nth ?? null,
            },
            { by: desk.who, at: when, now: desk.now },
          ),
        );
        if (isRefusal(decided)) return decided;
        const event = decided.events[0];
        const cup = event?.type === 'CupStarted' ? decided.state.cups.get(event.cup) : undefined;
        if (!cup) throw new Error('a cup that was started is not on the bench');
        const over = potOverAt(decided.state, cup);
        const untold = untoldCelsius(decided.state, cup, desk.now);
        const more = input.nth !== undefined && input.nth < (input.of ?? 0) ? input.nth + 1 : null;
        return card(
          untold === null
            ? say`${cup.id}: use it by ${strong(clock(over))} (${away(over)})`
            : say`${cup.id}: watch it, no clock can tell`,
          [
            ...(untold === null ? [] : [untoldLine(material, untold, desk.studio.units)]),
            say`${grams === null ? say`` : say`${mass(grams, desk.studio)} of `}${material.name}, mixed at ${clock(cup.startedAt)}${owner ? say`, for ${owner.name}` : say``}.`,
            ...hazardLines(material, []),
          ],
          {
            data: {
              cup: {
                cup: cup.id,
                material: material.id,
                grams,
                job: cup.job,
                startedAt: isoIn(desk.studio.zone)(cup.startedAt),
                goodUntil: untold === null ? isoIn(desk.studio.zone)(over) : null,
                state: 'open',
              },
            },
            tone: untold === null ? 'go' : 'soon',
            buttons: [
              ...(more ? [{ label: 'Next cup poured', command: 'cup start', options: nextOf(options, more) }] : []),
              ...(owner && !more ? [doneWay(owner)] : []),
              { label: 'Cup spent', command: 'cup spent', options: { cup: cup.id } },
              // One that is for a step is discarded from the card that says how wrong it is, or from its ping.
              ...(owner || more ? [] : [{ label: 'Discard cup', command: 'cup discard', options: { cup: cup.id } }]),
              pouredWrong(material),
            ],
          },
        );
      },
    }),
    spent: part({
      summary: 'A cup is used up',
      options: which,
      examples: ['cup:cup-1', 'material:shell-paste'],
      run: (input, desk) => end('spent', input, desk),
    }),
    discard: part({
      summary: 'A cup is thrown away',
      options: which,
      examples: ['cup:cup-1'],
      run: (input, desk) => end('discarded', input, desk),
    }),
  },
});
