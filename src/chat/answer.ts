import { isRefusal, type Way } from '../words/refusal.ts';
import { code, say, type Text } from '../words/text.ts';
import type { Answer } from './card.ts';

/** A refusal has no title of its own; what matters most about it is that everything is as before. */
export const titleOf = (answer: Answer): Text => (isRefusal(answer) ? say`Nothing has changed` : answer.title);

export const linesOf = (answer: Answer): readonly Text[] =>
  isRefusal(answer)
    ? [answer.message, ...(answer.example === undefined ? [] : [say`For example: ${code(answer.example)}`])]
    : answer.lines;

export const buttonsOf = (answer: Answer): readonly Way[] => (isRefusal(answer) ? answer.ways : answer.buttons);
