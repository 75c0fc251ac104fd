import type { What } from './palette.ts';

/** Instants are milliseconds since the epoch; all words are as they are to be read. */
export interface TimeSpan {
  readonly from: number;
  readonly until: number;
}

export interface PictureBar extends TimeSpan {
  readonly what: What;
  /** What it is, short; empty where nothing need be said. */
  readonly title: string;
}

export interface PictureRow {
  readonly name: string;
  /** Who answers for it; empty where that need not be said. */
  readonly who: string;
  /** What is due next, or when it is. */
  readonly due: string;
  /** The state of what is due; null where the words say all. */
  readonly state: What | null;
  /** What of it does not fit, and why; empty where all does. */
  readonly trouble: string;
  /** Steps and waits, none of which overlaps another; in order of time. */
  readonly bars: readonly PictureBar[];
  /** The window in which what is due may begin; it lies beside the bars. */
  readonly window: PictureBar | null;
}

/** Jobs as rows, or the steps of one job, over one axis of time. */
export interface BoardPicture {
  readonly now: number;
  /** IANA zone, whose hours and days the axis shows. */
  readonly zone: string;
  /** What is due next of all, or what the picture is of: largest, and first. */
  readonly headline: string;
  /** A line above it. */
  readonly title: string;
  /** What is to be said beneath it, without any row. */
  readonly lines: readonly string[];
  /** The first of what does not fit; empty where all does, or a row says it just beneath. */
  readonly trouble: string;
  readonly rows: readonly PictureRow[];
  /** When somebody is on shift; null where no shifts are kept. */
  readonly staffed: readonly TimeSpan[] | null;
  readonly nights: readonly TimeSpan[];
  /** Instants to be seen on the axis, each with the one word that it bears there. */
  readonly marks: readonly { readonly at: number; readonly word: string }[];
  /** `near-first`: what comes soon is drawn larger than what comes later. `even`: one scale. */
  readonly scale: 'near-first' | 'even';
}

/** Degrees are in the unit that is shown. */
export interface TemperaturePicture {
  readonly now: number;
  readonly zone: string;
  readonly title: string;
  readonly headline: string;
  /** "°C" or "°F". */
  readonly unit: string;
  readonly readings: readonly { readonly at: number; readonly degrees: number }[];
  /** How warm it was and will be, stretch after stretch; null where nobody can tell. */
  readonly course: readonly (TimeSpan & { readonly degrees: number; readonly read: boolean })[];
  /** What the materials at work are made for; null where nothing is at work. */
  readonly usable: { readonly from: number; readonly until: number; readonly words: string } | null;
  readonly nights: readonly TimeSpan[];
  /** Waits that the last reading moved: in words, and from when to when. */
  readonly moved: readonly { readonly words: string; readonly was: number | null; readonly is: number | null }[];
}

export interface CurePicture {
  readonly title: string;
  readonly headline: string;
  readonly waits: readonly {
    readonly name: string;
    /** When it is over. */
    readonly words: string;
    /** How much of it is over, 0 to 100; null where no clock can tell. */
    readonly sharePercent: number | null;
    readonly state: What;
  }[];
}
