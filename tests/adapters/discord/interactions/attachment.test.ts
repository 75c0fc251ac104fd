import { createServer, type RequestListener } from 'node:http';
import { createServer as createTcpServer } from 'node:net';
import { gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';

import { fetched, hangUp, KIBIBYTE, listening, outcome } from './fetching.ts';

describe('a file that is in order', () => {
  test.each([0, 1, 64 * KIBIBYTE, 3000 * KIBIBYTE])('of %i bytes comes whole', async (size) => {
    const file = Buffer.alloc(size, 'coat');
    const got = await fetched((_, response) => response.end(file));
    expect(got).toBeInstanceOf(Uint8Array);
    expect(Buffer.from(got as Uint8Array).equals(file)).toBe(true);
  });

  test('may be exactly as large as allowed, announced, in pieces or packed', async () => {
    const file = Buffer.alloc(100 * KIBIBYTE, 'x');
    const mostBytes = file.length;
    const pieces: RequestListener = (_, response) => {
      for (let at = 0; at < mostBytes; at += 1000) response.write(file.subarray(at, at + 1000));
      response.end();
    };
    const packed: RequestListener = (_, response) => {
      response.writeHead(200, { 'content-encoding': 'gzip' }).end(gzipSync(file));
    };
    for (const listener of [((_, response) => response.end(file)) as RequestListener, pieces, packed])
      expect(await fetched(listener, { mostBytes })).toHaveLength(mostBytes);
  });

  test('its request carries nothing of ours', async () => {
    let headers: Record<string, unknown> = {};
    await fetched((request, response) => {
      headers = request.headers;
      response.end('x');
    });
    expect(headers).toMatchObject({ 'accept-encoding': 'identity' });
    expect(Object.keys(headers)).not.toEqual(expect.arrayContaining(['authorization']));
    expect(Object.keys(headers)).not.toEqual(expect.arrayContaining(['cookie']));
  });
});

describe('a file that is too large', () => {
  test('is refused by what it announces, before anything of it comes', async () => {
    const { gone, watch } = hangUp();
    const got = await fetched(
      (request, response) => {
        watch(request, response);
        response.writeHead(200, { 'content-length': 35 * KIBIBYTE * KIBIBYTE }).flushHeaders();
      },
      { mostBytes: 20 * KIBIBYTE * KIBIBYTE },
    );
    expect(got).toEqual({
      code: 'attachment-too-large',
      words: 'A file may have 20 MiB at most; it has 35 MiB. Attach a smaller one.',
    });
    expect(await gone).toBe(false);
  });

  test('is cut off where it announces nothing, and the server is not left writing', async () => {
    const { gone, watch } = hangUp();
    let written = 0;
    const got = await fetched(
      (request, response) => {
        watch(request, response);
        const more = () => {
          while (!response.destroyed) {
            written += 16 * KIBIBYTE;
            if (!response.write(Buffer.alloc(16 * KIBIBYTE))) return;
          }
        };
        response.on('drain', more);
        more();
      },
      { mostBytes: 50 * KIBIBYTE },
    );
    expect(got).toEqual({
      code: 'attachment-too-large',
      words: 'A file may have 50 KiB at most; it has more. Attach a smaller one.',
    });
    expect(await gone).toBe(false);
    // What lies in the buffers of both ends, but no more.
    expect(written).toBeLessThan(32 * KIBIBYTE * KIBIBYTE);
  });

  test('is refused one byte over', async () => {
    const got = await fetched((_, response) => response.write('12345') && response.end('6'), { mostBytes: 5 });
    expect(got).toMatchObject({ code: 'attachment-too-large' });
  });

  test('is refused by what comes out of it, however small it is packed', async () => {
    const bomb = gzipSync(Buffer.alloc(256 * KIBIBYTE * KIBIBYTE));
    expect(bomb.length).toBeLessThan(300 * KIBIBYTE);
    const before = process.memoryUsage().rss;
    const got = await fetched((_, response) => response.writeHead(200, { 'content-encoding': 'gzip' }).end(bomb), {
      mostBytes: KIBIBYTE * KIBIBYTE,
    });
    expect(got).toMatchObject({ code: 'attachment-too-large' });
    expect(process.memoryUsage().rss - before).toBeLessThan(128 * KIBIBYTE * KIBIBYTE);
  });
});

describe('a server that does not keep to its word', () => {
  const raw = async (answer: string, hold = false) => {
    const origin = await listening(
      createTcpServer((socket) => {
        socket.on('error', () => {});
        socket.once('data', () => (hold ? socket.write(answer) : socket.end(answer)));
      }),
    );
    return outcome(`${origin}/x`, { origins: [origin], timeoutMilliseconds: 500 });
  };

  test('announcing less than it sends gets no more than that through', async () => {
    const got = await raw(`HTTP/1.1 200 OK\r\nContent-Length: 3\r\nConnection: close\r\n\r\nabc${'x'.repeat(5000)}`);
    if (got instanceof Uint8Array) expect(Buffer.from(got).toString()).toBe('abc');
    else expect(got.code).toBe('attachment-gone');
  });

  test('announcing more than it sends is a broken connection', async () => {
    const got = await raw('HTTP/1.1 200 OK\r\nContent-Length: 300\r\nConnection: close\r\n\r\nabc');
    expect(got).toEqual({
      code: 'attachment-gone',
      words: 'The attached file cannot be fetched: the connection broke off. Attach it again.',
    });
  });

  test.each(['HTTP/1.1 200 OK\r\nContent-Length: -3\r\n\r\nabc', 'no http at all\r\n\r\n', ''])(
    'answering %j is refused',
    async (answer) => {
      expect(await raw(answer)).toMatchObject({ code: 'attachment-gone' });
    },
  );

  test('packing what cannot be unpacked does not keep anybody waiting', async () => {
    const got = await raw('HTTP/1.1 200 OK\r\nContent-Encoding: gzip\r\nConnection: close\r\n\r\nno gzip');
    expect((got as { code: string }).code).toMatch(/^attachment-(too-slow|gone)$/);
  });

  test('saying nothing, or stopping half-way, is cut off in time', async () => {
    const before = Date.now();
    for (const answer of ['', 'HTTP/1.1 200 OK\r\n', 'HTTP/1.1 200 OK\r\nContent-Length: 300\r\n\r\nabc'])
      expect(await raw(answer, true)).toEqual({
        code: 'attachment-too-slow',
        words: 'The file should have been here within 0.5 s; it was still on its way then. Try again.',
      });
    expect(Date.now() - before).toBeLessThan(4000);
  });

  const MEBIBYTE = KIBIBYTE * KIBIBYTE;
  /** Announces so much and sends it after so many milliseconds. */
  const late =
    (mebibytes: number, milliseconds: number, announce = true): RequestListener =>
    (_, response) => {
      const file = Buffer.alloc(mebibytes * MEBIBYTE);
      if (announce) response.setHeader('content-length', file.length);
      response.flushHeaders();
      setTimeout(() => response.end(file), milliseconds).unref();
    };

  test('a large file gets more time, a tenth for each 2 MiB', async () => {
    const options = { timeoutMilliseconds: 1000, mostBytes: 100 * MEBIBYTE };
    expect(await fetched(late(30, 1300), options)).toHaveLength(30 * MEBIBYTE);
    // Ten times 2 MiB: twice as long.
    expect(await fetched(late(20, 30_000), options)).toMatchObject({
      code: 'attachment-too-slow',
      words: expect.stringContaining('within 2 s'),
    });
    for (const listener of [late(1, 1300), late(30, 1300, false)])
      expect(await fetched(listener, options)).toMatchObject({ words: expect.stringContaining('within 1 s') });
  });

  test('announcing much wins six times as long at most, and nothing where it is too much', async () => {
    const hold =
      (bytes: number): RequestListener =>
      (_, response) => {
        response.writeHead(200, { 'content-length': bytes }).flushHeaders();
      };
    const options = { timeoutMilliseconds: 100, mostBytes: 1000 * MEBIBYTE };
    expect(await fetched(hold(900 * MEBIBYTE), options)).toMatchObject({
      code: 'attachment-too-slow',
      words: expect.stringContaining('within 0.6 s'),
    });
    expect(await fetched(hold(1001 * MEBIBYTE), options)).toMatchObject({ code: 'attachment-too-large' });
  });

  test('letting it drip does not win time', async () => {
    const { gone, watch } = hangUp();
    const before = Date.now();
    let drip: NodeJS.Timeout | undefined;
    const got = await fetched(
      (request, response) => {
        watch(request, response);
        drip = setInterval(() => response.write('x'), 20);
      },
      { timeoutMilliseconds: 400 },
    );
    expect(got).toMatchObject({ code: 'attachment-too-slow' });
    expect(Date.now() - before).toBeLessThan(3000);
    expect(await gone).toBe(false);
    clearInterval(drip);
  });

  test('hanging up is told apart from being slow', async () => {
    const got = await fetched((request) => request.socket.resetAndDestroy());
    expect(got).toMatchObject({ code: 'attachment-gone' });
    const later = await fetched((request, response) => {
      response.writeHead(200, { 'content-length': 10 }).write('abc', () => request.socket.resetAndDestroy());
    });
    expect(later).toMatchObject({ code: 'attachment-gone' });
  });

  test.each([403, 404, 410])('a status of %i: it was deleted, or its address has run out', async (status) => {
    expect(await fetched((_, response) => response.writeHead(status).end())).toEqual({
      code: 'attachment-gone',
      words: `The attached file cannot be fetched: it is not there any more (the chat's file store answered ${status}); what is attached can be fetched for some hours only. Attach it again.`,
    });
  });

  test.each([204, 206, 400, 500, 503])('a status of %i is no file', async (status) => {
    expect(await fetched((_, response) => response.writeHead(status).end())).toEqual({
      code: 'attachment-gone',
      words: `The attached file cannot be fetched: the chat's file store answered ${status}. Attach it again.`,
    });
  });
});

test.each([301, 302, 303, 307, 308])('no redirect (%i) is followed, neither elsewhere nor to itself', async (status) => {
  let visits = 0;
  const other = await listening(
    createServer((_, response) => {
      visits += 1;
      response.end('secret');
    }),
  );
  for (const location of [`${other}/secret`, '/attachments/1/2/other.png', '']) {
    let asked = 0;
    const got = await fetched((_, response) => {
      asked += 1;
      response.writeHead(status, { location }).end('moved');
    });
    expect(got).toMatchObject({ code: 'attachment-elsewhere' });
    expect(asked).toBe(1);
  }
  expect(visits).toBe(0);
});
