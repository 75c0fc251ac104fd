import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { MINUTE } from '../../../src/trade/time/calendar.ts';
import type { Room } from '../../support/platform/world.ts';
import { MORNING, studio, until } from './studio.ts';

describe('the connection', () => {
  it('is taken up again where it broke off, and what was asked meanwhile is answered once', async () => {
    const { platform, bot, channel, dana } = await studio();
    const asked = { channel, user: dana, name: 'mix', options: { material: 'brush-urethane', amount: '500 g' } };
    platform.dropConnection(4000);
    const exchange = await platform.command(asked).answered({ ms: 10_000 });
    expect(exchange.text).toContain('500 g');
    expect(exchange.callbacks).toHaveLength(1);
    expect(platform.gateway.counts.resumes).toBe(1);
    platform.reconnect();
    await until('it resumes a second time', () => platform.gateway.counts.resumes === 2);
    expect((await platform.command(asked).answered({ ms: 10_000 })).text).toContain('500 g');
    expect(bot.troubles).toEqual([]);
    expect(platform.complaints).toEqual([]);
  });

  it('is begun anew when its session is gone, or when nobody answers its heartbeat', async () => {
    const { platform, told } = await studio({ settings: { heartbeatMs: 300 } });
    platform.invalidSession(false);
    await until('it identifies again', () => platform.gateway.counts.identifies === 2);
    await until('it hears what is asked', async () => {
      const exchange = await told('board').catch(() => null);
      return exchange !== null;
    });
    const { connections } = platform.gateway.counts;
    platform.stopAcking();
    await until('it connects anew', () => platform.gateway.counts.connections > connections);
    platform.stopAcking(false);
    await until('it hears what is asked again', async () => (await told('board').catch(() => null)) !== null);
  }, 60_000);

  it('answers in one server while another is in an outage', async () => {
    const { told } = await studio({ prepare: (platform) => void platform.server('far away', { unavailable: true }) });
    const exchange = await told('mix', { material: 'brush-urethane', amount: '500 g' });
    expect(exchange.acknowledgedAfterMs).toBeLessThan(3000);
  });

  it('five minutes away, it rings afterwards: late, once, and the rest as ever', async () => {
    const { platform, clock, told, lion, pings, bench, bot } = await studio();
    await lion();
    await told('done');
    await bench().wake();
    const before = pings().length;
    await platform.stop();
    // The first try meets nobody; it is tried every half minute.
    await clock.advanceTo(MORNING + 16 * MINUTE);
    expect(bot.troubles.length).toBeGreaterThan(0);
    await platform.start();
    await clock.advanceTo(MORNING + 21 * MINUTE);
    await until('it rings', () => pings().length > before);
    await clock.advanceTo(MORNING + 22 * MINUTE);
    expect(pings().length - before).toBe(1);
    expect(pings().at(-1)?.text).toContain('Late: this was due at');
  }, 60_000);
});

describe('what comes late', () => {
  it('is not done when the platform takes no answer to it any more, and the channel hears so', async () => {
    const { platform, channel, dana, bench } = await studio();
    const asked = { channel, user: dana, name: 'cup start', options: { material: 'brush-urethane', amount: '240 g' } };
    // As after a standstill: the platform has given up on what was said then.
    const exchange = platform.command({ ...asked, agoMilliseconds: 4000 });
    exchange.expire();
    await until('the channel hears', () => platform.messagesIn(channel).some(({ text }) => text.includes('Not done')));
    expect(exchange.callbacks).toEqual([]);
    expect((await bench().state()).cups.size).toBe(0);
  });

  it('is done all the same when this machine’s clock goes wrong', async () => {
    const { platform, channel, dana, bench } = await studio();
    const options = { material: 'brush-urethane', amount: '240 g' };
    const exchange = await platform
      .command({ channel, user: dana, name: 'cup start', options, agoMilliseconds: 60_000 })
      .answered({ ms: 8000 });
    expect(exchange.text).toContain('cup-1');
    expect((await bench().state()).cups.size).toBe(1);
  });
});

it('a thread that the bot may not see shares its channel’s bench all the same', async () => {
  const { platform, channel, dana, lion, bot } = await studio();
  await lion();
  const hidden = platform.thread(channel, 'private');
  await until('the client knows it', () => bot.client.channels.cache.has(hidden.id));
  bot.client.channels.cache.delete(hidden.id);
  hidden.botMay = 0n;
  const { text } = await platform.command({ channel: hidden, user: dana, name: 'job list' }).answered({ ms: 8000 });
  expect(text).toContain('Lion head');
});

it('a server that threw the bot out while its session was made anew counts as left', async () => {
  const { platform, server, lion, bot } = await studio();
  await lion();
  platform.refuseConnections(true);
  server.joined = false;
  platform.gateway.sessions.clear();
  platform.refuseConnections(false);
  await until('it is known', async () => {
    const record = (await bot.app.keyv.get(`platform/server:${server.id}`)) as { leftAt: number | null } | undefined;
    return record?.leftAt != null;
  });
}, 60_000);

