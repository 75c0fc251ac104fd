import { BoxGeometry, type BufferGeometry, IcosahedronGeometry, type Mesh, SphereGeometry, TorusGeometry } from 'three';
import { OBJLoader } from 'three/examples/jsm/loaders/OBJLoader.js';
import { PLYLoader } from 'three/examples/jsm/loaders/PLYLoader.js';
import { describe, expect, test } from 'vitest';
import { meshes } from '../../../src/adapters/mesh/meshes.ts';
import { type MeshReport, measureMesh } from '../../../src/trade/body/mesh.ts';
import { isRefusal } from '../../../src/words/refusal.ts';
import { CUBE_CORNERS, CUBE_SIDES, twoObjects, typed, written } from './written.ts';

async function measured(name: string, bytes: Uint8Array): Promise<MeshReport> {
  const triangles = await meshes.read(name, bytes);
  if (isRefusal(triangles)) throw new Error(JSON.stringify(triangles));
  return measureMesh(triangles, 1000);
}

/** Area with the foot, and volume, in units of the file. */
const sizes = ({ body }: MeshReport) => ({
  area: body.areaSquareMetres + (body.footSquareMetres ?? 0),
  volume: (body.volumeLitres ?? Number.NaN) / 1000,
});

/** three's own positions, summed up straight: a second implementation of reading and of measuring. */
function plainSums(geometry: BufferGeometry) {
  const at = (geometry.index ? geometry.toNonIndexed() : geometry).getAttribute('position');
  let area = 0;
  let volume = 0;
  for (let corner = 0; corner < at.count; corner += 3) {
    const [a, b, c] = [0, 1, 2].map((next) => [at.getX(corner + next), at.getY(corner + next), at.getZ(corner + next)] as const);
    if (!a || !b || !c) continue;
    const sides = [
      Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]),
      Math.hypot(b[0] - c[0], b[1] - c[1], b[2] - c[2]),
      Math.hypot(c[0] - a[0], c[1] - a[1], c[2] - a[2]),
    ] as const;
    const half = (sides[0] + sides[1] + sides[2]) / 2;
    // Heron's formula.
    area += Math.sqrt(Math.max(0, half * (half - sides[0]) * (half - sides[1]) * (half - sides[2])));
    volume += (a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0])) / 6;
  }
  return { area, volume };
}

describe('as another program writes them', () => {
  const solids = {
    box: new BoxGeometry(2, 3, 4),
    icosphere: new IcosahedronGeometry(1, 3),
    ball: new SphereGeometry(50, 24, 16),
    torus: new TorusGeometry(3, 1, 24, 48),
  };
  test.each(Object.entries(solids))('a %s', async (_, geometry) => {
    const expected = plainSums(geometry);
    for (const [name, bytes] of Object.entries(written(geometry))) {
      const report = await measured(name, bytes);
      expect({ name, watertight: report.watertight }).toEqual({ name, watertight: true });
      const { area, volume } = sizes(report);
      expect(Math.abs(area / expected.area - 1)).toBeLessThan(1e-5);
      expect(Math.abs(volume / expected.volume - 1)).toBeLessThan(1e-5);
    }
  });

  test('contents go before the ending of the name', async () => {
    for (const bytes of Object.values(written(new BoxGeometry(2, 3, 4))))
      for (const name of ['model.stl', 'model.obj', 'model.ply', 'model.bin', 'model'])
        expect(sizes(await measured(name, bytes)).volume).toBeCloseTo(24, 4);
  });

  test('bytes that lie within a larger buffer', async () => {
    for (const [name, bytes] of Object.entries(written(new BoxGeometry(2, 3, 4)))) {
      const larger = new Uint8Array(bytes.length + 14).fill(65);
      larger.set(bytes, 7);
      expect(sizes(await measured(name, larger.subarray(7, 7 + bytes.length))).volume).toBeCloseTo(24, 4);
    }
  });

  test('several objects are taken together', async () => {
    const report = await measured('two.obj', twoObjects());
    expect(sizes(report).volume).toBeCloseTo(48, 9);
    expect(report.warnings).toEqual([{ code: 'several', count: 2 }]);
  });

  test('the same triangles as another reader finds', async () => {
    const files = written(new TorusGeometry(3, 1, 8, 16));
    const obj = new OBJLoader().parse(new TextDecoder().decode(files['one.obj'])).children[0];
    const ply = new PLYLoader().parse(files['big.PLY']?.slice().buffer as ArrayBuffer);
    for (const [name, other] of [
      ['one.obj', (obj as Mesh).geometry],
      ['big.PLY', ply],
    ] as const) {
      const mine = await meshes.read(name, files[name] as Uint8Array);
      if (isRefusal(mine)) throw new Error(mine.code);
      const loose = (other.index ? other.toNonIndexed() : other).getAttribute('position').array;
      const indices = mine.indices ?? [];
      const places = [...indices].flatMap((corner) => [...mine.positions.subarray(3 * corner, 3 * corner + 3)]);
      expect(Float32Array.from(places)).toEqual(Float32Array.from(loose));
    }
  });
});

