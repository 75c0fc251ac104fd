const EPOCH = 1_420_070_400_000;
let last = 0n;
let olderByMs = 90 * 24 * 60 * 60 * 1000;

/** An id made of the present moment, larger than every one before. */
export function snowflake(): string {
  const now = BigInt(Date.now() - EPOCH) << 22n;
  last = now > last ? now : last + 1n;
  return String(last);
}

/** An id some months old whose shard is as wanted: the platform shares servers out by `(id >> 22) % shards`. */
export function olderSnowflake(shard?: readonly [index: number, of: number]): string {
  for (;;) {
    olderByMs -= 1;
    const ms = Date.now() - EPOCH - olderByMs;
    if (shard === undefined || ms % shard[1] === shard[0]) return String((BigInt(ms) << 22n) + BigInt(olderByMs % 4096));
  }
}

export const shardOf = (id: string, shards: number): number => Number((BigInt(id) >> 22n) % BigInt(shards));

/** The id as it would have been so much earlier. */
export const earlier = (id: string, milliseconds: number): string => String(BigInt(id) - (BigInt(milliseconds) << 22n));
