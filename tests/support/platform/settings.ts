/** What can be set about the platform. All of it may be changed while it runs. */
export interface Settings {
  token: string;
  heartbeatMs: number;
  /** How many shards it asks bots to use, and the fewest that it lets in. */
  shards: number;
  /** Whether it lets bots in that ask for privileged intents. */
  privileged: boolean;
  /** How long a first answer may take, in milliseconds. */
  answerMs: number;
  /** How long an interaction's token lives, in milliseconds. */
  tokenMs: number;
  /** For how long a repeated nonce gives back the message that exists, in milliseconds. */
  nonceMs: number;
  /** How many requests one channel's messages take in a span of milliseconds, for each method. */
  channelLimit: number;
  channelWindowMs: number;
}

export const USUAL: Settings = {
  token: 'loopback.token.of-a-test',
  heartbeatMs: 41_250,
  shards: 1,
  privileged: false,
  answerMs: 3000,
  tokenMs: 15 * 60 * 1000,
  nonceMs: 3 * 60 * 1000,
  channelLimit: 100,
  channelWindowMs: 5000,
};
