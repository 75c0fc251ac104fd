import fc from 'fast-check';
import { BoxGeometry } from 'three';
import { describe, expect, test } from 'vitest';
import { meshes } from '../../../src/adapters/mesh/meshes.ts';
import { measureMesh } from '../../../src/trade/body/mesh.ts';
import { isRefusal } from '../../../src/words/refusal.ts';
import { CUBE_CORNERS, CUBE_SIDES, typed, written } from './written.ts';

/** The code of the refusal, or what was measured of it. */
async function read(name: string, bytes: Uint8Array) {
  const triangles = await meshes.read(name, bytes);
  if (!isRefusal(triangles)) return { code: null, text: '', ...measureMesh(triangles, 1000) };
  const text = triangles.message.map((span) => ('text' in span && typeof span.text === 'string' ? span.text : '')).join('');
  return { code: triangles.code, text, body: null, watertight: false };
}
const codeOf = async (name: string, contents: string | Uint8Array) =>
  (await read(name, typeof contents === 'string' ? typed(contents) : contents)).code;

const files = written(new BoxGeometry(2, 3, 4));
const file = (name: string) => files[name] as Uint8Array;
const bytes = (...values: number[]) => Uint8Array.from([...values, ...new Array(200).fill(0)]);
const corners = CUBE_CORNERS.map((corner) => `v ${corner}`).join('\n');
const header = (vertices: number, faces: number, coded = 'ascii') =>
  `ply\nformat ${coded} 1.0\nelement vertex ${vertices}\nproperty float x\nproperty float y\nproperty float z\nelement face ${faces}\nproperty list uchar int vertex_indices\nend_header\n`;
const facet = (...places: string[]) =>
  `facet normal 0 0 1\nouter loop\n${places.map((place) => `vertex ${place}\n`).join('')}endloop\nendfacet\n`;

/** A polygon with so many teeth. */
const star = (teeth: number) => {
  const places = Array.from({ length: 2 * teeth }, (_, at) => {
    const [angle, out] = [(Math.PI * at) / teeth, at % 2 === 0 ? 100 : 90];
    return `v ${out * Math.cos(angle)} ${out * Math.sin(angle)} 0`;
  });
  return `${places.join('\n')}\nf ${places.map((_, at) => at + 1).join(' ')}`;
};

describe('broken off', () => {
  test.each(Object.keys(files))('%s, at every byte: a refusal, or no watertight mesh, or all of it', async (name) => {
    const whole = file(name);
    for (let length = 0; length < whole.length; length += 1) {
      const { code, body, watertight } = await read(name, whole.subarray(0, length));
      const right = body !== null && Math.abs((body.volumeLitres ?? 0) / 24_000 - 1) < 1e-6;
      expect({ length, fine: code !== null || right || !watertight }).toEqual({ length, fine: true });
      // Only text without an end mark can be cut where nobody sees it, and then the mesh is open.
      if (!/obj|text\.ply/i.test(name)) expect({ length, fine: code !== null || right }).toEqual({ length, fine: true });
    }
  });

  test('says how many triangles are announced, and how many are there', async () => {
    const { code, text } = await read('box.stl', file('binary.stl').subarray(0, 84 + 50 * 7 + 13));
    expect(code).toBe('mesh-broken-off');
    expect(text).toContain('Expected 12 triangles, as the STL file announces, got 7: the rest is missing.');
    expect(text).toContain('binary STL, in millimetres');
  });

  test('text without its end', async () => {
    const text = new TextDecoder().decode(file('text.STL'));
    expect(await codeOf('box.stl', text.slice(0, text.lastIndexOf('endsolid')))).toBe('mesh-broken-off');
    expect(await codeOf('cube.ply', `${header(8, 6)}0 0 0\n1 0 0\n`)).toBe('mesh-broken-off');
    expect(await codeOf('cube.ply', 'ply\nformat ascii 1.0\nelement vertex 8\n')).toBe('mesh-broken-off');
  });
});

describe('another kind', () => {
  test.each([
    ['text', 'lion.stl', 'Dear Dana, the lion is finished.\n'],
    ['text that begins like STL', 'lion.stl', 'Solid work, Dana.\nThe lion is finished.'],
    ['a picture', 'lion.stl', bytes(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10)],
    ['another picture', 'lion.ply', bytes(0xff, 0xd8, 0xff, 0xe0)],
    ['a zip archive', 'lion.stl', bytes(0x50, 0x4b, 3, 4)],
    ['a STEP file', 'lion.stl', 'ISO-10303-21;\nHEADER;\nENDSEC;\n'],
    ['tags', 'lion.obj', '<?xml version="1.0"?><mesh/>'],
    ['prose', 'lion.obj', 'a lion\nof bronze\n'],
    ['no PLY', 'lion.ply', 'plywood\n'],
    ['bytes', 'lion.bin', bytes(7, 8, 9)],
    ['bytes', 'lion.obj', bytes(7, 8, 9)],
  ])('%s as %s', async (_, name, contents) => {
    expect(await codeOf(name, contents)).toBe('mesh-kind');
  });
  test('names what it is', async () => {
    expect((await read('lion.stl', bytes(0x50, 0x4b, 3, 4))).text).toContain('got a zip archive');
  });
});

