import type { APIInteractionGuildMember, GuildMember, Interaction, User } from 'discord.js';
import type { Called, People } from './people.ts';

type Member = GuildMember | APIInteractionGuildMember | { nick?: string | null } | null | undefined;

const called = ({ globalName, username }: User, member: Member): Called => ({ nick: nickOf(member), globalName, username });

function nickOf(member: Member): string | null | undefined {
  if (!member) return undefined;
  return 'nickname' in member ? member.nickname : member.nick;
}

/** Every interaction says what whoever made it is called, and those whom it names. Bots are nobody to hand a job to. */
export function learnFrom(interaction: Interaction, people: People): void {
  const { guildId, user, member } = interaction;
  if (guildId === null) return;
  people.learn(guildId, user.id, called(user, member));
  if (!interaction.isChatInputCommand()) return;
  const { users, members, roles } = interaction.options.resolved ?? {};
  for (const [id, each] of users ?? []) if (!each.bot) people.learn(guildId, id, called(each, members?.get(id)));
  for (const [id, role] of roles ?? []) if (role) people.learn(guildId, `&${id}`, { username: role.name });
}
