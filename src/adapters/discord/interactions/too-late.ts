import { card } from '../../../chat/card.ts';
import { clock, person, say } from '../../../words/text.ts';
import type { PlatformMessage } from '../rendering/message.ts';
import { rendered } from '../sending/sender.ts';
import type { People } from './people.ts';
import type { Asker, Tools } from './working.ts';

/** What the channel is told when something was heard so late that the platform takes no answer to it any more. */
export async function tooLate(
  { server, bench, who }: Asker,
  askedAt: number,
  { office, studios, records, people }: Pick<Tools, 'office' | 'studios' | 'records'> & { people: People },
): Promise<PlatformMessage> {
  const told = card(
    say`Not done: it reached me too late`,
    [
      say`${person(who)}: what you asked for at ${clock(askedAt)} came too late to be answered, so nothing was changed. Ask again.`,
    ],
    { to: [who], tone: 'soon' },
  );
  const { zone } = await studios.house(server).studio();
  const names = (house: string, id: string) => people.name(house, id);
  return rendered(told, { server, bench, now: office.clock.now(), zone, kind: 'reply' }, { records, names });
}