describe('nothing in it', () => {
  const noTriangles = new Uint8Array(84);
  test.each([
    ['no byte', 'lion.stl', ''],
    ['a binary STL file', 'lion.stl', noTriangles],
    ['an STL text', 'lion.stl', 'solid lion\nendsolid lion\n'],
    ['an OBJ file with corners only', 'lion.obj', corners],
    ['a PLY file with corners only', 'lion.ply', `${header(1, 0)}0 0 0\n`],
    ['a PLY file with faces of two corners', 'lion.ply', `${header(2, 1)}0 0 0\n1 0 0\n2 0 1\n`],
  ])('%s', async (_, name, contents) => {
    expect(await codeOf(name, contents)).toBe('mesh-empty');
  });
});

describe('wrong contents', () => {
  const stl = (corner: string) => `solid\n${facet('0 0 0', '1 0 0', corner)}endsolid\n`;
  const odd = file('binary.stl').slice();
  new DataView(odd.buffer).setFloat32(84 + 12, Number.NaN, true);
  test.each([
    ['a binary corner that is no number', 'a.stl', odd],
    ['a binary file that is too long', 'a.stl', Uint8Array.from([...file('binary.stl'), 0])],
    ['no number', 'a.stl', stl('nan 1 0')],
    ['no end of a number', 'a.stl', stl('inf 1 0')],
    ['too large a number', 'a.stl', stl('1e39 1 0')],
    ['a decimal comma', 'a.stl', stl('0,5 1 0')],
    ['two numbers', 'a.stl', stl('1 0')],
    ['four corners', 'a.stl', `solid\n${facet('0 0 0', '1 0 0', '1 1 0', '0 1 0')}endsolid\n`],
    ['no number', 'a.obj', 'v 0 0 0\nv 1 0 x\nv 0 1 0\nf 1 2 3'],
    ['two numbers', 'a.obj', 'v 0 0 0\nv 1 0\nv 0 1 0\nf 1 2 3'],
    ['a huge number', 'a.obj', 'v 0 0 0\nv 1e200 0 0\nv 0 1 0\nf 1 2 3'],
    ['a corner that does not exist', 'a.obj', `${corners}\nf 1 2 9`],
    ['a corner before the first', 'a.obj', `${corners}\nf -1 -2 -9`],
    ['corner 0', 'a.obj', `${corners}\nf 0 1 2`],
    ['half a corner', 'a.obj', `${corners}\nf 1 2 2.5`],
    ['two corners', 'a.obj', `${corners}\nf 1 2`],
    ['a corner that does not exist', 'a.ply', `${header(3, 1)}0 0 0\n1 0 0\n0 1 0\n3 0 1 3\n`],
    ['a corner below zero', 'a.ply', `${header(3, 1)}0 0 0\n1 0 0\n0 1 0\n3 0 1 -1\n`],
    ['no number', 'a.ply', `${header(3, 1)}0 0 0\n1 0 0\n0 nan 0\n3 0 1 2\n`],
    ['no such numbers', 'a.ply', `${header(3, 1).replace('list uchar', 'list what')}0 0 0\n`],
    ['no height', 'a.ply', `${header(3, 1).replace('float z', 'float w')}0 0 0\n1 0 0\n0 1 0\n3 0 1 2\n`],
    ['no such code', 'a.ply', `${header(3, 1, 'packed')}0 0 0\n1 0 0\n0 1 0\n3 0 1 2\n`],
  ])('%s in %s', async (_, name, contents) => {
    expect(await codeOf(name, contents)).toBe('mesh-unreadable');
  });
  test('names the line', async () => {
    expect((await read('a.obj', typed(`${corners}\nf 1 2 9`))).text).toContain(
      'Line 9 of the OBJ file: expected corners among the 8 before it, got “f 1 2 9”.',
    );
    expect((await read('a.stl', typed(stl('0,5 1 0')))).text).toContain('got “vertex 0,5 1 0”');
  });
});

