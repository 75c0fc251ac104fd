import type { APIApplicationCommandOption, RESTPostAPIChatInputApplicationCommandsJSONBody } from 'discord-api-types/v10';
import { LIMITS } from '../../../chat/limits.ts';

type Body = RESTPostAPIChatInputApplicationCommandsJSONBody;
type Tell = (fault: string) => void;

/** Every way in which the bodies, as they would be sent, break a limit of the platform; each names command and option. */
export function bodyFaults(bodies: readonly Body[]): string[] {
  const faults: string[] = [];
  const tell = (fault: string) => void faults.push(fault);
  if (bodies.length > LIMITS.commands) tell(`${bodies.length} commands, the most are ${LIMITS.commands}`);
  const names = bodies.map(({ name }) => name);
  for (const name of new Set(names.filter((each, index) => names.indexOf(each) !== index))) tell(`/${name}: declared twice`);
  for (const body of bodies) {
    const characters = named(`/${body.name}`, body, tell) + options(`/${body.name}`, body.options ?? [], tell);
    if (characters > LIMITS.characters) tell(`/${body.name}: ${characters} characters, the most are ${LIMITS.characters}`);
  }
  return faults;
}

function named(where: string, { name, description }: { name: string; description: string }, tell: Tell): number {
  if (!LIMITS.name.test(name) || name !== name.toLowerCase()) tell(`${where}: the platform takes no such name`);
  if (description === '' || description.length > LIMITS.description)
    tell(`${where}: a description of ${description.length} characters, it must have 1 to ${LIMITS.description}`);
  return name.length + description.length;
}

/** Checks a command's or subcommand's options; gives their characters. */
function options(path: string, list: readonly APIApplicationCommandOption[], tell: Tell): number {
  if (list.length > LIMITS.options) tell(`${path}: ${list.length} options, the most are ${LIMITS.options}`);
  let characters = 0;
  let optional = false;
  for (const option of list) {
    const part = option.type === 1 || option.type === 2;
    const where = part ? `${path} ${option.name}` : `${path}, option ${option.name}`;
    characters += named(where, option, tell);
    if (!part && option.required === true && optional) tell(`${where}: it is required and stands after one that is not`);
    if (!part && option.required !== true) optional = true;
    if ('options' in option) characters += options(where, option.options ?? [], tell);
    if ('choices' in option) characters += choices(where, option.choices ?? [], tell);
  }
  return characters;
}

function choices(where: string, list: readonly { name: string; value: string | number }[], tell: Tell): number {
  if (list.length > LIMITS.choices) tell(`${where}: ${list.length} choices, the most are ${LIMITS.choices}`);
  let characters = 0;
  for (const { name, value } of list) {
    for (const text of [name, String(value)]) {
      if (text === '' || text.length > LIMITS.choice) tell(`${where}: a choice of ${text.length} characters`);
      characters += text.length;
    }
  }
  return characters;
}
