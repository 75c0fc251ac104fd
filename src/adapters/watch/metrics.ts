import { Counter, collectDefaultMetrics, Gauge, Histogram, Registry } from 'prom-client';

interface Answered {
  /** The path of the command, `job start`. */
  readonly command: string;
  readonly how: 'answered' | 'refused' | 'broken';
  readonly milliseconds: number;
}

interface Rang {
  readonly kind: string;
  readonly how: 'channel' | 'direct' | 'held';
  readonly lateMilliseconds: number;
}

/** The platform takes no first answer after three seconds. */
const ANSWER_SECONDS = [0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2, 3];
/** Late by a moment, by the shortest pot life, by a recoat window, by a night. */
const LATENESS_SECONDS = [1, 5, 15, 60, 300, 900, 3600, 6 * 3600, 24 * 3600];
const MOST_VALUES = 200;
const SECOND = 1000;

/** Counters for a monitoring system, each with a registry of its own. Nobody's name or words are in them. */
export class Metrics {
  readonly #registry = new Registry();
  readonly #plain = { registers: [this.#registry] };
  readonly #seen = new Set<string>();
  readonly #commands = new Counter({
    ...this.#plain,
    name: 'coatbell_commands_total',
    help: 'Commands, presses and forms that were worked off.',
    labelNames: ['command', 'how'] as const,
  });
  readonly #answers = new Histogram({
    ...this.#plain,
    name: 'coatbell_answer_seconds',
    help: 'How long an answer took.',
    buckets: ANSWER_SECONDS,
  });
  readonly #pings = new Counter({
    ...this.#plain,
    name: 'coatbell_pings_total',
    help: 'Pings that went out, or were held back.',
    labelNames: ['kind', 'how'] as const,
  });
  readonly #lateness = new Histogram({
    ...this.#plain,
    name: 'coatbell_ping_lateness_seconds',
    help: 'How long after its time a ping went out.',
    buckets: LATENESS_SECONDS,
  });
  readonly #waiting = new Gauge({
    ...this.#plain,
    name: 'coatbell_waiting_benches',
    help: 'Benches that wait for their turn to send.',
  });
  readonly #gateway = new Gauge({ ...this.#plain, name: 'coatbell_gateway_up', help: '1 while connected to the chat platform.' });
  readonly #troubles = new Counter({
    ...this.#plain,
    name: 'coatbell_troubles_total',
    help: 'Errors, by where they happened; the log has them.',
    labelNames: ['where'] as const,
  });

  constructor() {
    collectDefaultMetrics({ register: this.#registry });
  }

  answered({ command, how, milliseconds }: Answered): void {
    this.#commands.inc({ command: this.#value(command), how });
    this.#answers.observe(milliseconds / SECOND);
  }

  rang({ kind, how, lateMilliseconds }: Rang): void {
    this.#pings.inc({ kind: this.#value(kind), how });
    // What is held back has not gone out, so it has no lateness yet.
    if (how !== 'held') this.#lateness.observe(Math.max(0, lateMilliseconds) / SECOND);
  }

  waiting(benches: number): void {
    this.#waiting.set(benches);
  }

  gateway(up: boolean): void {
    this.#gateway.set(up ? 1 : 0);
  }

  trouble(where: string): void {
    this.#troubles.inc({ where: this.#value(where) });
  }

  /** Everything in the text format of Prometheus, with its content type. */
  async page(): Promise<{ type: string; text: string }> {
    return { type: this.#registry.contentType, text: await this.#registry.metrics() };
  }

  /** Each value of a label is a series for ever, so that strange values, or too many of them, count as one. */
  #value(value: string): string {
    if (this.#seen.has(value)) return value;
    if (this.#seen.size >= MOST_VALUES || !/^[a-z][\w -]{0,39}$/i.test(value)) return 'other';
    this.#seen.add(value);
    return value;
  }
}
