import { isGypsum, type Material, type Part } from '../material.ts';

/** Whether a part is water, which the trade names so. */
export const isWater = ({ name }: Pick<Part, 'name'>): boolean => /water/i.test(name);

/**
 * Whether a part is a powder: its density is that of the solid, and a measuring cup of it holds air, more or less of it each
 * time. Only gypsum has such parts.
 */
export const isPowder = (material: Pick<Material, 'family'>, part: Pick<Part, 'name'>): boolean =>
  isGypsum(material) && !isWater(part);
