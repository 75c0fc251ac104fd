/**
 * What the bot must still know of the platform after a restart, apart from the benches themselves: which message is a
 * channel's board, which commands were registered. Implement it durably; values are plain JSON.
 */
export interface Memory {
  get(key: string): Promise<unknown>;
  set(key: string, value: unknown): Promise<void>;
  delete(key: string): Promise<void>;
}
