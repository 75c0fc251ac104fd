import type { APIApplicationCommand, RESTPutAPIApplicationCommandsJSONBody } from 'discord-api-types/v10';
import { checkCommands } from './check-commands.ts';
import { checkDescribed } from './described.ts';
import { application } from './fixtures.ts';
import { invalidBody } from './refused.ts';
import { type Call, ok, type Reply, type Route, type Scene } from './routes.ts';
import { snowflake } from './snowflakes.ts';
import type { World } from './world.ts';

/** Logging in, who the bot is, and which commands it has. */
export function applicationRoutes({ world, settings, socketUrl }: Scene): Route[] {
  const me = () => ok(application(world));
  const put = (scope: (call: Call) => string) => (call: Call) => {
    checkCommands(call.body, call.report);
    if (!Array.isArray(call.body)) throw invalidBody();
    for (const command of call.body) checkDescribed('command', command, call.report);
    return ok(storeCommands(world, scope(call), call.body));
  };
  const get =
    (scope: (call: Call) => string) =>
    (call: Call): Reply =>
      ok(world.commands.get(scope(call)) ?? []);
  const everywhere = () => 'global';
  const one = (call: Call) => world.server(call.param('guild')).id;
  return [
    { method: 'GET', path: '/gateway', run: () => ok({ url: socketUrl() }) },
    {
      method: 'GET',
      path: '/gateway/bot',
      run: () =>
        ok({
          url: socketUrl(),
          shards: settings.shards,
          session_start_limit: { total: 1000, remaining: 999, reset_after: 86_400_000, max_concurrency: 16 },
        }),
    },
    { method: 'GET', path: '/users/@me', run: () => ok(world.bot) },
    { method: 'GET', path: '/applications/@me', run: me },
    { method: 'GET', path: '/oauth2/applications/@me', run: me },
    { method: 'PUT', path: '/applications/:application/commands', run: put(everywhere) },
    { method: 'GET', path: '/applications/:application/commands', run: get(everywhere) },
    { method: 'PUT', path: '/applications/:application/guilds/:guild/commands', run: put(one) },
    { method: 'GET', path: '/applications/:application/guilds/:guild/commands', run: get(one) },
  ];
}

/** Replaces all commands of a scope. One that keeps its name keeps its id. */
export function storeCommands(
  world: World,
  scope: string,
  body: RESTPutAPIApplicationCommandsJSONBody,
): readonly APIApplicationCommand[] {
  const before = world.commands.get(scope) ?? [];
  const stored = body.map(
    (command) =>
      ({
        default_member_permissions: null,
        type: 1,
        ...command,
        id: before.find(({ name }) => name === command.name)?.id ?? snowflake(),
        application_id: world.applicationId,
        version: snowflake(),
        ...(scope === 'global' ? {} : { guild_id: scope }),
      }) as APIApplicationCommand,
  );
  world.commands.set(scope, stored);
  return stored;
}
