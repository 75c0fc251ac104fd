import type { Report } from './checks.ts';
import { isRecord, pieces } from './pieces.ts';

const textOf = (value: unknown): string => (typeof value === 'string' ? value : '');

/** Checks a modal: title, its inputs and all their limits. */
export function checkModal(data: unknown, report: Report): void {
  if (!isRecord(data)) {
    report('a modal without data');
    return;
  }
  const limit = (what: string, value: unknown, least: number, most: number) => {
    const { length } = textOf(value);
    if (length < least || length > most) report(`${what} of a modal has ${length} characters`);
  };
  limit('the title', data['title'], 1, 45);
  limit('the custom_id', data['custom_id'], 1, 100);
  const rows = Array.isArray(data['components']) ? data['components'] : [];
  if (rows.length < 1 || rows.length > 5) report(`a modal with ${rows.length} inputs`);
  const seen = new Set<unknown>();
  for (const piece of pieces(rows)) {
    if (piece.type === 18) limit('a label', piece['label'], 1, 45);
    if (piece['custom_id'] !== undefined) {
      limit('a custom_id', piece['custom_id'], 1, 100);
      if (seen.has(piece['custom_id'])) report(`custom_id ${String(piece['custom_id'])} stands twice in a modal`);
      seen.add(piece['custom_id']);
    }
    if (piece.type !== 4) continue;
    // In a row the input carries its label itself; in a label component it must not.
    if (piece['label'] !== undefined) limit('an input label', piece['label'], 1, 45);
    limit('a placeholder', piece['placeholder'], 0, 100);
    const most = Number(piece['max_length'] ?? 4000);
    const least = Number(piece['min_length'] ?? 0);
    if (!(most >= 1 && most <= 4000)) report(`max_length ${most} in a modal`);
    if (!(least >= 0 && least <= most)) report(`min_length ${least} in a modal`);
    limit('a prefilled value', piece['value'], 0, most);
    if (piece['style'] !== 1 && piece['style'] !== 2) report('an input without style');
  }
}

/** Checks what completion offers. */
export function checkChoices(data: unknown, report: Report): void {
  const choices = isRecord(data) && Array.isArray(data['choices']) ? data['choices'] : undefined;
  if (choices === undefined) {
    report('completion without choices');
    return;
  }
  if (choices.length > 25) report(`${choices.length} choices`);
  for (const choice of choices) checkChoice(choice, report);
}

export function checkChoice(choice: unknown, report: Report): void {
  if (!isRecord(choice)) {
    report('a choice that is no object');
    return;
  }
  const name = textOf(choice['name']);
  if (name.length < 1 || name.length > 100) report(`a choice whose name has ${name.length} characters`);
  const { value } = choice;
  if (typeof value === 'string' ? value.length > 100 : typeof value !== 'number') report('a choice with an impossible value');
}
