import { createServer, type RequestListener, type Server } from 'node:http';
import type { AddressInfo, createServer as createTcpServer } from 'node:net';
import { afterEach } from 'vitest';
import { type AttachmentOptions, fetchAttachment } from '../../../../src/adapters/discord/interactions/attachment.ts';
import { plainText } from '../../../../src/chat/plain.ts';
import { isRefusal } from '../../../../src/words/refusal.ts';

const servers: { close(): unknown; closeAllConnections?(): void }[] = [];
afterEach(() => {
  for (const server of servers.splice(0)) {
    server.close();
    server.closeAllConnections?.();
  }
});

export const KIBIBYTE = 1024;

export async function listening<S extends Server | ReturnType<typeof createTcpServer>>(
  server: S,
  host = '127.0.0.1',
): Promise<string> {
  servers.push(server);
  await new Promise<void>((resolve) => server.listen(0, host, resolve));
  return `http://${host}:${(server.address() as AddressInfo).port}`;
}

/** Serves, fetches, and gives the bytes, or the refusal's code and words. */
export async function fetched(listener: RequestListener, options: AttachmentOptions = {}) {
  const origin = await listening(createServer(listener));
  return outcome(`${origin}/attachments/1/2/photo.png?hm=abc`, { origins: [origin], ...options });
}

export async function outcome(url: string, options: AttachmentOptions) {
  const result = await fetchAttachment(url, options);
  if (!isRefusal(result)) return result;
  return { code: result.code, words: plainText(result.message, { zone: 'Etc/UTC', now: 0 }) };
}

/** Resolves when the client has hung up on a response that was never finished. */
export function hangUp() {
  let done = (_finished: boolean) => {};
  const gone = new Promise<boolean>((resolve) => {
    done = resolve;
  });
  const watch: RequestListener = (_, response) => response.once('close', () => done(response.writableFinished));
  return { gone, watch };
}
