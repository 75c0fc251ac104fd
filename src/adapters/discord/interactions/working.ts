import { type BaseInteraction, PermissionFlagsBits } from 'discord.js';
import type { Bench } from '../../../bench/bench.ts';
import type { Studios } from '../../../bench/studios.ts';
import type { Answer } from '../../../chat/card.ts';
import { parseCall } from '../../../chat/parse.ts';
import type { Desk, Files } from '../../../desk/desk.ts';
import { deskAt, type Office, run } from '../../../desk/office.ts';
import { isRefusal, type Refusal } from '../../../words/refusal.ts';
import type { Observer } from '../observer.ts';
import { messageOf, type PlatformMessage } from '../rendering/message.ts';
import type { Records } from '../sending/records.ts';
import { rendered } from '../sending/sender.ts';
import type { Worked } from './answering.ts';
import { type Asked, carriesFile, typedLine, withPeople } from './asked.ts';
import type { OneByOne } from './one-by-one.ts';
import type { People } from './people.ts';
import type { Places } from './place.ts';
import { broken, filesWaiting, onlyInServers, unshown, withTyped } from './refusals.ts';

/** What working off takes. */
export interface Tools {
  readonly office: Office;
  readonly studios: Studios;
  readonly records: Records;
  readonly people: People;
  readonly places: Places;
  readonly observer: Observer;
  readonly files: Files;
  /** What is asked for with a file waits for its turn here. */
  readonly reading: OneByOne;
}

/** Who asks, and at which bench. */
export interface Asker {
  readonly server: string;
  readonly bench: string;
  readonly who: string;
  readonly manages: boolean;
}

/** Null for what was not said in a channel of a server. Never rejects. */
export async function askerOf(interaction: BaseInteraction, { places }: Tools): Promise<Asker | null> {
  const { guildId, user, memberPermissions } = interaction;
  const bench = await places.benchOf(interaction);
  if (guildId === null || bench === undefined) return null;
  const manages = memberPermissions?.has(PermissionFlagsBits.ManageGuild) ?? false;
  return { server: guildId, bench, who: user.id, manages };
}

export const deskFor = ({ server, bench, who }: Asker, { office, studios, files }: Tools): Promise<Desk> =>
  deskAt(office, { house: studios.house(server), channel: bench, who, files });

/** What was asked for and what came of it, ready to be shown. */
export interface Done extends Worked {
  readonly answer: Answer;
  /** A command's path, for those who count. */
  readonly command: string;
  readonly how: 'answered' | 'refused' | 'broken';
  /** Something was run, which may have made something due. */
  readonly bench: Bench | null;
}

export interface Request {
  /** Null for what was not said in a channel of a server. */
  readonly asker: Asker | null;
  readonly asked: Asked | Refusal;
  /** It was typed into a form, which is gone now. */
  readonly fromForm?: boolean;
}

/** So many names are tried for an example, beside that of whoever asks. */
const MOST_NAMED = 8;

/** So long the platform may be asked who is who. */
const MOST_ASKING_MS = 1500;

const howOf = (answer: Answer): Done['how'] =>
  !isRefusal(answer) ? 'answered' : answer.code === broken().code ? 'broken' : 'refused';

/** Works off what was asked, and makes its answer ready to be shown. Never rejects. */
export async function worked({ asker, asked, fromForm = false }: Request, tools: Tools): Promise<Done> {
  const { office, people, records, observer, reading } = tools;
  const path = isRefusal(asked) ? 'unknown' : (office.commands.declarations.get(asked.command)?.path ?? 'unknown');
  let zone = 'Etc/UTC';
  const names = (server: string, id: string) => people.name(server, id);
  const show = (answer: Answer) => {
    const { server, bench } = asker ?? { server: '', bench: '' };
    return rendered(answer, { server, bench, now: office.clock.now(), zone, kind: 'reply' }, { records, names });
  };
  /** Without names, and without anything to keep: this cannot fail. */
  const bare = (refusal: Refusal) =>
    messageOf(refusal, { bench: asker?.bench ?? '', now: office.clock.now(), zone, kind: 'reply' });
  const done = (answer: Answer, message: PlatformMessage, more: Pick<Done, 'how' | 'bench'>): Done => ({
    ...more,
    answer,
    message,
    command: path,
    aloud:
      isRefusal(answer) || answer.aside || asker === null
        ? null
        : () => show({ ...answer, to: [...new Set([asker.who, ...answer.to])] }),
    instead: () => bare(unshown()),
  });
  const no = (refusal: Refusal, how: Done['how'] = 'refused') => done(refusal, bare(refusal), { how, bench: null });

  if (asker === null) return no(onlyInServers());
  // It needs nothing that would have to be read, and may be in a hurry.
  if (isRefusal(asked)) return no(asked, howOf(asked));
  let bench: Bench | null = null;
  const declared = office.commands.declarations.get(asked.command)?.options ?? [];
  const line = typedLine({ ...asked, typed: asked.typed || fromForm }, declared);
  const kept = (refusal: Refusal) => (line === null ? refusal : withTyped(refusal, line));
  try {
    const now = async () => {
      const desk = await deskFor(asker, tools);
      zone = desk.studio.zone;
      return ranAt(desk, asked, { asker, people, running: () => (bench = desk.bench) });
    };
    const ran = carriesFile(asked, declared) ? ((await reading.inTurn(now)) ?? filesWaiting()) : await now();
    const answer = isRefusal(ran) ? kept(ran) : ran;
    const message = await show(answer).catch((error: unknown) => {
      observer.trouble(path, error);
      return bare(unshown());
    });
    return done(answer, message, { how: howOf(answer), bench });
  } catch (error) {
    observer.trouble(path, error);
    // It may have been stored all the same, and then something may be due.
    return { ...no(kept(broken()), 'broken'), bench };
  }
}

async function ranAt(
  desk: Desk,
  asked: Asked,
  { asker, people, running }: { asker: Asker; people: People; running: () => void },
): Promise<Answer> {
  const declared = desk.commands.declarations.get(asked.command)?.options ?? [];
  const { server, who } = asker;
  const names = () => {
    // Rather somebody else than whoever asks: what takes people is mostly for others.
    const others = people.known(server).filter((id) => id !== who && !id.startsWith('&'));
    return [...others.slice(0, MOST_NAMED), who].flatMap((id) => people.name(server, id) ?? []);
  };
  const until = performance.now() + MOST_ASKING_MS;
  const named = await withPeople(asked, declared, {
    find: (name) => people.find(server, name),
    // Each may cost a question to the platform; all of them together must not cost the answer.
    here: async (id) => performance.now() > until || people.isHere(server, id),
    names,
  });
  if (isRefusal(named)) return named;
  const call = parseCall(desk.commands, { command: named.command, options: named.options });
  if (!isRefusal(call)) running();
  return run(call, desk, asker);
}
