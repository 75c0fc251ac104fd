import { DiscordAPIError, HTTPError, RateLimitError } from 'discord.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { faultOf, rejectsOnRateLimit } from '../../../../src/adapters/discord/sending/faults.ts';
import { Outbox, OutboxClosed } from '../../../../src/adapters/discord/sending/outbox.ts';

const limit = (retryAfter: number, global = false) =>
  new RateLimitError({
    timeToReset: retryAfter,
    limit: 5,
    method: 'POST',
    hash: 'a',
    url: '',
    route: '/channels/:id/messages',
    majorParameter: '1',
    global,
    retryAfter,
    sublimitTimeout: 0,
    scope: 'user',
  });

/** A time that passes only when it is told to. */
class Time {
  now = 0;
  readonly #timers = new Set<{ at: number; work: () => void }>();
  readonly after = (ms: number, work: () => void) => {
    const timer = { at: this.now + ms, work };
    this.#timers.add(timer);
    return () => void this.#timers.delete(timer);
  };
  readonly sleep = (ms: number) => new Promise<void>((done) => void this.after(ms, done));

  /** Lets happen what can happen now. */
  async settle(): Promise<void> {
    for (let round = 0; round < 30; round++) await Promise.resolve();
  }

  /** Goes to the next timer, and on until nothing more happens at its time; false where there is none. */
  async step(): Promise<boolean> {
    await this.settle();
    const first = this.#next();
    if (!first) return false;
    this.now = Math.max(this.now, first.at);
    for (let next = this.#next(); next && next.at <= this.now; next = this.#next()) {
      this.#timers.delete(next);
      next.work();
      await this.settle();
    }
    return true;
  }

  #next() {
    const [next] = [...this.#timers].sort((one, other) => one.at - other.at);
    return next;
  }
}

const outboxAt = (time: Time, more: { atOnce?: number; perSecond?: number; waiting?: (count: number) => void } = {}) =>
  new Outbox({
    observer: { waiting: more.waiting ?? (() => {}) },
    now: () => time.now,
    after: time.after,
    atOnce: more.atOnce ?? 1,
    perSecond: more.perSecond ?? 1000,
  });

interface Plan {
  readonly arrives: number;
  readonly urgency: number;
  /** Its urgency from a moment on. */
  readonly later: { readonly from: number; readonly urgency: number } | null;
  readonly takes: number;
  /** Further requests within the turn. */
  readonly extra: number;
  readonly limits: readonly { readonly after: number; readonly global: boolean }[];
  readonly fails: boolean;
}

const plan: fc.Arbitrary<Plan> = fc.record({
  arrives: fc.nat(1500),
  urgency: fc.nat(4),
  later: fc.option(fc.record({ from: fc.nat(3000), urgency: fc.nat(4) })),
  takes: fc.nat(300),
  extra: fc.nat(2),
  limits: fc.array(fc.record({ after: fc.integer({ min: 1, max: 900 }), global: fc.boolean() }), { maxLength: 2 }),
  fails: fc.boolean(),
});

describe('against an oracle that looks at everybody who waits', () => {
  test('the most urgent goes first, none is lost or sent twice, and no second holds too many', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(plan, { minLength: 1, maxLength: 25 }),
        fc.integer({ min: 1, max: 4 }),
        fc.integer({ min: 1, max: 6 }),
        async (plans, atOnce, perSecond) => {
          const time = new Time();
          const outbox = outboxAt(time, { atOnce, perSecond });
          const waiting = new Map<number, { place: number; notBefore: number }>();
          const requests: number[] = [];
          const ends: string[] = plans.map(() => '');
          const tries = plans.map(() => 0);
          let running = 0;
          let wanting = 0;
          let shut = 0;
          let places = 0;
          const urgencyOf = (index: number): number => {
            const { urgency, later } = plans[index] as Plan;
            return later && time.now >= later.from ? later.urgency : urgency;
          };
          const room = () => requests.filter((at) => at > time.now - 1000).length < perSecond;
          const ready = () => [...waiting].filter(([, { notBefore }]) => notBefore <= time.now).map(([index]) => index);
          const before = (one: number, other: number) =>
            urgencyOf(one) - urgencyOf(other) || (waiting.get(one)?.place ?? 0) - (waiting.get(other)?.place ?? 0);
          const count = () => {
            expect(room()).toBe(true);
            expect(time.now).toBeGreaterThanOrEqual(shut);
            requests.push(time.now);
          };

          plans.forEach(({ arrives, takes, extra, limits, fails }, index) => {
            const work = async () => {
              expect(ready().sort(before)[0]).toBe(index);
              expect(running).toBeLessThan(atOnce);
              const place = waiting.get(index)?.place ?? 0;
              waiting.delete(index);
              running += 1;
              count();
              for (let more = 0; more < extra; more++) {
                wanting += 1;
                await outbox.room();
                wanting -= 1;
                count();
              }
              await time.sleep(takes);
              running -= 1;
              const limited = limits[tries[index] ?? 0];
              tries[index] = (tries[index] ?? 0) + 1;
              if (limited) {
                waiting.set(index, { place, notBefore: time.now + limited.after });
                if (limited.global) shut = Math.max(shut, time.now + limited.after);
                throw limit(limited.after, limited.global);
              }
              if (fails) throw new Error('broken');
            };
            time.after(arrives, () => {
              waiting.set(index, { place: places++, notBefore: 0 });
              outbox.take({ urgency: () => urgencyOf(index), work }).then(
                () => (ends[index] += 'done'),
                (error: Error) => (ends[index] += error.message),
              );
            });
          });
          while (await time.step())
            // Nobody waits who could go.
            expect(
              room() && time.now >= shut && (wanting > 0 || (running < atOnce && ready().length > 0)),
              `idle at ${time.now}`,
            ).toBe(false);
          expect(ends).toEqual(plans.map(({ fails }) => (fails ? 'broken' : 'done')));
          expect(tries).toEqual(plans.map(({ limits }) => limits.length + 1));
        },
      ),
      { numRuns: 200 },
    );
  });
});