describe('nothing is believed that a file announces, and nothing takes for ever', () => {
  const announcing = new Uint8Array(1000);
  new DataView(announcing.buffer).setUint32(80, 4_294_967_295, true);
  const packed = (count: number) =>
    Uint8Array.from([...typed(header(count, count, 'binary_little_endian')), ...new Uint8Array(500)]);
  const longList = typed(`${header(0, 1, 'binary_big_endian').replace('list uchar', 'list uint')}\xff`);
  test.each([
    ['a binary STL file', 'a.stl', announcing, 'mesh-broken-off'],
    ['a binary PLY file', 'a.ply', packed(4_000_000_000), 'mesh-broken-off'],
    ['a PLY text', 'a.ply', `${header(4_000_000_000, 4_000_000_000)}0 0 0\n`, 'mesh-broken-off'],
    ['a list', 'a.ply', Uint8Array.from([...longList.slice(0, -2), 255, 255, 255, 255, 0, 0]), 'mesh-broken-off'],
    ['corners of nothing', 'a.ply', header(4e9, 1).replace(/property float .\n/g, ''), 'mesh-unreadable'],
    ['many beginnings', 'a.stl', `solid\n${'facet '.repeat(500_000)}`, 'mesh-broken-off'],
    ['many beginnings before an end', 'a.stl', `solid\n${'facet '.repeat(500_000)}\nendsolid\n`, 'mesh-unreadable'],
    ['many names', 'a.stl', `solid\n${facet('0 0 0', '1 0 0', '0 1 0')}endsolid ${'solid'.repeat(500_000)}`, 'mesh-unreadable'],
    ['a long number', 'a.stl', `solid\n${facet('0 0 0', '1 0 0', `0 1 ${'1'.repeat(500_000)}x`)}endsolid`, 'mesh-unreadable'],
    ['nothing but blanks', 'a.stl', `solid\n${' '.repeat(3_000_000)}x endsolid`, 'mesh-unreadable'],
    ['nothing but blanks', 'a.ply', `${header(3, 1)}${' '.repeat(3_000_000)}`, 'mesh-broken-off'],
    ['a polygon with a hundred thousand teeth', 'a.obj', star(100_000), 'mesh-too-large'],
    ['a polygon with five thousand teeth', 'a.obj', star(4_990), 'mesh-unreadable'],
    ['many polygons with teeth', 'a.obj', `${star(400)}${`\n${star(400).split('\n').at(-1)}`.repeat(2000)}`, 'mesh-unreadable'],
    ['a face with a million corners', 'a.obj', `${corners}\nf${' 1 2 3 4'.repeat(1_000_000)}`, 'mesh-too-large'],
    [
      'a face with 65,000 corners',
      'a.ply',
      `${header(8, 1).replace('uchar', 'ushort')}${'0 0 0\n'.repeat(8)}65000${' 1'.repeat(65_000)}`,
      'mesh-too-large',
    ],
    ['a number of another base', 'a.obj', `v 0x10 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3`, 'mesh-unreadable'],
    ['a number of another base', 'a.ply', `${header(3, 1)}0x10 0 0\n1 0 0\n0 1 0\n3 0 1 2\n`, 'mesh-unreadable'],
    ['too many triangles', 'a.obj', `${corners}\n${'f 1 2 3 4\n'.repeat(2_500_001)}`, 'mesh-too-large'],
  ])('%s in %s', async (_, name, contents, code) => {
    expect(await codeOf(name, contents)).toBe(code);
  });
});

describe('whatever comes', () => {
  const names = fc.constantFrom('a.stl', 'a.obj', 'a.ply', 'a', 'a.OBJ', '');
  test('never throws', async () => {
    const whatever = fc.oneof(
      fc.uint8Array({ maxLength: 400 }),
      fc.string().map(typed),
      fc
        .array(fc.constantFrom('solid', 'facet', 'v', 'f', ' ', '\n', '1', '-1', '0.5', 'ply', 'end_header', '/', '\\', '\0'))
        .map((words) => typed(words.join(' '))),
    );
    await fc.assert(
      fc.asyncProperty(names, whatever, async (name, contents) => void (await read(name, contents))),
      { numRuns: 1000 },
    );
  });

  const changes = fc.array(fc.tuple(fc.nat(), fc.nat(255), fc.constantFrom('put', 'cut', 'in')), { minLength: 1, maxLength: 6 });
  test('a right file with some bytes changed: a refusal, or numbers', async () => {
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...Object.keys(files)), changes, async (name, list) => {
        const changed = [...file(name)];
        for (const [at, value, how] of list)
          changed.splice(at % changed.length, how === 'in' ? 0 : 1, ...(how === 'cut' ? [] : [value]));
        const { body } = await read(name, Uint8Array.from(changed));
        if (body === null) return;
        expect(Number.isFinite(body.areaSquareMetres)).toBe(true);
        expect(body.volumeLitres === null || Number.isFinite(body.volumeLitres)).toBe(true);
        expect(body.areaSquareMetres).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 1500 },
    );
  });

  test('all sides of a cube, so that the files above could be right', async () => {
    const faces = CUBE_SIDES.map((side) => `f ${side.map((corner) => corner + 1).join(' ')}`).join('\n');
    expect(await codeOf('a.obj', `${corners}\n${faces}`)).toBeNull();
    expect(await codeOf('a.ply', `${header(3, 1)}0 0 0\n1 0 0\n0 1 0\n3 0 1 2\n`)).toBeNull();
    expect(await codeOf('a.stl', stlOf())).toBeNull();
  });
  const stlOf = () => `solid\n${facet('0 0 0', '1 0 0', '0 1 0')}endsolid\n`;
});
