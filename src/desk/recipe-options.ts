import { text, typed, whole } from '../chat/options.ts';
import { MOST_LINE, MOST_NAME } from '../job/recipe-checks.ts';
import { parseHands, parseThickness, parseWait } from '../job/recipe-readers.ts';
import { Refusal } from '../words/refusal.ts';
import { plain, say } from '../words/text.ts';
import { kept } from './examples.ts';

/** One line, as it stands on a card; "none" does away with it. Refusal: `too-long`. */
const cardLine = (typedText: string): string | null | Refusal => {
  const words = typedText.trim().replace(/\s+/g, ' ');
  if (/^(?:none|no|nothing|-)\.?$/i.test(words)) return null;
  return shortEnough(words, MOST_LINE);
};

/** What something is called. Refusals: `too-long`, `name-missing`. */
const called = (typedText: string): string | Refusal => {
  const words = typedText.trim().replace(/\s+/g, ' ');
  if (!/[\p{L}\p{N}]/u.test(words))
    return new Refusal('name-missing', say`I expected a name with letters or digits in it, and got “${typedText}”.`, {
      example: 'Second wax',
    });
  return shortEnough(words, MOST_NAME);
};

function shortEnough(words: string, most: number): string | Refusal {
  const letters = [...words];
  if (letters.length <= most) return words;
  return new Refusal('too-long', say`I expected at most ${plain(String(most))} characters, and got ${letters.length}.`, {
    example: letters
      .slice(0, most)
      .join('')
      .replace(/\s+\S*$/, ''),
  });
}

export const which = text({ about: 'Which recipe: its id or its name', complete: 'recipe' });
export const whichStep = text({ about: 'Which step: its id, its number or its title', complete: 'recipe-step' });
export const meant = whole({ least: 1, about: 'Only if it still is this version; left out, the newest' }).optional();
export const afterStep = text({ about: 'The step before it, or start', complete: 'recipe-step' });
export const name = (about: string) => typed(kept(called), { about, free: true, emptied: 'Second wax' });

export const hands = typed(kept(parseHands), { about: 'Hands-on time: 15 min', emptied: '25 min' });
export const wait = typed(kept(parseWait), {
  about: 'Before the next step: recoat, cure, none, 15 min, or 15 min to 4 h',
  emptied: '25 min',
});
export const thickness = typed(kept(parseThickness), {
  about: 'Of its layer: 0.8 mm, 0.7 x (times the usual coat), block 12 mm, or none',
  emptied: '1.2 x',
});
export const check = typed(kept(cardLine), {
  about: 'What must be true before the next step begins; none takes it away',
  free: true,
  emptied: 'tacky, nothing on the glove',
});
export const advice = typed(kept(cardLine), {
  about: 'What to have in mind while doing it; none takes it away',
  free: true,
  emptied: 'small cups',
});
/** What a recipe is for. */
export const summary = typed((typedText: string) => kept((words) => cardLine(words) ?? called(''))(typedText), {
  about: 'A line that says what it is for',
  free: true,
  emptied: 'What we do for busts.',
});