describe('what it says and how it ends', () => {
  test('it tells how many wait', async () => {
    const time = new Time();
    const told: number[] = [];
    const outbox = outboxAt(time, { waiting: (count) => void told.push(count) });
    const turns = [1, 2, 3].map(() => outbox.take({ urgency: () => 0, work: () => time.sleep(10) }));
    expect(told.at(-1)).toBe(2);
    while (await time.step());
    await Promise.all(turns);
    expect(told.at(-1)).toBe(0);
  });

  test('a turn that has begun sends its next thing before another begins', async () => {
    const time = new Time();
    const outbox = outboxAt(time, { atOnce: 2, perSecond: 1 });
    const sent: string[] = [];
    const send = (name: string, more: number) => async () => {
      sent.push(`${name} at ${time.now}`);
      for (let left = more; left > 0; left--) {
        await outbox.room();
        sent.push(`${name} at ${time.now}`);
      }
    };
    const turns = [
      outbox.take({ urgency: () => 4, work: send('first', 2) }),
      outbox.take({ urgency: () => 0, work: send('second', 0) }),
    ];
    while (await time.step());
    await Promise.all(turns);
    expect(sent).toEqual(['first at 0', 'first at 1000', 'first at 2000', 'second at 3000']);
  });

  test('closed, it lets what runs come to its end, and turns everybody else away', async () => {
    const time = new Time();
    const outbox = outboxAt(time);
    const sent: string[] = [];
    const send = (name: string) => async () => {
      await time.sleep(10);
      sent.push(name);
    };
    const runs = outbox.take({ urgency: () => 0, work: send('runs') });
    const waits = outbox.take({ urgency: () => 0, work: send('waits') });
    const closing = outbox.close();
    await expect(waits).rejects.toThrow(OutboxClosed);
    await expect(outbox.take({ urgency: () => 0, work: send('late') })).rejects.toThrow(OutboxClosed);
    await expect(outbox.room()).rejects.toThrow(OutboxClosed);
    while (await time.step());
    await closing;
    await runs;
    expect(sent).toEqual(['runs']);
  });

  test('with real time, a limit for one does not hold up another', async () => {
    const outbox = new Outbox({ observer: { waiting: () => {} } });
    const sent: string[] = [];
    let limits = 1;
    const limited = outbox.take({
      urgency: () => 0,
      work: async () => {
        if (limits-- > 0) throw limit(60);
        sent.push('limited');
      },
    });
    await outbox.take({ urgency: () => 4, work: async () => void sent.push('other') });
    // The timers hold nothing up, so something else has to.
    const held = setTimeout(() => {}, 5000);
    await limited;
    clearTimeout(held);
    expect(sent).toEqual(['other', 'limited']);
  });
});

describe('what an error means', () => {
  const refusal = (status: number, code: number) => new DiscordAPIError({ code, message: '' }, code, status, 'POST', '', {});

  test.each([
    ['an unknown channel', refusal(404, 10003), 'unreachable'],
    ['an unknown server', refusal(404, 10004), 'unreachable'],
    ['missing access', refusal(403, 50001), 'unreachable'],
    ['missing permissions', refusal(403, 50013), 'unreachable'],
    ['an archived thread', refusal(400, 50083), 'unreachable'],
    ['private messages not taken', refusal(403, 50007), 'unreachable'],
    ['an unknown message', refusal(404, 10008), 'gone'],
    ['an invalid body', refusal(400, 50035), 'refused'],
    ['a token that is not valid', refusal(401, 0), 'token'],
    [
      'a token that the client has forgotten',
      new Error('Expected token to be set for this request, but none was present'),
      'token',
    ],
    ['the guard at the door', refusal(403, 40333), 'passing'],
    ['a broken platform', new HTTPError(503, '', 'POST', '', {}), 'passing'],
    ['a broken line', new TypeError('fetch failed'), 'passing'],
    ['a time-out', new DOMException('', 'AbortError'), 'passing'],
  ])('%s', (_, error, kind) => {
    expect(faultOf(error)).toEqual({ kind });
  });

  test('a limit says for how long, and for whom; one without an end is for some time', () => {
    expect(faultOf(limit(250))).toEqual({ kind: 'limited', afterMilliseconds: 250, everybody: false });
    expect(faultOf(limit(250, true))).toEqual({ kind: 'limited', afterMilliseconds: 250, everybody: true });
    expect(faultOf(limit(0))).toMatchObject({ kind: 'limited', afterMilliseconds: 1000 });
  });

  test('only what waits in the outbox is rejected, answers are not', () => {
    expect(rejectsOnRateLimit({ method: 'POST', route: '/channels/:id/messages' })).toBe(true);
    expect(rejectsOnRateLimit({ method: 'patch', route: '/channels/:id/messages/:id' })).toBe(true);
    expect(rejectsOnRateLimit({ method: 'POST', route: '/interactions/:id/:token/callback' })).toBe(false);
    expect(rejectsOnRateLimit({ method: 'PATCH', route: '/webhooks/:id/:token/messages/@original' })).toBe(false);
  });
});
