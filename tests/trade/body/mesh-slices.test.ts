import { IcosahedronGeometry } from 'three';
import { expect, it } from 'vitest';
import { measureMesh, measuring, type Triangles } from '../../../src/trade/body/mesh.ts';

/** A ball of 20 (detail + 1)² loose triangles. */
const ball = (radius: number, detail: number): Triangles => ({
  positions: new IcosahedronGeometry(radius, detail).getAttribute('position').array as Float32Array,
  indices: null,
});

it('two meshes that are measured slice by slice in turn are measured as each by itself', () => {
  const [large, small] = [ball(100, 129), ball(30, 99)];
  const works = [measuring(large, 1, 'z'), measuring(small, 25.4, 'y')];
  const reports = works.map(() => [] as unknown[]);
  let slices = 0;
  while (reports.some((report) => report.length === 0))
    for (const [index, work] of works.entries()) {
      const step = work.next();
      if (step.done && step.value) reports[index]?.push(step.value);
      slices += 1;
    }
  expect(reports.flat()).toEqual([measureMesh(large, 1), measureMesh(small, 25.4, 'y')]);
  // A third of a million triangles, which takes some dozen looks at all of them, are not looked at in one go.
  expect(slices).toBeGreaterThan(20);
  // The same by a formula, as nearly as a ball is made of triangles: 4/3 π r³ and 4 π r².
  const { volumeLitres, areaSquareMetres } = measureMesh(large, 1).body;
  expect(volumeLitres).toBeCloseTo(((4 / 3) * Math.PI * 100 ** 3) / 1e6, 2);
  expect(areaSquareMetres).toBeCloseTo((4 * Math.PI * 100 ** 2) / 1e6, 4);
}, 30_000);
