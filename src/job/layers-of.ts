import type { LaidLayer } from '../trade/cover/coverage.ts';
import type { LaidOut } from './laid-out.ts';

/** What is laid in a job, each role's steps together, in the order in which they go on. */
export function layersOf({ steps }: LaidOut): LaidLayer[] {
  return (['detail', 'skin', 'shell'] as const).flatMap((role) => {
    const laid = steps.filter(({ step }) => step.role === role);
    const stepsMillimetres = laid.flatMap(({ layerMillimetres: layer }) => (layer === null ? [] : [layer]));
    const material = laid[0]?.material;
    return material && stepsMillimetres.length > 0
      ? [{ role, material, stepsMillimetres, brushed: laid.some(({ step }) => step.kind === 'coat') }]
      : [];
  });
}
