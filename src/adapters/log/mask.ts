const HIDDEN = '[hidden]';

/** Shorter than this, a "secret" would mask ordinary words all over the log. */
const SHORTEST_SECRET = 8;

/**
 * What gives access wherever it is found. A bot's token is three groups of letters joined by dots. The token of an
 * interaction is one very long group; in an address it follows the id, and is hidden there whatever its length.
 */
const SHAPES: readonly [RegExp, string][] = [
  // First, since it leaves only short runs to the others, which would take long over a long one.
  [/[\w-]{60,}/g, HIDDEN],
  [/[\w-]{16,}\.[\w-]{4,}\.[\w-]{16,}/g, HIDDEN],
  [/((?:webhooks|interactions)\/\d+\/)[^\s/?"']+/g, `$1${HIDDEN}`],
];

export type Mask = (text: string) => string;

/** Makes a mask that hides these secrets, and everything that looks like one of the platform's tokens. */
export function masking(secrets: readonly string[]): Mask {
  // The longest first: one secret may be a part of another.
  const known = secrets.filter((each) => each.length >= SHORTEST_SECRET).sort((one, other) => other.length - one.length);
  return (text) => {
    const without = known.reduce((rest, secret) => rest.replaceAll(secret, HIDDEN), text);
    return SHAPES.reduce((rest, [shape, instead]) => rest.replace(shape, instead), without);
  };
}
