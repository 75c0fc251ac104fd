import type { Triangles } from '../../trade/body/mesh-triangles.ts';
import { Growing } from './growing.ts';
import { cutPolygon, type Work } from './polygon.ts';
import { MOST_TRIANGLES } from './refusals.ts';

/** A cut of concave polygons may take so many looks at corners in one file: some tenths of a second. */
const MOST_LOOKS = 3e7;

/** Gathers the corners and the polygons of a file. */
export class Surface {
  private readonly corners = new Growing(Float64Array);
  private readonly indices = new Growing(Uint32Array);
  private readonly work: Work = { looksLeft: MOST_LOOKS };

  addCorner(x: number, y: number, z: number): void {
    this.corners.add(x);
    this.corners.add(y);
    this.corners.add(z);
  }

  /** Adds a polygon as triangles; fewer than three corners make none. */
  addPolygon(polygon: readonly number[]): void {
    cutPolygon(
      polygon,
      (corner, axis) => this.corners.at(3 * corner + axis),
      (a, b, c) => {
        this.indices.add(a);
        this.indices.add(b);
        this.indices.add(c);
      },
      this.work,
    );
  }

  get cornerCount(): number {
    return this.corners.length / 3;
  }

  get triangleCount(): number {
    return this.indices.length / 3;
  }

  get isTooLarge(): boolean {
    return this.triangleCount > MOST_TRIANGLES || this.cornerCount > 3 * MOST_TRIANGLES;
  }

  /** Polygons have so many corners that they were not cut. */
  get isTooIntricate(): boolean {
    return this.work.looksLeft < 0;
  }

  triangles(): Triangles {
    return { positions: this.corners.all(), indices: this.indices.all() };
  }
}
