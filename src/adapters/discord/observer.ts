/** Who is told of what goes on: a log, counters. Nobody is told what was said, nor any token. */
export interface Observer {
  /** A command, a press or a form was worked off. `command` is its path, `job start`. */
  answered(what: { command: string; how: 'answered' | 'refused' | 'broken'; milliseconds: number; server: string }): void;
  /** A ping went out, or was held back because its channel cannot be reached. */
  rang(what: {
    kind: string;
    how: 'channel' | 'direct' | 'held';
    lateMilliseconds: number;
    server: string;
    channel: string;
  }): void;
  /** How many benches wait for their turn to send. */
  waiting(benches: number): void;
  /** Something about the connection: `ready`, `disconnected`, `resumed`, `server-joined` … */
  happened(event: string, about?: Readonly<Record<string, string | number | boolean>>): void;
  trouble(where: string, error: unknown): void;
}
