import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Announce, Bench } from '../../src/bench/bench.ts';
import { conditionsOf } from '../../src/bench/conditions.ts';
import * as atBench from '../../src/bench/decide.ts';
import type { BenchState, NumberedEvent } from '../../src/bench/fold.ts';
import { giveOver, takeOver } from '../../src/bench/handover.ts';
import type { House } from '../../src/bench/house.ts';
import type { Ping } from '../../src/bench/pings.ts';
import { StandingClock } from '../../src/bench/standing-clock.ts';
import type { Studio } from '../../src/bench/studio.ts';
import { undo } from '../../src/bench/undo.ts';
import * as atJob from '../../src/job/decide.ts';
import { HOUR, MINUTE } from '../../src/trade/time/calendar.ts';
import { isRefusal } from '../../src/words/refusal.ts';
import { cure, fixed, RUBBER, recoat, started, step, t } from '../support/given.ts';
import { Disk, openHouse } from '../support/house.ts';
import { hours, studio } from '../support/studio.ts';
import { historyHolds } from './history-holds.ts';
import { isAgain, matches, reasonsOf } from './oracle.ts';

const SPEED = { law: { law: 'q10', q10: 2 }, referenceCelsius: 23 } as const;
const STEPS = [
  step('seal', fixed(15)),
  step('coat-1', recoat(45, 180, SPEED), { material: RUBBER }),
  step('coat-2', recoat(20, 60, SPEED), { material: RUBBER }),
  step('coat-3', recoat(30, null, SPEED), { material: RUBBER }),
  step('coat-4', cure(600, SPEED), { material: RUBBER }),
  step('trim'),
  step('wax', fixed(10, 90)),
  step('shell', cure(300, SPEED)),
  step('demould'),
];
const STUDIO = studio({ shifts: { hours: [hours('06:00-14:00'), hours('14:00-22:00')], days: [1, 2, 3, 4, 5, 6, 7] } });
const CHANNELS = ['one', 'two'];

const job = fc.nat(1);
const who = fc.constantFrom('dana', 'kim');
const ago = fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, fc.integer({ min: 1, max: 40 }));
const minutes = fc.oneof(
  { weight: 5, arbitrary: fc.integer({ min: 1, max: 30 }) },
  { weight: 5, arbitrary: fc.integer({ min: 30, max: 120 }) },
  { weight: 2, arbitrary: fc.integer({ min: 120, max: 700 }) },
);
type Values<F> = { [K in keyof F]: F[K] extends fc.Arbitrary<infer V> ? V : never };
const of = <T extends string, F extends Record<string, fc.Arbitrary<unknown>>>(weight: number, what: T, fields: F) => ({
  weight,
  arbitrary: fc.record({ do: fc.constant(what), ...fields }) as unknown as fc.Arbitrary<{ do: T } & Values<F>>,
});
const action = fc.oneof(
  of(1, 'start', { who }),
  of(14, 'done', { job, who, ago, early: fc.boolean() }),
  of(3, 'check', { job, who, ago, result: fc.constantFrom('not-yet', 'ready', 'past') }),
  of(3, 'missed', { job, who, choice: fc.constantFrom('abrade', 'scrap') }),
  of(3, 'pour', { job, who }),
  of(2, 'end', { who, how: fc.constantFrom('spent', 'discarded') }),
  of(1, 'hold', { job, who }),
  of(2, 'resume', { job, who }),
  of(1, 'give', { job, who }),
  of(1, 'take', { job, who }),
  of(1, 'note', { job, who }),
  of(1, 'undo', { who }),
  of(1, 'close', { job: fc.constant(1), who }),
  of(2, 'warm', { who, ago, celsius: fc.integer({ min: 12, max: 32 }) }),
  of(1, 'expect', { who, night: fc.integer({ min: 8, max: 20 }) }),
  of(14, 'go', { minutes }),
  of(2, 'restart', { down: fc.integer({ min: 0, max: 300 }) }),
  of(1, 'platform-down', { times: fc.integer({ min: 1, max: 4 }) }),
  of(1, 'disk-full', { times: fc.integer({ min: 1, max: 3 }) }),
);
const script = fc.array(fc.record({ channel: fc.nat(CHANNELS.length - 1), action }), {
  minLength: 5,
  maxLength: 40,
  size: 'max',
});
type Action = typeof action extends fc.Arbitrary<infer A> ? A : never;

interface Rung {
  readonly ping: Ping;
  readonly channel: string;
  readonly at: number;
  /** The disk did not take it. */
  readonly lost: boolean;
  /** During which action of the script. */
  readonly turn: number;
}

/** Types of pings that the oracle works out; the others come from the calendar or repeat one of these. */
const OWN = new Set(['pot-low', 'pot-over', 'recoat-open', 'recoat-closing', 'recoat-missed', 'cure-done', 'step-due']);

