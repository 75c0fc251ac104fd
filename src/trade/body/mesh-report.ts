import { plain, say, type Text } from '../../words/text.ts';
import type { Body } from './body.ts';

/** What a mesh is, and what is wrong with it. */
export interface MeshReport {
  readonly body: Body;
  readonly triangles: number;
  /** No edge is open, and all that is inside is shut off from what is outside. */
  readonly watertight: boolean;
  /** Edges with a triangle on one side only. */
  readonly openEdges: number;
  readonly warnings: readonly MeshWarning[];
}

/**
 * `open`: edges with one triangle. `closed-by-plane`: open edges that lie in one plane, across which the volume was closed.
 * `crossing`: edges with more than two triangles. `flipped`: triangles that look the other way than their neighbours, and
 * were turned. `inside-out`: bodies that looked inwards, and were turned. `one-sided`: edges where triangles cannot all look
 * outwards. `degenerate`: triangles without an area. `several`: bodies that do not touch. `cavity`: hollows inside a body.
 */
export interface MeshWarning {
  readonly code:
    | 'open'
    | 'closed-by-plane'
    | 'crossing'
    | 'flipped'
    | 'inside-out'
    | 'one-sided'
    | 'degenerate'
    | 'several'
    | 'cavity';
  readonly count: number;
}

const many = (count: number, one: string, more: string) => plain(count === 1 ? `1 ${one}` : `${count} ${more}`);

/** A warning as one short sentence, with what it means for the numbers. */
export function warningText({ code, count }: MeshWarning): Text {
  switch (code) {
    case 'open':
      return say`The surface is open at ${many(count, 'edge', 'edges')}: no volume, and what is missing is not in the area.`;
    case 'closed-by-plane':
      return say`The surface is open at ${many(count, 'edge', 'edges')}, all in one plane: the volume is closed off flat there.`;
    case 'crossing':
      return say`At ${many(count, 'edge', 'edges')} more than two triangles meet: walls inside may count as area.`;
    case 'flipped':
      return say`${many(count, 'triangle looked the wrong way and was', 'triangles looked the wrong way and were')} turned.`;
    case 'inside-out':
      return say`${many(count, 'body was', 'bodies were')} inside out and turned. A hollow on purpose? Then take the volume with care.`;
    case 'one-sided':
      return say`At ${many(count, 'edge', 'edges')} inside and outside run into each other: do not trust the volume.`;
    case 'degenerate':
      return say`${many(count, 'triangle has', 'triangles have')} no area: harmless.`;
    case 'several':
      return say`${many(count, 'body', 'bodies')} that do not touch: where they overlap, area and volume count twice.`;
    case 'cavity':
      return say`${many(count, 'hollow', 'hollows')} inside: in the area, which nobody can brush, and out of the volume.`;
  }
}
