import type { Answer, Tone } from '../../../chat/card.ts';
import { isRefusal } from '../../../words/refusal.ts';

/**
 * The word says it; the colour only says it again. Colours of Okabe and Ito, "Color Universal Design" (2008), which people
 * with any colour vision tell apart: bluish green 009E73, orange E69F00, vermillion D55E00.
 */
const TONES: Readonly<Record<Tone | 'no', { word: string; accent: number | undefined }>> = {
  calm: { word: '', accent: undefined },
  go: { word: 'GO', accent: 0x009e73 },
  soon: { word: 'SOON', accent: 0xe69f00 },
  late: { word: 'LATE', accent: 0xd55e00 },
  no: { word: 'NO', accent: 0xe69f00 },
};

/** The state as a word, empty where all is quiet, and as a colour. */
export const toneOf = (answer: Answer) => TONES[isRefusal(answer) ? 'no' : answer.tone];
