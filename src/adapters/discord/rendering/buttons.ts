import { ButtonStyle, ComponentType } from 'discord.js';
import type { APIButtonComponentWithCustomId } from 'discord-api-types/v10';
import type { Way } from '../../../words/refusal.ts';
import { cut, onOneLine } from './escape.ts';
import { MOST_ID, pressId } from './press.ts';

const MOST_LABEL = 80;

/** The buttons, each with all that it means in its id, and the ways for which there is no room in one. */
export function buttonsFor(
  ways: readonly Way[],
  { bench, room, go }: { bench: string; room: ((way: Way) => string) | undefined; go: boolean },
): { buttons: APIButtonComponentWithCustomId[]; unfit: Way[] } {
  const buttons: APIButtonComponentWithCustomId[] = [];
  const unfit: Way[] = [];
  const ids = new Set<string>();
  for (const way of ways) {
    const id = pressId(way, bench) ?? room?.(way) ?? '';
    if (id === '' || id.length > MOST_ID) unfit.push(way);
    else if (!ids.has(id)) {
      // The likeliest stands first, and stands out.
      const style = buttons.length > 0 ? ButtonStyle.Secondary : go ? ButtonStyle.Success : ButtonStyle.Primary;
      buttons.push({ type: ComponentType.Button, style, label: labelOf(way), custom_id: id });
    }
    ids.add(id);
  }
  return { buttons, unfit };
}

const labelOf = ({ label, command }: Way): string => cut(onOneLine(label).trim() || onOneLine(`/${command}`), MOST_LABEL);
