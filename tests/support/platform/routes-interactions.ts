import { checkChoices, checkModal } from './check-forms.ts';
import { checkMessage } from './checks.ts';
import { checkDescribed } from './described.ts';
import type { Exchange } from './exchange.ts';
import { isTooMuch } from './multipart.ts';
import { isRecord } from './pieces.ts';
import { type MessageBody, Posted } from './posted.ts';
import {
  alreadyAcknowledged,
  invalidBody,
  type Refused,
  tokenExpired,
  tooLarge,
  unknownInteraction,
  unknownMessage,
  unknownWebhook,
} from './refused.ts';
import { type Call, nothing, ok, type Reply, type Route, type Scene } from './routes.ts';
import { bodyOf } from './routes-channels.ts';

/** Which answers fit which interaction: command, component, completion, modal. */
const FITTING: Readonly<Record<number, readonly number[]>> = { 2: [4, 5, 9], 3: [4, 5, 6, 7, 9], 4: [8], 5: [4, 5, 6, 7] };

/** Answers to interactions, and their messages afterwards. */
export function interactionRoutes(scene: Scene): Route[] {
  const webhook = '/webhooks/:application/:token';
  const message = `${webhook}/messages/:message`;
  return [
    { method: 'POST', path: '/interactions/:id/:token/callback', open: true, run: (call) => answer(scene, call) },
    { method: 'POST', path: webhook, open: true, run: (call) => followUp(scene, call) },
    { method: 'GET', path: message, open: true, run: (call) => ok(find(alive(scene, call), call).message) },
    { method: 'PATCH', path: message, open: true, run: (call) => edit(alive(scene, call), call) },
    {
      method: 'DELETE',
      path: message,
      open: true,
      run: (call) => {
        const exchange = alive(scene, call);
        const posted = find(exchange, call);
        posted.deleted = true;
        // To take an announcement away answers nothing yet.
        exchange.changed(!posted.loading);
        return nothing;
      },
    },
  ];
}

function refuse(exchange: Exchange, refused: Refused): never {
  exchange.rejected.push({ code: refused.code, afterMs: Date.now() - exchange.startedAt });
  exchange.changed(false);
  throw refused;
}

function answer(scene: Scene, call: Call): Reply {
  const exchange = scene.exchanges.get(call.param('token'));
  if (exchange === undefined || exchange.interaction.id !== call.param('id')) throw unknownInteraction();
  const afterMs = Date.now() - exchange.startedAt;
  if (exchange.callbacks.length > 0) refuse(exchange, alreadyAcknowledged());
  if (exchange.expired || afterMs > scene.settings.answerMs) refuse(exchange, unknownInteraction());
  const { body, files } = call;
  if (isTooMuch(files)) refuse(exchange, tooLarge());
  const type = isRecord(body) ? Number(body['type']) : Number.NaN;
  const data = isRecord(body) ? body['data'] : undefined;
  const fitting = FITTING[exchange.interaction.type]?.includes(type) && !((type === 6 || type === 7) && exchange.source === null);
  if (!fitting) {
    call.report(`an answer of type ${type} to an interaction of type ${exchange.interaction.type}`);
    refuse(exchange, invalidBody());
  }
  check(type, data, exchange, call);
  exchange.callbacks.push({ type, data, files, afterMs });
  if (type === 4 || type === 5) {
    exchange.original = post(scene, exchange, (isRecord(data) ? data : {}) as MessageBody, call);
    exchange.original.loading = type === 5;
  } else if (type === 6 || type === 7) {
    exchange.original = exchange.source;
    if (type === 7) exchange.source?.edit((isRecord(data) ? data : {}) as MessageBody, files);
  }
  exchange.changed(type !== 5 && type !== 6);
  return call.query.get('with_response') === 'true' ? ok(resultOf(exchange, type)) : nothing;
}

function check(type: number, data: unknown, { source }: Exchange, call: Call): void {
  if (type === 4) checkMessage(data, call.files, call.report);
  if (type === 7) checkMessage(data, call.files, call.report, source?.before);
  if (type === 8) checkChoices(data, call.report);
  if (type === 9) checkModal(data, call.report);
  const kind = type === 8 ? 'choices' : type === 9 ? 'modal' : type === 4 || type === 5 ? 'reply' : 'update';
  checkDescribed(kind, call.body, call.report);
}

function resultOf({ interaction, original }: Exchange, type: number): unknown {
  return {
    interaction: {
      id: interaction.id,
      type: interaction.type,
      ...(original === null
        ? {}
        : {
            response_message_id: original.id,
            response_message_loading: original.loading,
            response_message_ephemeral: original.aside,
          }),
    },
    resource: { type, ...(original === null ? {} : { message: original.message }) },
  };
}

/** The exchange of a webhook token. @throws Refused 10015 for an unknown token, 50027 for one that is too old */
function alive(scene: Scene, call: Call): Exchange {
  const exchange = scene.exchanges.get(call.param('token'));
  if (exchange === undefined || call.param('application') !== scene.world.applicationId) throw unknownWebhook();
  if (exchange.expired || Date.now() - exchange.startedAt > scene.settings.tokenMs) refuse(exchange, tokenExpired());
  return exchange;
}

function find(exchange: Exchange, call: Call): Posted {
  const id = call.param('message');
  const mine = [exchange.original, ...exchange.followUps].filter((one) => one !== null);
  const posted = id === '@original' ? exchange.original : mine.find((one) => one.id === id);
  if (!posted || posted.deleted) return refuse(exchange, unknownMessage());
  return posted;
}

function edit(exchange: Exchange, call: Call): Reply {
  const posted = find(exchange, call);
  if (isTooMuch(call.files)) refuse(exchange, tooLarge());
  checkMessage(call.body, call.files, call.report, posted.before);
  checkDescribed('webhookEdit', call.body, call.report);
  posted.edit(bodyOf(call), call.files);
  exchange.changed(true);
  return ok(posted.message);
}

function followUp(scene: Scene, call: Call): Reply {
  const exchange = alive(scene, call);
  if (exchange.callbacks.length === 0) refuse(exchange, unknownWebhook());
  if (isTooMuch(call.files)) refuse(exchange, tooLarge());
  checkMessage(call.body, call.files, call.report);
  checkDescribed('webhookExecute', call.body, call.report);
  const posted = post(scene, exchange, bodyOf(call), call);
  exchange.followUps.push(posted);
  exchange.changed(true);
  return call.query.get('wait') === 'true' ? ok(posted.message) : nothing;
}

function post({ world, filesUrl }: Scene, exchange: Exchange, body: MessageBody, { files }: Call): Posted {
  const { interaction, user, room, source } = exchange;
  const owners = { authorizing_integration_owners: interaction.authorizing_integration_owners };
  const origin = { id: interaction.id, user: user.user, ...owners };
  const posted = new Posted(room.id, world.bot, body, files, filesUrl(), {
    application_id: world.applicationId,
    webhook_id: world.applicationId,
    ...(interaction.type === 2 ? { interaction_metadata: { ...origin, type: 2 } } : {}),
    ...(interaction.type === 3 && source !== null
      ? { interaction_metadata: { ...origin, type: 3, interacted_message_id: source.id } }
      : {}),
  });
  room.messages.push(posted);
  return posted;
}
