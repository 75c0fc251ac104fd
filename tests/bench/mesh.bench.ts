import { IcosahedronGeometry } from 'three';
import { bench, describe } from 'vitest';
import { meshes } from '../../src/adapters/mesh/meshes.ts';
import { measureMesh, type Triangles } from '../../src/trade/body/mesh.ts';
import { written } from '../adapters/mesh/written.ts';

/** A ball of 20 (detail + 1)² loose triangles. Compare the rows of one run with one another. */
const ball = (detail: number): Triangles => ({
  positions: new IcosahedronGeometry(100, detail).getAttribute('position').array as Float32Array,
  indices: null,
});

const small = ball(69);
const large = ball(139);
const files = written(new IcosahedronGeometry(100, 69));
const file = (name: string) => files[name] as Uint8Array;

describe('a mesh', () => {
  bench('measure, 98 000 triangles', () => void measureMesh(small, 1));
  bench('measure, 392 000 triangles', () => void measureMesh(large, 1));
  for (const name of ['binary.stl', 'text.STL', 'one.obj', 'text.ply', 'little.ply'])
    bench(`read ${name}, 98 000 triangles`, async () => void (await meshes.read(name, file(name))));
});
