import { checkChoice } from './check-forms.ts';
import type { Report } from './checks.ts';
import { isRecord } from './pieces.ts';

const NAME = /^[-_'\p{L}\p{N}]{1,32}$/u;
const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);
const lengthOf = (value: unknown): number => (typeof value === 'string' ? value.length : 0);

/** Checks a bulk registration as a whole. */
export function checkCommands(body: unknown, report: Report): void {
  if (!Array.isArray(body)) {
    report('a registration that is no list');
    return;
  }
  if (body.length > 100) report(`${body.length} commands`);
  const names = body.filter(isRecord).map(({ name }) => name);
  if (new Set(names).size < names.length) report('two commands of one name');
  for (const command of body) checkCommand(command, report);
}

function checkCommand(command: unknown, report: Report): void {
  if (!isRecord(command)) {
    report('a command that is no object');
    return;
  }
  const where = `/${String(command['name'])}`;
  const permissions = command['default_member_permissions'];
  if (permissions !== undefined && permissions !== null && !(typeof permissions === 'string' && /^\d+$/.test(permissions)))
    report(`${where}: default_member_permissions is no number in a string`);
  const characters = checkNamed(command, where, report);
  if (characters > 8000) report(`${where}: ${characters} characters in all`);
}

/** Checks a command or an option with all that stands in it, and counts its characters. */
function checkNamed(named: Record<string, unknown>, where: string, report: Report): number {
  const name = String(named['name']);
  if (!NAME.test(name) || name !== name.toLowerCase()) report(`${where}: an impossible name`);
  const about = lengthOf(named['description']);
  if (about < 1 || about > 100) report(`${where}: a description of ${about} characters`);
  let characters = name.length + about;
  const choices = listOf(named['choices']);
  if (choices.length > 25) report(`${where}: ${choices.length} choices`);
  if (choices.length > 0 && named['autocomplete'] === true) report(`${where}: choices and completion`);
  for (const choice of choices) {
    checkChoice(choice, (fault) => report(`${where}: ${fault}`));
    if (isRecord(choice)) characters += lengthOf(choice['name']) + lengthOf(choice['value']);
  }
  const options = listOf(named['options']).filter(isRecord);
  if (options.length > 25) report(`${where}: ${options.length} options`);
  const kinds = new Set(options.map(({ type }) => Number(type) <= 2));
  if (kinds.size > 1) report(`${where}: options beside subcommands`);
  let optional = false;
  for (const option of options) {
    if (option['required'] === true && optional) report(`${where}: the required ${String(option['name'])} after an optional one`);
    if (option['required'] !== true) optional = true;
    characters += checkNamed(option, `${where} ${String(option['name'])}`, report);
  }
  return characters;
}
