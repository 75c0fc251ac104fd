import { type Answer, card } from '../../chat/card.ts';
import type { Field } from '../../chat/declaration.ts';
import { writeLine } from '../../chat/line.ts';
import type { Desk } from '../../desk/desk.ts';
import { isRefusal, Refusal, type Way } from '../../words/refusal.ts';
import { code, plain, say, strong } from '../../words/text.ts';

/** A terminal has no forms: the line is given that is to be typed, with an example for each value that is asked for. */
export function asking(way: Way, desk: Desk): Answer {
  const form = desk.commands.declarations.get(way.command)?.form?.(way.options, desk);
  if (form === undefined)
    return new Refusal('nothing-to-ask', say`This button is of another version. Type the command.`, {
      example: `/help topic:${way.command}`,
    });
  if (isRefusal(form)) return form;
  const examples: Record<string, string> = {};
  for (const { option, example, suffix = '' } of form.fields satisfies readonly Field[])
    examples[option] = [...(examples[option] === undefined ? [] : [examples[option]]), `${example} ${suffix}`.trim()].join(', ');
  return card(
    say`${plain(form.title)}`,
    [say`Type it, for example: ${strong(code(writeLine(way.command, { ...way.options, ...examples })))}`],
    { aside: true },
  );
}
