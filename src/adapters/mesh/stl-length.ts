export const HEADER_BYTES = 84;
export const TRIANGLE_BYTES = 50;
const COUNT_AT = 80;

/** How many triangles a binary STL file announces; null where it has no room to. */
export function announced(bytes: Uint8Array): number | null {
  if (bytes.length < HEADER_BYTES) return null;
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength).getUint32(COUNT_AT, true);
}

/** Whether the length of a file is just what a binary STL file of its triangles has; by chance it never is. */
export function isBinaryStl(bytes: Uint8Array): boolean {
  const count = announced(bytes);
  return count !== null && bytes.length === HEADER_BYTES + TRIANGLE_BYTES * count;
}
