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

/** What one bench has to tell of the pace of its materials. */
function observedOn(state: Pick<BenchState, 'touched' | 'temperatures' | 'expectations'>): Observed[] {
  const conditions = temperaturesOf(state);
  return [...state.touched.values()].flatMap((coat) => {
    const ratio = observedPace(coat, conditions);
    const enteredAt = Math.max(...coat.touches.map((touch) => touch.enteredAt));
    return ratio === null ? [] : [{ material: coat.material, ratio, enteredAt }];
  });
}

/** What a studio has learned of each material, from all its benches; what was told before a reset does not count. */
function learned(observed: readonly Observed[], resets: Readonly<Record<string, number>>): Readonly<Record<string, Pace>> {
  const counted = observed.filter(({ material, enteredAt }) => enteredAt > (resets[material] ?? Number.NEGATIVE_INFINITY));
  const inOrder = [...counted].sort((a, b) => a.enteredAt - b.enteredAt);
  const materials = [...new Set(inOrder.map(({ material }) => material))];
  return Object.fromEntries(
    materials.map((id) => [id, learnedPace(inOrder.filter(({ material }) => material === id).map(({ ratio }) => ratio))]),
  );
}

type Known = Pick<BenchState, 'touched' | 'temperatures' | 'expectations'> & { readonly observed: readonly Observed[] };

/** What all benches of one studio have to tell, kept in memory: it can be worked out anew from their logs at any time. */
export class Learning {
  readonly #benches = new Map<string, Known>();
  readonly #load: () => Promise<ReadonlyMap<string, BenchState>>;
  #loaded: Promise<void> | null = null;

  /** `load`: the state of every bench with a history. */
  constructor(load: () => Promise<ReadonlyMap<string, BenchState>>) {
    this.#load = load;
  }

  async learned({ paceResets }: Studio): Promise<Readonly<Record<string, Pace>>> {
    this.#loaded ??= this.#loadAll();
    try {
      await this.#loaded;
    } catch (error) {
      this.#loaded = null;
      throw error;
    }
    return learned(
      [...this.#benches.values()].flatMap(({ observed }) => observed),
      paceResets,
    );
  }

  /** Takes what a bench has come to; tells whether what it observed is another thing now. */
  take(channel: string, { touched, temperatures, expectations }: BenchState): boolean {
    const known = this.#benches.get(channel);
    const same = known?.touched === touched && known.temperatures === temperatures && known.expectations === expectations;
    if (same || (touched.size === 0 && (known?.observed.length ?? 0) === 0)) return false;
    const observed = observedOn({ touched, temperatures, expectations });
    this.#benches.set(channel, { touched, temperatures, expectations, observed });
    return JSON.stringify(observed) !== JSON.stringify(known?.observed ?? []);
  }

  forget(channel: string): void {
    this.#benches.delete(channel);
  }

  async #loadAll(): Promise<void> {
    for (const [channel, state] of await this.#load()) if (!this.#benches.has(channel)) this.take(channel, state);
  }
}
