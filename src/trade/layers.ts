/**
 * Grams of a layer: one litre spread over one square metre is one millimetre thick, so area (m²) times thickness (mm) is
 * litres; density in g/mL is kg/L. `wastePercent` is what stays in cup and brush.
 */
export function layerGrams(
  areaSquareMetres: number,
  millimetres: number,
  gramsPerMillilitre: number,
  wastePercent: number,
): number {
  return areaSquareMetres * millimetres * gramsPerMillilitre * 1000 * (1 + wastePercent / 100);
}
