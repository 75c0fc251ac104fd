import type { APIApplicationCommandOptionChoice, RESTPutAPIApplicationCommandsJSONBody } from 'discord-api-types/v10';
import type { Exchange } from './exchange.ts';
import { type Fault, StandingFault } from './faults.ts';
import { Gateway } from './gateway.ts';
import { Line } from './line.ts';
import { Uploads } from './options.ts';
import { type AutocompleteAsk, type CommandAsk, People, type PressAsk, type SubmitAsk } from './people.ts';
import { Places } from './places.ts';
import { type Logged, Rest } from './rest.ts';
import type { Scene } from './routes.ts';
import { storeCommands } from './routes-application.ts';
import { type Settings, USUAL } from './settings.ts';
import type { Server } from './world.ts';

/**
 * The chat platform on this machine: a real HTTP server and a real socket gateway, for a real client.
 *
 *   const platform = new Platform();                       // or new Platform({ heartbeatMs: 200, shards: 2 })
 *   const studio = platform.server('studio');
 *   const bench = platform.channel(studio, 'bench');
 *   const dana = platform.person('dana');
 *   await platform.start();
 *   const client = new Client({ intents: [GatewayIntentBits.Guilds], rest: { api: platform.api } });
 *   await client.login(platform.settings.token);
 *   platform.assumeRegistered(body);                       // unless the bot registers by itself
 *   const exchange = await platform.command({ channel: bench, user: dana, name: 'mix', options: { amount: '150 g' } }).answered();
 *   expect(exchange.text).toContain('…');  expect(platform.complaints).toEqual([]);  await platform.stop();
 */
export class Platform extends Places {
  readonly settings: Settings;
  readonly gateway: Gateway;
  /** By interaction token: all that were ever played. */
  readonly exchanges = new Map<string, Exchange>();
  readonly #line: Line;
  readonly #rest: Rest;
  readonly #people: People;
  readonly #uploads: Uploads;

  constructor(settings: Partial<Settings> = {}) {
    super();
    this.settings = { ...USUAL, ...settings };
    const socketUrl = () => `ws://127.0.0.1:${this.port}`;
    const filesUrl = () => `http://127.0.0.1:${this.port}/files`;
    const uploads = new Uploads(filesUrl);
    this.#uploads = uploads;
    this.gateway = new Gateway(this.world, this.settings, socketUrl);
    const { world, gateway, exchanges } = this;
    const scene: Scene = { world, gateway, settings: this.settings, exchanges, socketUrl, filesUrl };
    this.#rest = new Rest(scene);
    this.#people = new People(scene, uploads);
    this.#line = new Line(this.#rest, gateway, uploads, world);
  }

  // Coming and going

  /** Listens on a free port, or on the former one after a stop. */
  start(): Promise<void> {
    return this.#line.start();
  }

  /** Breaks all connections and listens no more. Sessions are remembered, so that bots resume after a `start`. */
  stop(): Promise<void> {
    return this.#line.stop();
  }

  get port(): number {
    return this.#line.port;
  }

  /** For the client's `rest.api`. */
  get api(): string {
    return `http://127.0.0.1:${this.port}/api`;
  }

  /** Breaks every connection at once, and each new one, until it is called with `false`. */
  refuseConnections(refuse: boolean): void {
    this.#line.refuse(refuse);
  }

  // What was heard

  get requests(): readonly Logged[] {
    return this.#rest.requests;
  }

  /** The logged requests that fit. A string is the whole path. */
  requestsTo(method: string, path: string | RegExp): Logged[] {
    return this.requests.filter(
      (one) => one.method === method && (typeof path === 'string' ? one.path === path : path.test(one.path)),
    );
  }

  /** Requests for which there is no route. */
  get unknownRequests(): readonly string[] {
    return this.#rest.unknownRequests;
  }

  /** Requests beyond a bucket's limit. Limits that a fault plays do not count. */
  get overLimit(): readonly string[] {
    return this.#rest.overLimit;
  }

  /** What was wrong with the bodies that the bot sent. */
  get breaches(): readonly string[] {
    return this.#rest.breaches;
  }

  /** All that a well-behaved bot leaves empty: breaches, unknown requests, requests over the limit. */
  get complaints(): readonly string[] {
    return [
      ...this.breaches,
      ...this.unknownRequests.map((one) => `unknown: ${one}`),
      ...this.overLimit.map((one) => `over the limit: ${one}`),
    ];
  }

  /** Begins anew with the complaints; the log of requests stays. */
  forgetComplaints(): void {
    for (const list of [this.#rest.breaches, this.#rest.unknownRequests, this.#rest.overLimit]) list.length = 0;
  }

  // What goes wrong

  /** Puts a fault in place for the next requests that fit. */
  fault(fault: Fault): StandingFault {
    const standing = new StandingFault(fault);
    this.#rest.faults.push(standing);
    return standing;
  }

  /** A day later for the addresses of the files that people gave: those up to now hold no longer. */
  ageFiles(): void {
    this.#uploads.aheadSeconds += 24 * 60 * 60;
  }

  /** Whoever gave files with that name has deleted them. */
  deleteFiles(filename: string): void {
    for (const [id, upload] of this.#uploads.stored) if (upload.filename === filename) this.#uploads.stored.delete(id);
  }

  /** Asks all bots to connect anew and resume. */
  reconnect(): void {
    this.gateway.send({ op: 7, d: null });
  }

  /** Ends the sessions. Those that are not resumable are forgotten. */
  invalidSession(resumable: boolean): void {
    this.gateway.send({ op: 9, d: resumable });
    if (!resumable) this.gateway.sessions.clear();
  }

  /** Closes all sockets with a code: 4000 can be resumed, 4014 is the end. */
  dropConnection(code: number): void {
    this.gateway.close(code);
  }

  /** Leaves heartbeats unanswered from now on, or answers them again. */
  stopAcking(stop = true): void {
    this.gateway.acking = !stop;
  }

  // People

  /** Stores a registration as if the bot had sent it. With `server`, only there. */
  assumeRegistered(body: RESTPutAPIApplicationCommandsJSONBody, server?: Server): void {
    storeCommands(this.world, server?.id ?? 'global', body);
  }

  /** Somebody sends a slash command. */
  command(ask: CommandAsk): Exchange {
    return this.#people.command(ask);
  }

  /** Somebody presses a button, or chooses from a selection with `values`. */
  press(ask: PressAsk): Exchange {
    return this.#people.press(ask);
  }

  /** Somebody fills in a modal and sends it. */
  submit(ask: SubmitAsk): Exchange {
    return this.#people.submit(ask);
  }

  /** Somebody is typing an option; what the bot offers. @throws when nothing comes in time */
  async autocomplete(ask: AutocompleteAsk): Promise<APIApplicationCommandOptionChoice[]> {
    return (await this.#people.complete(ask).answered({ ms: ask.ms ?? 5000 })).choices;
  }
}
