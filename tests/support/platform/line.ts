import { createServer, type Server as HttpServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Gateway } from './gateway.ts';
import type { Uploads } from './options.ts';
import type { Rest } from './rest.ts';
import type { World } from './world.ts';

/** The port: one for HTTP, the socket and files, that can go away and come back. */
export class Line {
  #port = 0;
  #server: HttpServer | null = null;
  #refusing = false;
  readonly #rest: Rest;
  readonly #gateway: Gateway;
  readonly #uploads: Uploads;
  readonly #world: World;

  constructor(rest: Rest, gateway: Gateway, uploads: Uploads, world: World) {
    this.#rest = rest;
    this.#gateway = gateway;
    this.#uploads = uploads;
    this.#world = world;
  }

  get port(): number {
    return this.#port;
  }

  async start(): Promise<void> {
    if (this.#server !== null) return;
    const server = createServer((request, response) => this.#answer(request, response));
    server.on('connection', (socket) => {
      if (this.#refusing) socket.destroy();
    });
    server.on('upgrade', (request, socket, head) => this.#gateway.accept(request, socket, head));
    await new Promise<void>((resolve, reject) => {
      server.once('error', reject);
      server.listen(this.#port, '127.0.0.1', resolve);
    });
    this.#server = server;
    this.#port = (server.address() as AddressInfo).port;
  }

  async stop(): Promise<void> {
    const server = this.#server;
    this.#server = null;
    if (server === null) return;
    const closed = new Promise((resolve) => server.close(resolve));
    this.#cut(server);
    await closed;
  }

  refuse(refuse: boolean): void {
    this.#refusing = refuse;
    if (refuse && this.#server !== null) this.#cut(this.#server);
  }

  #cut(server: HttpServer): void {
    this.#gateway.cut();
    server.closeAllConnections();
  }

  #answer(request: IncomingMessage, response: ServerResponse): void {
    if (request.url?.startsWith('/files/')) {
      this.#file(request.url, response);
      return;
    }
    this.#rest.serve(request, response).catch((error: unknown) => {
      // A request that was cut off is none of ours; anything else is a defect of this platform, and tests must hear of it.
      if (!request.complete) return;
      this.#rest.breaches.push(`the platform itself failed: ${String(error)}`);
      if (!response.headersSent) response.writeHead(500).end();
    });
  }

  #file(url: string, response: ServerResponse): void {
    const address = new URL(url, 'http://127.0.0.1');
    const upload = this.#uploads.at(address);
    if (upload === 'over') return void response.writeHead(404).end('This content is no longer available.');
    const id = address.pathname.split('/')[2] ?? '';
    const sent = [...this.#world.rooms.values()]
      .flatMap(({ messages }) => messages)
      .flatMap(({ files }) => files)
      .find(({ attachment }) => attachment.id === id);
    const found = upload ?? sent;
    if (found === undefined) return void response.writeHead(404).end();
    response.writeHead(200, { 'content-type': found.type, 'content-length': found.bytes.length }).end(found.bytes);
  }
}
