import type { Cover } from '../trade/cover/cover.ts';
import type { LaidLayer } from '../trade/cover/coverage.ts';
import { type LaidOut, litresOf } from './laid-out.ts';

/** What is laid in a job, each role's steps together, in the order in which they go on. What nobody can tell is left out. */
export function layersOf({ steps }: LaidOut, cover: Cover): LaidLayer[] {
  return (['detail', 'skin', 'shell'] as const).flatMap((role) => {
    const laid = steps.filter(({ step }) => step.role === role);
    const pours = laid.flatMap((each) => {
      const litres = litresOf(each, cover);
      return litres === null || each.layerMillimetres === null ? [] : [{ millimetres: each.layerMillimetres, litres }];
    });
    const material = laid[0]?.material;
    if (!material || pours.length === 0) return [];
    const how = laid.some(({ step }) => step.kind === 'coat') ? 'brushed' : laid.some(({ block }) => block) ? 'block' : 'laid';
    return [{ role, material, pours, how }];
  });
}

/** The material that a block is poured of whose size nobody can tell; undefined where there is none. */
export const unknownBlock = ({ steps }: LaidOut): string | undefined =>
  steps.find(({ block, material }) => block === 'unknown' && material !== null)?.material?.id;