describe('typed by hand', () => {
  const corners = CUBE_CORNERS.map((corner) => `v ${corner}`).join('\n');
  const cube = { area: expect.closeTo(6, 9), volume: expect.closeTo(1, 9) };

  test.each([
    ['from 1', (corner: number) => `${corner + 1}`],
    ['backwards', (corner: number) => `${corner - 8}`],
    ['with textures and normals', (corner: number) => `${corner + 1}/7/9`],
    ['with normals only', (corner: number) => `${corner + 1}//9`],
  ])('an OBJ file with four corners to a side, counted %s', async (_, number) => {
    const faces = CUBE_SIDES.map((side) => `f ${side.map(number).join(' ')}`);
    const text = `# drawn by hand\nmtllib x.mtl\no cube\n${corners}\ns off\nusemtl blue\n${faces.join('\r\n')}\nl 1 2\np 1\ncurv2 1 2\n`;
    const report = await measured('cube.obj', typed(text));
    expect(sizes(report)).toEqual(cube);
    expect(report.triangles).toBe(12);
  });

  test('lines that go on, tabs, colours, old line ends, a byte order mark', async () => {
    const faces = CUBE_SIDES.map((side) => `f\t${side.map((corner) => corner + 1).join(' \\\n ')}  `).join('\n');
    const coloured = CUBE_CORNERS.map((corner) => `  v ${corner} 0.1 0.2 0.3`).join('\n');
    expect(sizes(await measured('cube.obj', typed(`\uFEFF${coloured}\n${faces}`)))).toEqual(cube);
    const plainFaces = CUBE_SIDES.map((side) => `f ${side.map((corner) => corner + 1).join(' ')}`).join('\r');
    expect(sizes(await measured('cube.obj', typed(`${corners.replaceAll('\n', '\r')}\r${plainFaces}`)))).toEqual(cube);
  });

  // An L of six unit squares less one… area and volume by hand: 3 squares, 8 long outline, 1 high.
  test('polygons that are not convex', async () => {
    const outline = ['0 0', '2 0', '2 1', '1 1', '1 2', '0 2'];
    const around = [0, 1, 2, 3, 4, 5];
    for (const start of around) {
      const bottom = [...around].reverse().map((at) => ((at + start) % 6) + 1);
      const top = around.map((at) => ((at + start) % 6) + 7);
      const walls = around.map((at) => [at + 1, ((at + 1) % 6) + 1, ((at + 1) % 6) + 7, at + 7]);
      const text = [
        ...outline.map((place) => `v ${place} 0`),
        ...outline.map((place) => `v ${place} 1`),
        ...[bottom, top, ...walls].map((side) => `f ${side.join(' ')}`),
      ].join('\n');
      const report = await measured('l.obj', typed(text));
      expect(sizes(report)).toEqual({ area: expect.closeTo(14, 9), volume: expect.closeTo(3, 9) });
      expect(report.watertight).toBe(true);
      expect(report.body.outlineMillimetres).toBeCloseTo(8000, 6);
    }
  });

  test('quads that are not convex are cut where they dent', async () => {
    for (const start of [0, 1, 2, 3]) {
      const order = [0, 1, 2, 3].map((at) => ((at + start) % 4) + 1).join(' ');
      const text = `v 0 0 0\nv 4 0 0\nv 1 1 0\nv 0 4 0\nf ${order}`;
      // Two triangles of base 4 and height 1.
      expect((await measured('arrow.obj', typed(text))).body.areaSquareMetres).toBeCloseTo(4, 9);
    }
  });

  // A star of 2000 points: half the sum of the cross products of its outline.
  test('a star with thousands of corners', async () => {
    const points = Array.from({ length: 4000 }, (_, at) => {
      const [angle, out] = [(2 * Math.PI * at) / 4000, at % 2 === 0 ? 100 : 90];
      return [out * Math.cos(angle), out * Math.sin(angle)] as const;
    });
    const area = points.reduce((sum, [x, y], at) => {
      const [nextX, nextY] = points[(at + 1) % points.length] as readonly [number, number];
      return sum + (x * nextY - nextX * y) / 2;
    }, 0);
    const text = [...points.map(([x, y]) => `v ${x} ${y} 0`), `f ${points.map((_, at) => at + 1).join(' ')}`].join('\n');
    expect((await measured('star.obj', typed(text))).body.areaSquareMetres).toBeCloseTo(area, 3);
  });

  test('a PLY file with quads, lists, colours and elements that nobody needs', async () => {
    const header = [
      'ply',
      'format ascii 1.0',
      'comment by hand',
      'obj_info none',
      'element nothing 4000000000',
      'element material 1',
      'property list uchar float what',
      'element vertex 8',
      'property uchar red',
      'property double x',
      'property float y',
      'property float32 z',
      'element face 6',
      'property list uint8 int32 vertex_index',
      'property uchar flags',
      'element edge 1',
      'property int vertex1',
      'end_header',
    ];
    const rows = [
      '2 nan 0.5',
      ...CUBE_CORNERS.map((corner) => `255 ${corner}`),
      ...CUBE_SIDES.map((side) => `4 ${side.join(' ')} 0`),
      '0',
    ];
    const report = await measured('cube.ply', typed([...header, ...rows].join('\n')));
    expect(sizes(report)).toEqual(cube);
    expect(sizes(await measured('cube.ply', typed([...header, ...rows].join('\r\n'))))).toEqual(cube);
  });

  test('an STL text in capitals, of two parts, with normals that are none', async () => {
    const facet = (side: readonly number[]) =>
      `facet normal nan nan nan\nouter loop\n${side.map((corner) => `vertex ${CUBE_CORNERS[corner]}`).join('\n')}\nendloop\nendfacet\n`;
    const facets = CUBE_SIDES.flatMap(([a = 0, b = 0, c = 0, d = 0]) => [facet([a, b, c]), facet([a, c, d])]);
    const text = `solid one part\n${facets.slice(0, 5).join('')}endsolid one part\nsolid\n${facets.slice(5).join('')}endsolid`;
    for (const spelled of [text, text.toUpperCase(), text.replaceAll('\n', '\r\n'), `\n  ${text}\n\n`])
      expect(sizes(await measured('cube.stl', typed(spelled)))).toEqual(cube);
  });

  test('a binary STL file whose header says solid', async () => {
    const [bytes = new Uint8Array()] = Object.values(written(new BoxGeometry(2, 3, 4)));
    bytes.set(typed('solid box facet normal COLOR=abcd'));
    expect(sizes(await measured('box.stl', bytes)).volume).toBeCloseTo(24, 9);
  });
});
