/**
 * The area of that part of an ellipsoid (half axes, the third one upright) which looks up by between `low` and `high`, the
 * upward part of its outward normal n. Where the plane that touches the surface is h from the middle, with
 * h² = a²nx² + b²ny² + c²nz², the surface is curved by h⁴/(abc)² (Gauss), so a patch is (abc)²/h⁴ times the patch of
 * directions that its normals fill. Around the upright axis that integrates to π(abc)²(P + Q)/(PQ)^(3/2), with P and Q the h²
 * of the normals over the two axes; along it the integral is taken numerically, over the angle t at which
 * tan t = nz c/√(ab) / √(1 - nz²): evenly spread for a round body, however flat or long.
 */
export const ellipsoidBetween =
  (a: number, b: number, c: number) =>
  (low: number, high: number): number => {
    const mean = Math.sqrt(a * b);
    const angle = (up: number) => Math.atan2(c * up, mean * Math.sqrt(1 - up ** 2));
    const slice = (at: number) => {
      const [sine, cosine] = [Math.sin(at), Math.cos(at)];
      // P is c² a u and Q is c² b v, each over the square of the hypotenuse below.
      const [u, v] = [a * cosine ** 2 + b * sine ** 2, b * cosine ** 2 + a * sine ** 2];
      return (Math.PI * a * b * (a * u + b * v) * cosine * Math.hypot(mean * sine, c * cosine)) / (u * v) ** 1.5;
    };
    return integral(slice, angle(low), angle(high));
  };

/** The way round an ellipse with these half axes. */
export const ellipse = (a: number, b: number): number =>
  4 * integral((angle) => Math.hypot(a * Math.sin(angle), b * Math.cos(angle)), 0, Math.PI / 2);

/** Gauss and Legendre's eight points, as handbooks of functions print them: where, and with which weight (from memory). */
const POINTS = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
] as const;

function eightPoints(of: (x: number) => number, from: number, to: number): number {
  const [middle, half] = [(from + to) / 2, (to - from) / 2];
  return half * POINTS.reduce((sum, [at, weight]) => sum + weight * (of(middle - half * at) + of(middle + half * at)), 0);
}

/** Of something positive, to about eleven digits: halved again wherever the halves do not agree with the whole. */
function integral(of: (x: number) => number, from: number, to: number): number {
  const whole = eightPoints(of, from, to);
  const enough = 1e-12 * whole;
  const refined = (start: number, end: number, rough: number, depth: number): number => {
    const middle = (start + end) / 2;
    const [left, right] = [eightPoints(of, start, middle), eightPoints(of, middle, end)];
    if (depth === 0 || Math.abs(left + right - rough) <= enough) return left + right;
    return refined(start, middle, left, depth - 1) + refined(middle, end, right, depth - 1);
  };
  return refined(from, to, whole, 40);
}
