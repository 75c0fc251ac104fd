import type { Entry } from './declaration.ts';

/** What the chat platform accepts of a command. */
export const LIMITS = {
  commands: 100,
  parts: 25,
  options: 25,
  choices: 25,
  description: 100,
  choice: 100,
  /** Names, descriptions and choices of one command with all its parts. */
  characters: 8000,
  /** The longest value of a text option. */
  value: 6000,
  name: /^[-_'\p{L}\p{N}]{1,32}$/u,
} as const;

/** Every way in which the commands break a limit, each naming its command and option. */
export function overLimits(entries: readonly Entry<never>[]): string[] {
  const faults: string[] = [];
  const atMost = (where: string, what: string, count: number, most: number) => {
    if (count > most) faults.push(`${where}: ${count} ${what}, the most are ${most}`);
  };
  const named = (where: string, name: string, about: string) => {
    if (!LIMITS.name.test(name) || name !== name.toLowerCase())
      faults.push(`${where}: the name must be 1 to 32 lower-case letters, digits, hyphens or underscores`);
    if (about.trim() === '') faults.push(`${where}: it lacks a description`);
    atMost(where, 'characters of description', about.length, LIMITS.description);
    return name.length + about.length;
  };

  atMost('all together', 'commands', entries.length, LIMITS.commands);
  for (const entry of entries) {
    let characters = named(`/${entry.name}`, entry.name, entry.summary);
    if (entry.grouped) atMost(`/${entry.name}`, 'subcommands', entry.declarations.length, LIMITS.parts);
    for (const { path, part, summary, options } of entry.declarations) {
      if (entry.grouped) characters += named(`/${path}`, part, summary);
      atMost(`/${path}`, 'options', options.length, LIMITS.options);
      for (const option of options) {
        const where = `/${path}, option ${option.name}`;
        characters += named(where, option.name, option.about);
        if (option.least !== undefined && option.most !== undefined && option.least > option.most)
          faults.push(`${where}: the least is ${option.least}, the most only ${option.most}`);
        atMost(where, 'choices', option.choices.length, LIMITS.choices);
        for (const choice of option.choices) {
          atMost(`${where}, choice ${choice}`, 'characters', choice.length, LIMITS.choice);
          if (choice.trim() === '') faults.push(`${where}: a choice is empty`);
          characters += 2 * choice.length; // once as the name, once as the value
        }
      }
    }
    atMost(`/${entry.name}`, 'characters in all', characters, LIMITS.characters);
  }
  return faults;
}
