import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { code, ping, room, roomEach, START } from '../support/room.ts';

/** What people who share a bench do to each other's work, and who hears of it. */
const here = roomEach();

it('/undo takes back what somebody else logged only if that is meant, and they hear of it', async () => {
  await here.type('@dana', START, '[Step done]');
  const [refused] = await here.type('@max', '/undo');
  expect(code(refused)).toBe('nothing-to-undo');
  expect(refused?.text).toContain('Lion head, the step Seal and release the model, by @dana');
  expect(refused?.buttons.map(({ label }) => label)).toEqual(['Take that back']);
  const [undone] = await here.type('[Take that back]');
  expect(undone).toMatchObject({ kind: 'reply', to: ['dana'] });
  expect(undone?.title).toBe('Taken back: Lion head, the step Seal and release the model');
  // The start of the job is Dana's as well.
  expect(code((await here.type('/undo'))[0])).toBe('nothing-to-undo');
  expect((await here.type('/job list'))[0]?.data['jobs']).toHaveLength(1);
  expect((await here.type('@dana', '/undo'))[0]).toMatchObject({ kind: 'reply', to: [] });
});

it('taking back a taking over tells whoever has the job again', async () => {
  await here.type('@dana', START, '/handover give to:kim', '@kim', '[Take over]');
  expect((await here.type('/undo'))[0]).toMatchObject({ title: 'Taken back: Lion head, the taking over', to: ['dana'] });
});

it('an old Undo means nothing any more after the studio was forgotten', async () => {
  await here.type(START, '[Step done]');
  const [old] = (await here.type('/board'))[0]?.buttons.filter(({ label }) => label === 'Undo') ?? [];
  await here.type('/studio forget', '[Forget everything]', '+1m', START, '[Step done]');
  const line = `/undo entry:${old?.options['entry']} of:${old?.options['of']}`;
  expect(code((await here.type(line))[0])).toBe('nothing-to-undo');
  expect((await here.type('/job show'))[0]?.title).toContain('1 of');
});

it('whoever presses Take over second takes it from nobody, but may', async () => {
  await here.type('@dana', START, '/handover give to:kim, lee note:left ear');
  const [taken] = await here.type('@lee', '[Take over]');
  // Those who were offered it, and whoever gave it, need not look for it any more.
  expect(new Set(taken?.to)).toEqual(new Set(['dana', 'kim']));
  const [second] = await here.type('@kim', '[Take over]');
  expect(code(second)).toBe('already-taken');
  expect(second?.text).toContain('@lee took that over already');
  expect((await here.type('/job list'))[0]?.data['jobs']).toMatchObject([{ holder: 'lee' }]);
  const [wanted] = await here.type('[Take Lion head from them]');
  expect(wanted).toMatchObject({ kind: 'reply', to: ['lee'] });
  // The note stays with the job.
  expect((await here.type('/handover brief'))[0]?.text).toContain('left ear');
  expect(code((await here.type('[Take over]'))[0])).toBe('already-yours');
});

it('a louder ping’s Take over takes the job only from whoever had it then', async () => {
  await here.type('/shift duty who:kim, lee', '@dana', START, '[Step done]');
  await here.type('+30m');
  await here.type('@lee', '[Take over]');
  const [second] = await here.type('@kim', '[Take over]');
  expect(code(second)).toBe('already-taken');
  expect((await here.type('/job list'))[0]?.data['jobs']).toMatchObject([{ holder: 'lee' }]);
});

it('whoever has a job hears when somebody else starts it for them, holds or closes it', async () => {
  const [started] = await here.type('@dana', `${START} holder:kim`);
  expect(started?.to).toEqual(['kim']);
  for (const line of ['/job hold text:no material', '/job resume', '/job close text:given up'])
    expect((await here.type(line))[0]?.to).toEqual(['kim']);
});

it('a list of materials that would strand a job under way is refused, and others say what they touch', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'coatbell-lists.'));
  await here.type(START);
  const [saved] = await here.type('/material save');
  const list = readFileSync(saved?.files[0] ?? '', 'utf8');
  const load = async (text: string) => {
    const path = join(folder, 'list.yaml');
    writeFileSync(path, text);
    return (await here.type(`/material load file:${path}`))[0];
  };
  expect(code(await load(list.replaceAll('id: brush-urethane', 'id: river-rubber')))).toBe('material-in-use');
  expect((await load(list))?.text).toContain('No job under way is touched');
  const other = list.replace(/(id: brush-urethane[\s\S]*?potLife: )\d+ min/, '$119 min');
  expect(other).not.toBe(list);
  expect((await load(other))?.text).toContain('Under way: Lion head (brush-urethane)');
  expect((await here.type('/material reset'))[0]?.text).toContain('Under way: Lion head (brush-urethane)');
  rmSync(folder, { recursive: true, force: true });
});

it('says that times count as UTC while nobody has set a zone', async () => {
  const { type, close } = await room({ zone: 'Etc/UTC' });
  expect((await type(START))[0]?.text).toContain('/shift set zone:');
  await close();
});

it('the first message of a shift lets whoever comes take what was offered to them', async () => {
  await here.type('/shift set hours:06:00-14:00, 14:00-22:00 days:daily', '/shift duty who:kim hours:14:00-22:00');
  await here.type('@dana', START, '/handover give to:kim');
  const shown = await here.type('+until 14:01');
  const digest = shown.find((message) => ping(message)?.kind === 'digest');
  expect(digest?.buttons.map(({ label }) => label)).toEqual(['Take over', 'Board', 'Brief']);
  expect((await here.type('@kim', '[Take over]'))[0]?.title).toBe('@kim has Lion head now');
});

it('a cup is not pulled out from under the step that it was used for', async () => {
  await here.type('@dana', START, '[Step done]', '+20m', '[Mix next coat]', '[Cup poured]', '+10m', '@kim', '[Coat done]');
  expect(code((await here.type('@dana', '/undo'))[0])).toBe('not-the-last');
  await here.type('@kim', '/undo');
  expect((await here.type('@dana', '/undo'))[0]?.title).toBe('Taken back: Lion head, the start of cup-1');
});
