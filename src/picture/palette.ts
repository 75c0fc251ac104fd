/**
 * The panel is opaque and dark, so that a picture looks the same in dark and in light chats, and every colour of the set stands
 * out on it. Colours: Okabe and Ito, "Color Universal Design" (2008), told apart with any colour vision; what is over, or only
 * passes, is grey. State is a word and a pattern first, so that it is also told without any colour.
 */
export const PANEL = '#17191d';
export const TEXT = '#f5f5f5';
export const QUIET_TEXT = '#c3c8d0';
/** Text on a solid bar. */
export const DARK_TEXT = '#0c0d0f';
export const DAY = '#2e323a';
export const NIGHT = '#090a0c';
export const GRID = '#5b616b';
/** Marks when nobody is on shift. */
export const RAIL = '#9ba2ac';
export const NOW = '#ffffff';
export const SKY_BLUE = '#56b4e9';
export const BLUISH_GREEN = '#009e73';
export const ORANGE = '#e69f00';
const YELLOW = '#f0e442';
const VERMILLION = '#d55e00';
const REDDISH_PURPLE = '#cc79a7';
const GREY = '#c3c8d0';

/** `framed`: solid within a white edge. `thread`: a dashed line alone, so that work stands out between waits. `outline`: an edge alone. `struck`: crossed out. */
export type Pattern =
  | 'solid'
  | 'framed'
  | 'thread'
  | 'hatch'
  | 'back-hatch'
  | 'cross'
  | 'level'
  | 'upright'
  | 'zigzag'
  | 'outline'
  | 'struck';

/** What a bar can be: steps, and what lies between them. */
export type What = 'done' | 'hands' | 'go' | 'begun' | 'wait' | 'window' | 'missed' | 'held' | 'touch' | 'unfit' | 'earliest';

export interface Look {
  /** As the legend says it. */
  readonly word: string;
  readonly colour: string;
  readonly pattern: Pattern;
}

export const LOOKS: Readonly<Record<What, Look>> = {
  go: { word: 'can go on now', colour: BLUISH_GREEN, pattern: 'framed' },
  begun: { word: 'at work', colour: YELLOW, pattern: 'upright' },
  unfit: { word: 'does not fit', colour: VERMILLION, pattern: 'struck' },
  missed: { word: 'window missed', colour: VERMILLION, pattern: 'cross' },
  touch: { word: 'touch it', colour: ORANGE, pattern: 'zigzag' },
  held: { word: 'on hold', colour: REDDISH_PURPLE, pattern: 'back-hatch' },
  hands: { word: 'to come', colour: SKY_BLUE, pattern: 'solid' },
  earliest: { word: 'earliest, not planned', colour: SKY_BLUE, pattern: 'outline' },
  window: { word: 'may begin', colour: BLUISH_GREEN, pattern: 'hatch' },
  wait: { word: 'wait', colour: GREY, pattern: 'thread' },
  done: { word: 'done', colour: GREY, pattern: 'level' },
};
