import { learnedPace, observedPace, type Pace } from '../trade/time/pace.ts';
import { temperaturesOf } from './conditions.ts';
import type { BenchState } from './fold.ts';
import type { Studio } from './studio.ts';

/** One coat that was touched, and how many times as long as its data sheet says it took. */
interface Observed {
  readonly material: string;
  readonly ratio: number;
  /** When the last of its touches was told. */
  readonly enteredAt: number;
}

/** What an observation is worked out from. */
type Seen = Pick<BenchState, 'touched' | 'temperatures' | 'expectations'>;
type Known = Seen & { readonly observed: readonly Observed[] };
type Paces = ReadonlyMap<string, Pace>;

/** What one bench has to tell of the pace of its materials. */
function observedOn(state: Seen): Observed[] {
  const conditions = temperaturesOf(state);
  return [...state.touched.values()].flatMap((coat) => {
    const ratio = observedPace(coat, conditions);
    const enteredAt = Math.max(...coat.touches.map((touch) => touch.enteredAt));
    return ratio === null ? [] : [{ material: coat.material, ratio, enteredAt }];
  });
}

/** What a studio has learned of each material, from all its benches; what was told before a reset does not count. */
function learnedFrom(observed: readonly Observed[], resets: Studio['paceResets']): Paces {
  const ratios = new Map<string, number[]>();
  for (const { material, ratio, enteredAt } of [...observed].sort((a, b) => a.enteredAt - b.enteredAt))
    if (enteredAt > (resets.get(material) ?? Number.NEGATIVE_INFINITY))
      ratios.set(material, [...(ratios.get(material) ?? []), ratio]);
  return new Map([...ratios].map(([material, all]) => [material, learnedPace(all)]));
}

/** What all benches of one studio have to tell, kept in memory: it can be worked out anew from their logs at any time. */
export class Learning {
  readonly #benches = new Map<string, Known>();
  readonly #load: (take: (channel: string, state: BenchState) => void) => Promise<void>;
  #loaded: Promise<void> | null = null;
  #last: { readonly resets: Studio['paceResets']; readonly paces: Paces } | null = null;

  /** `load` gives the state of every bench with a history; one that cannot be read is left out. */
  constructor(load: (take: (channel: string, state: BenchState) => void) => Promise<void>) {
    this.#load = load;
  }

  /** Rejects where the benches cannot be looked for; the next call then tries again. */
  async paces({ paceResets: resets }: Pick<Studio, 'paceResets'>): Promise<Paces> {
    // A bench that has told more by itself meanwhile knows better than what was read.
    this.#loaded ??= this.#load((channel, state) => {
      if (!this.#benches.has(channel)) this.take(channel, state);
    }).catch((error) => {
      this.#loaded = null;
      throw error;
    });
    await this.#loaded;
    if (this.#last?.resets !== resets)
      this.#last = {
        resets,
        paces: learnedFrom(
          [...this.#benches.values()].flatMap(({ observed }) => observed),
          resets,
        ),
      };
    return this.#last.paces;
  }

  /** Takes what a bench has come to; tells whether what it observed is another thing now. */
  take(channel: string, state: Seen): boolean {
    const known = this.#benches.get(channel);
    const { touched, temperatures, expectations } = state;
    if (known?.touched === touched && known.temperatures === temperatures && known.expectations === expectations) return false;
    const observed = touched.size === 0 ? [] : observedOn(state);
    this.#benches.set(channel, { touched, temperatures, expectations, observed });
    if (JSON.stringify(observed) === JSON.stringify(known?.observed ?? [])) return false;
    this.#last = null;
    return true;
  }
}
