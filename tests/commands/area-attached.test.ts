import { describe, expect, it } from 'vitest';
import { studio } from '../adapters/discord/studio.ts';

/** A tetrahedron with legs of 12 inches along the axes, as an ASCII STL file that does not say its unit. */
const CORNER = [
  [0, 0, 0],
  [12, 0, 0],
  [0, 12, 0],
  [0, 0, 12],
];
const SIDES = [
  [0, 2, 1],
  [0, 1, 3],
  [0, 3, 2],
  [1, 2, 3],
];
const facets = SIDES.map(
  (side) => `facet normal 0 0 0\nouter loop\n${side.map((n) => `vertex ${CORNER[n]?.join(' ')}`).join('\n')}`,
);
const STL = `solid corner\n${facets.map((facet) => `${facet}\nendloop\nendfacet`).join('\n')}\nendsolid corner\n`;

describe('a model that is attached on the platform', () => {
  it('is asked for its unit, and a button carries it on', async () => {
    const { platform, told, uploads, channel, dana, bot } = await studio();
    uploads.push(new URL(platform.api).origin);
    const model = { filename: 'corner.stl', type: 'model/stl', bytes: Buffer.from(STL) };
    const asked = await told('area', { model, skin: 'brush-urethane', shell: 'shell-paste', relief: 'folds' });
    expect(asked.text).toContain('Which unit is the model in?');
    // Nobody can type the address of a file.
    expect(asked.text).not.toContain('http');
    const { message } = asked;
    if (!message) throw new Error('nothing was asked');
    const pressed = await platform.press({ channel, user: dana, message, label: 'Inches: 305 mm long' }).answered({ ms: 8000 });
    // A sixth of a cubic foot is 4.72 L; a cubic foot is 28.3168 L, by definition of the inch.
    expect(pressed.text).toContain('corner.stl, in inches');
    expect(pressed.text).toContain('4.72 L');
    if (!pressed.message) throw new Error('nothing was measured');
    const { modal } = await platform
      .press({ channel, user: dana, message: pressed.message, label: 'Start job' })
      .answered({ ms: 8000 });
    if (!modal) throw new Error('no name was asked for');
    const values = { 'What is the mould of?': 'Corner' };
    const started = await platform.submit({ channel, user: dana, modal, values }).answered({ ms: 8000 });
    expect(started.text).toContain('Corner has started');
    expect(started.text).toContain('× 1.3 for relief');
    // Of a file that cannot be read the same holds.
    const broken = { filename: 'broken.stl', type: 'model/stl', bytes: Buffer.from(STL.slice(0, 200)) };
    const again = await told('area', { model: broken });
    expect(again.text).toContain('attach it again');
    expect(again.text).not.toContain('./lion.stl');
    expect(bot.troubles).toEqual([]);
    expect(platform.complaints).toEqual([]);
  });
});