const rankOf = ({ ping: { kind } }: Rung) => (kind.startsWith('pot-') ? 0 : kind === 'handover' ? 2 : kind === 'digest' ? 3 : 1);

class World {
  readonly disk = new Disk();
  readonly clock = new StandingClock(t('06:30'));
  readonly rung: Rung[] = [];
  /** What went wrong and should not have; the bench itself only tries again. */
  readonly faults: unknown[] = [];
  turn = 0;
  down = 0;
  house: House = this.#open();

  #open(): House {
    const announce: Announce = async (ping, { channel, state, studio, now, late }) => {
      if (this.down > 0) {
        this.down -= 1;
        throw new Error('the platform is down');
      }
      this.rung.push({ ping, channel, at: now, turn: this.turn, lost: this.disk.failures > 0 });
      expect(now).toBeGreaterThanOrEqual(ping.dueAt);
      expect(late).toBe(now - ping.dueAt > MINUTE);
      this.#hasReason(ping, channel, { state, studio, now });
      return 'sent';
    };
    return openHouse(this.disk, this.clock, STUDIO, announce, (error) => {
      if (!(error instanceof Error && /platform is down|disk is full/.test(error.message))) this.faults.push(error);
    });
  }

  /** What is announced has, as far as the disk knows, a reason at this moment, and just that time. */
  #hasReason(ping: Ping, channel: string, { state, studio, now }: { state: BenchState; studio: Studio; now: number }): void {
    if (!OWN.has(ping.kind)) return;
    const log = this.onDisk(channel);
    const reason = reasonsOf(log, studio.paces).find((each) => matches(each, ping));
    expect(reason, `a reason for ${ping.id}`).toBeDefined();
    if (!reason) return;
    // Where what follows would be lost the plan has it later, and so it rings again then; by how much, the planner's own tests know.
    if (isAgain(ping)) {
      expect(ping.dueAt).toBeGreaterThan(reason.dueAt);
      return;
    }
    if (ping.why === 'due') {
      expect(Math.abs(reason.dueAt - ping.dueAt)).toBeLessThanOrEqual(2);
      expect(ping.id).toBe(ping.base);
      return;
    }
    // Louder: the first one is on record for the grace time, and nobody has told anything of the job since.
    const first = log.find((event) => event.type === 'PingSent' && event.ping === ping.base);
    expect(first).toBeDefined();
    expect(now - (first?.enteredAt ?? now)).toBeGreaterThanOrEqual(STUDIO.graceMinutes * MINUTE);
    expect(state.sent.get(ping.base)?.at).toBe(first?.enteredAt);
  }

  /** The history as it stands on the disk, read without any of the program. */
  onDisk(channel: string): NumberedEvent[] {
    const keys = [...this.disk.keys()].filter((key) => key.includes(`bench:${channel}:`)).sort();
    const batches = keys.map((key) => JSON.parse(JSON.parse(String(this.disk.get(key))).value) as NumberedEvent[]);
    return batches.flat().map((event, index) => ({ ...event, seq: index + 1 }));
  }

  async act(channel: string, asked: Action): Promise<void> {
    this.turn += 1;
    if (asked.do === 'go') return this.clock.advanceTo(this.clock.now() + asked.minutes * MINUTE);
    if (asked.do === 'platform-down') {
      this.down = asked.times;
      return;
    }
    if (asked.do === 'disk-full') {
      this.disk.failures = asked.times;
      return;
    }
    if (asked.do === 'restart') {
      this.house.sleep();
      await this.clock.advanceTo(this.clock.now() + asked.down * MINUTE);
      this.disk.failures = 0;
      this.house = this.#open();
      return this.house.wakeAll();
    }
    const before = this.onDisk(channel).length;
    try {
      const decided = await this.#decide(this.house.bench(channel), asked);
      expect(this.onDisk(channel).length).toBe(isRefusal(decided) ? before : before + decided.events.length);
    } catch (error) {
      // The disk was full: nothing of it may be there.
      if (!(error instanceof Error && error.message.includes('full'))) throw error;
      expect(this.onDisk(channel).length).toBe(before);
    }
  }

  async #decide(bench: Bench, asked: Exclude<Action, { do: 'go' | 'restart' | 'platform-down' | 'disk-full' }>) {
    const now = this.clock.now();
    const at = now - ('ago' in asked ? asked.ago * MINUTE : 0);
    const said = { by: asked.who, at, now };
    const known = await this.house.studio();
    return bench.decide((state, log) => {
      const named = 'job' in asked ? [...state.jobs.values()].at(-1 - asked.job) : undefined;
      const told = { ...said, conditions: conditionsOf(state, known) };
      switch (asked.do) {
        case 'start':
          return [{ ...started('08:00', { job: `job-${log.length}`, by: asked.who, steps: STEPS }), at, enteredAt: now }];
        case 'end':
          return atBench.endCup(state, null, asked.how, () => true, said);
        case 'warm':
          return atBench.readTemperature(asked.celsius, null, said);
        case 'expect': {
          const day = { fromMinute: 7 * 60, untilMinute: 19 * 60 };
          return atBench.expectTemperature({ dayCelsius: null, nightCelsius: asked.night, day, zone: 'Etc/UTC' }, said);
        }
        case 'take':
          return takeOver(state, log, { job: null, offer: null, from: null }, said);
        case 'undo': {
          const undone = undo(log, null, said);
          return isRefusal(undone) ? undone : undone.events;
        }
      }
      if (!named) return atBench.endCup(state, 'none', 'spent', () => true, said);
      switch (asked.do) {
        case 'done':
          return atJob.done(named, { step: null, note: null, early: asked.early, begun: null }, told);
        case 'check':
          return atJob.check(named, asked.result, told);
        case 'missed':
          return atJob.decideMissed(named, asked.choice, told);
        case 'pour':
          return atBench.startCup(
            state,
            log,
            { material: RUBBER, grams: null, potLifeMinutes: 20, speed: SPEED, usable: null, job: named, nth: null, step: null },
            said,
          );
        case 'hold':
          return atJob.hold(named, null, told);
        case 'resume':
          return atJob.resume(named, told);
        case 'close':
          return atJob.close(named, null, told);
        case 'note':
          return atJob.addNote(named, 'a note', told);
        case 'give':
          return giveOver([named], ['dana', 'kim'], null, said);
      }
    });
  }
}

