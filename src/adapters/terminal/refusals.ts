import { writeLine } from '../../chat/line.ts';
import { named, nearest } from '../../words/nearest.ts';
import { Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';

/** What the local chat itself says no to; the commands have refusals of their own. */

/** `mix`: the options of a mix that it seems to ask for, or null. */
export function notACommand(
  text: string,
  lines: ReadonlyMap<string, string>,
  mix: Readonly<Record<string, string>> | null = null,
): Refusal {
  const [word = ''] = text.split(/\s/, 1);
  const meant = named(word, lines.keys());
  if (mix !== null && (meant === undefined || meant === 'mix'))
    return new Refusal('not-a-command', say`Expected a command, which begins with a slash. Got “${shortened(text)}”.`, {
      example: writeLine('mix', mix),
      ways: [{ label: `Mix ${mix['material'] ?? ''}`.slice(0, 80), command: 'mix', options: mix }],
    });
  const close = meant ?? nearest(word, lines.keys())[0];
  const hint = close === undefined ? plain('/help lists them.') : plain(`Did you mean /${close}?`);
  return new Refusal('not-a-command', say`Expected a command, which begins with a slash. Got “${shortened(text)}”. ${hint}`, {
    example: meant === undefined ? (lines.get(close ?? '') ?? '/help') : `/${shortened(text)}`,
  });
}

export function noSuchButton(label: string, labels: readonly (readonly string[])[]): Refusal {
  const [newest = []] = labels;
  const list = newest.length === 0 ? 'There is none here yet.' : `The newest are ${newest.map((each) => `[${each}]`).join(' ')}.`;
  const [close] = nearest(label, new Set(labels.flat()));
  const hint = plain(close === undefined ? list : `${list} Did you mean [${close}]?`);
  const example = close ?? newest[0];
  return new Refusal('no-such-button', say`There is no button “${shortened(label)}” in this channel. ${hint}`, {
    ...(example === undefined ? {} : { example: `[${example}]` }),
  });
}

export const clockIsReal = () =>
  new Refusal('clock-is-real', say`The clock is the real one and moves by itself. One that you can move comes with --at.`, {
    example: 'npm start --silent -- chat --at 2026-03-02T08:00 --zone Europe/Berlin',
  });

export const notASpan = (typed: string) =>
  new Refusal('not-a-span', say`Expected how far the clock should go, at most 400 days. Got “${shortened(typed)}”.`, {
    example: '+40m, +2h30m or +until 07:30',
  });

export const notAWallClock = (typed: string) =>
  new Refusal('not-a-wall-clock', say`Expected the time that the clock should go on to. Got “${shortened(typed)}”.`, {
    example: '+until 07:30',
  });

export const broken = () =>
  new Refusal(
    'internal',
    say`Something broke in the program, and the details went to its error output. As far as is known nothing was stored. Look before you try again.`,
    { example: '/job list' },
  );

const shortened = (text: string) => (text.length > 80 ? `${text.slice(0, 79)}…` : text);
