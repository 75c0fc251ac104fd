/** The words that the platform's addresses are made of. Whatever else stands in one is an id, a token or a name. */
const WORDS = new Set([
  ...[
    'applications',
    'application-commands',
    'callback',
    'channels',
    'commands',
    'crosspost',
    'emojis',
    'entitlements',
    'gateway',
  ],
  ...['guilds', 'interactions', 'members', 'messages', 'oauth2', 'permissions', 'pins', 'reactions', 'roles', 'thread-members'],
  ...['threads', 'typing', 'users', 'webhooks', 'bot', '@me', '@original'],
]);

/** What is followed by an id and then by a token. */
const WITH_TOKEN = new Set(['webhooks', 'interactions']);

/**
 * The route of one of the platform's addresses, without what is particular to the call:
 * `/webhooks/:id/:token/messages/:id`. Undefined for what is no address.
 */
export function routeOf(url: unknown): string | undefined {
  if (typeof url !== 'string' || !URL.canParse(url)) return undefined;
  const parts = new URL(url).pathname.split('/').filter((part) => part !== '' && part !== 'api' && !/^v\d{1,2}$/.test(part));
  const named = parts.map((part, index) => {
    if (WITH_TOKEN.has(parts[index - 2] ?? '')) return ':token';
    if (WORDS.has(part)) return part;
    return /^\d+$/.test(part) ? ':id' : ':other';
  });
  return `/${named.join('/')}`;
}
