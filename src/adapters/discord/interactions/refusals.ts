import { Refusal } from '../../../words/refusal.ts';
import { say, code as typeable } from '../../../words/text.ts';

/** What the platform's side itself says no to; the commands have refusals of their own. */

export const broken = () =>
  new Refusal(
    'internal',
    say`Something broke in the program, and the details went to its log. As far as is known nothing was stored. Look before you try again.`,
    { example: '/board' },
  );

export const unshown = () =>
  new Refusal(
    'not-shown',
    say`The answer could not be shown here; the details went to the log. What you asked for may have been done. Look before you try again.`,
    { example: '/board' },
  );

export const onlyInServers = () =>
  new Refusal('not-in-a-server', say`Coatbell works in a server’s channel, where the bench is. Ask there.`, { example: '/help' });

export const otherVersion = () =>
  new Refusal('other-version', say`This button is from another version. /board shows what can be done.`, { example: '/board' });

export const otherChannel = () =>
  new Refusal(
    'other-channel',
    say`This button belongs to another channel, so nothing was done. /board shows what can be done here.`,
    {
      example: '/board',
    },
  );

export const notKept = () =>
  new Refusal('not-kept', say`What this button meant is no longer kept. /board shows what can be done.`, { example: '/board' });

export const pressAgain = () => new Refusal('too-slow', say`The form could not be opened in time. Press the button once more.`);

export const nothingToAsk = (command: string) =>
  new Refusal('nothing-to-ask', say`This button is from another version. Type the command.`, {
    example: `/help topic:${command}`,
  });

export const filesWaiting = () =>
  new Refusal('files-waiting', say`Many files wait to be read before this one, so nothing was done. Ask again in a few minutes.`);

export const unknownPerson = (typed: string, example: string | null) =>
  new Refusal(
    'unknown-person',
    say`Expected people of this server, got “${shortened(typed)}”, whom I do not know, or not alone by that name. Type @ and pick the name.`,
    example === null ? {} : { example },
  );

/** A form closes when it is sent off, and a command leaves the line; what was typed there must not be lost with it. */
export const withTyped = ({ code, message, example, ways }: Refusal, line: string): Refusal =>
  new Refusal(code, say`${message}\nYou typed: ${typeable(line)}`, {
    ...(example === undefined ? {} : { example }),
    ways,
  });

const shortened = (text: string) => (text.length > 80 ? `${text.slice(0, 79)}…` : text);