describe('what belongs to whom', () => {
  it('keeps servers apart, with settings of their own', async () => {
    let other: Room | undefined;
    const { told } = await studio({
      prepare: (platform) => {
        other = platform.channel(platform.server('other'), 'bench');
      },
    });
    await told('studio set', { scale: '0.1 g', name: 'Stillwater Moulds' });
    expect((await told('studio show')).text).toContain('0.1 g');
    expect((await told('studio show', {}, other)).text).not.toContain('0.1 g');
    await told('job start', { name: 'Frieze', skin: 'brush-urethane', shell: 'shell-paste' }, other);
    expect((await told('job list')).text).toContain('No open job');
  });

  it('threads share the bench of their channel', async () => {
    const { platform, channel, told, lion } = await studio();
    const thread = platform.thread(channel, 'heads');
    await lion(thread);
    expect((await told('job list')).text).toContain('Lion head');
    expect(platform.messagesIn(thread)).toHaveLength(1);
  });

  it('what needs the right to manage is refused to everybody else', async () => {
    const { told, channel, kim } = await studio();
    const refused = await told('studio set', { scale: '0.1 g' }, channel, kim);
    expect(refused.text).toContain('for those who may manage this server');
    expect(refused.message?.aside).toBe(true);
    expect((await told('shift set', { hours: '06:00-14:00' }, channel, kim)).text).toContain('manage');
    const unlearn = { material: 'brush-urethane' };
    expect((await told('temp unlearn', unlearn, channel, kim)).text).toContain('for those who may manage this server');
    expect((await told('temp unlearn', unlearn)).text).toContain('its sheet’s times count again');
    expect((await told('studio show')).text).not.toContain('0.1 g');
  });

  it('takes nobody for a colleague who cannot be rung', async () => {
    const { platform, told, lion, kim, channel } = await studio();
    await lion();
    // The bot itself, a channel, nobody, no role, and the role that everybody has.
    const none = [`<@${platform.world.bot.id}>`, `<@${channel.id}>`, '123456789012345678', '<@&123456789012345678>'];
    for (const to of [...none, `<@&${channel.server?.id}>`])
      expect((await told('handover give', { to })).text).toContain('Expected people of this server');
    expect((await told('handover give', { to: `<@${kim.user.id}>` })).text).toContain('Handover to');
    expect(platform.complaints).toEqual([]);
  });

  it('loads a list of materials from an attachment, for this server alone', async () => {
    const { told, platform, uploads } = await studio();
    const saved = await told('material save');
    const list = saved.message?.files[0];
    expect(list?.name).toBe('materials.yaml');
    const bytes = Buffer.from(String(Buffer.from(list?.bytes ?? new Uint8Array())).replaceAll('brush-urethane', 'river-rubber'));
    const file = { filename: 'materials.yaml', type: 'text/plain', bytes };
    // Of itself it takes nothing from this machine, only from the platform's own hosts.
    expect((await told('material load', { file })).message?.aside).toBe(true);
    expect((await told('material list')).text).not.toContain('river-rubber');
    uploads.push(new URL(platform.api).origin);
    expect((await told('material load', { file })).text).toContain('loaded');
    expect((await told('mix', { material: 'river-rubber', amount: '500 g' })).text).toContain('500 g');
    expect(platform.complaints).toEqual([]);
  });

  it('forgets a studio only after it was asked once more, and then altogether', async () => {
    const { platform, told, lion, dana, channel, bot, clock, pings } = await studio();
    await lion();
    await told('done');
    const boards = () => platform.messagesIn(channel).filter(({ text }) => text.includes('Board at'));
    await until('the board stands there', () => boards().length === 1);
    const asked = await told('studio forget');
    expect(asked.message?.aside).toBe(true);
    const message = asked.message;
    if (!message) throw new Error('nothing was asked');
    expect((await told('job list')).text).toContain('Lion head');
    await platform.press({ channel, user: dana, message, label: 'Forget everything' }).answered({ ms: 8000 });
    expect((await told('job list')).text).toContain('No open job');
    expect([...(await bot.app.studios.servers()).keys()]).toEqual([]);
    await until('the board is gone', () => boards().length === 0);
    const before = pings().length;
    await clock.advanceTo(MORNING + 600 * MINUTE);
    expect(pings().length).toBe(before);
    expect(bot.troubles).toEqual([]);
  });

  it('thrown out, it holds its tongue; back again within the time, it goes on, late', async () => {
    const { platform, server, clock, told, lion, pings, bench } = await studio();
    await lion();
    await told('done');
    await bench().wake();
    const before = pings().length;
    platform.kick(server);
    await until('it has noticed', async () => (await bench().state()).jobs.size === 1);
    await pause(200);
    await clock.advanceTo(MORNING + 20 * MINUTE);
    expect(pings().length).toBe(before);
    platform.join(server);
    await until('it rings', () => pings().length > before);
    expect(pings().at(-1)?.text).toContain('Late');
  });
});