test('whatever happens, each ping that is due goes out once, in order, at its time, and none without a reason', async () => {
  await fc.assert(
    fc.asyncProperty(script, async (turns) => {
      const world = new World();
      for (const channel of CHANNELS) {
        await world.act(channel, { do: 'start', who: 'dana' });
        await world.act(channel, { do: 'done', who: 'dana', job: 0, ago: 0, early: false });
      }
      for (const { channel, action: asked } of turns) await world.act(CHANNELS[channel] as string, asked);

      // Time enough for everything that was tried in vain.
      world.turn += 1;
      world.down = 0;
      world.disk.failures = 0;
      await world.clock.advanceTo(world.clock.now() + HOUR);
      for (const fault of world.faults) throw fault;

      for (const channel of CHANNELS) {
        const log = world.onDisk(channel);
        const heard = world.rung.filter((each) => each.channel === channel);
        const recorded = log.flatMap((event) => (event.type === 'PingSent' ? [`${event.ping} at ${event.enteredAt}`] : []));
        // Once on record each; announced more often only where the disk would not take it.
        expect(heard.filter((each) => !each.lost).map((each) => `${each.ping.id} at ${each.at}`)).toEqual(recorded);
        expect(new Set(recorded.map((each) => each.split(' ')[0])).size).toBe(recorded.length);
        // At one moment a pot life before a window, a window before the rest; otherwise in the order in which they were due.
        for (const [index, one] of heard.entries()) {
          const next = heard[index + 1];
          if (!next || next.turn !== one.turn || next.at !== one.at) continue;
          expect(rankOf(next)).toBeGreaterThanOrEqual(rankOf(one));
          if (rankOf(next) === rankOf(one)) expect(next.ping.dueAt).toBeGreaterThanOrEqual(one.ping.dueAt);
        }
        // What the oracle says is due has gone out, each under a name of its own.
        const { paces } = await world.house.studio();
        const due = reasonsOf(log, paces).filter((reason) => reason.dueAt <= world.clock.now());
        for (const reason of due) {
          const names = heard.filter(
            (each) => matches(reason, each.ping) && !isAgain(each.ping) && each.ping.why === 'due' && each.at >= reason.since,
          );
          expect(names.length, `${reason.kind} of ${reason.about}`).toBeGreaterThan(0);
          // Under one name only, unless something was taken back and came again, or a finger opened anew what the clock had closed.
          const takenBack = log.some(
            (event) =>
              (event.type === 'Undone' || (event.type === 'TackChecked' && event.result === 'ready')) &&
              event.enteredAt >= reason.since,
          );
          const ids = new Set(names.filter((each) => each.at > reason.since).map((each) => each.ping.id));
          if (!takenBack) expect(ids.size, `names of ${reason.kind} of ${reason.about}`).toBeLessThanOrEqual(1);
        }
        await historyHolds(world.house.bench(channel), log);
      }
    }),
    { numRuns: 40, interruptAfterTimeLimit: 60_000 },
  );
}, 120_000);
