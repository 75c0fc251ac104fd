/** A surface as a file gives it: corners, and three of them for each triangle, in the file's own unit of length. */
export interface Triangles {
  /** x, y, z of each corner in turn. */
  readonly positions: Float32Array | Float64Array;
  /** Three numbers of corners for each triangle; null where each three corners in turn are one. */
  readonly indices: Uint32Array | null;
}
