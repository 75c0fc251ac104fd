import type { Measure } from './painter.ts';
import { GRID, PANEL } from './palette.ts';
import { strokesOf } from './pattern.ts';
import type { PlacedText, Scene, Shape } from './scene.ts';
import { type Drawn, sceneLibrary } from './scene-library.ts';

/** The painter's own font is the only one that there is. */
const FONT = 'sans-serif';

/** Draws a scene as SVG text. `measure` is the one that the scene was laid out with. */
export function svgOf({ width, height, shapes, texts }: Scene, measure: Measure): string {
  sceneLibrary.setPlatformAPI({
    measureText: (text, font = '') => ({
      width: measure(text, Number.parseFloat(/[\d.]+px/.exec(font)?.[0] ?? '0'), /bold/.test(font)),
    }),
  });
  const canvas = sceneLibrary.init(null, { renderer: 'svg', ssr: true, width, height });
  try {
    canvas.add(panel(width, height));
    for (const [level, shape] of shapes.entries()) canvas.add(shapeOf(shape, level + 1));
    for (const text of texts) canvas.add(textOf(text, shapes.length + 1));
    return canvas.painter.renderToString();
  } finally {
    canvas.dispose();
  }
}

const panel = (width: number, height: number): Drawn =>
  new sceneLibrary.Rect({
    shape: { x: 1, y: 1, width: width - 2, height: height - 2 },
    style: { fill: PANEL, stroke: GRID, lineWidth: 2 },
    silent: true,
    z2: 0,
  });

function shapeOf(shape: Shape, z2: number): Drawn {
  switch (shape.as) {
    case 'rect': {
      const { x, y, width, height } = shape.box;
      // An edge is drawn within its box, so that what stands beside it stays clear of it.
      const inset = shape.edge === null ? 0 : 1;
      return new sceneLibrary.Rect({
        shape: { x: x + inset, y: y + inset, width: Math.max(0.5, width - 2 * inset), height: height - 2 * inset },
        style: { fill: shape.fill ?? 'none', ...(shape.edge === null ? {} : { stroke: shape.edge, lineWidth: 2 }) },
        silent: true,
        z2,
      });
    }
    case 'pattern': {
      const { x, y, width, height } = shape.box;
      const inner = { x: x + 2, y: y + 2, width: Math.max(0, width - 4), height: height - 4 };
      const strokes = strokesOf(shape.pattern, inner).map((ends) => ends.map((at) => Math.round(at * 100) / 100));
      const path = strokes.map(([fromX, fromY, toX, toY]) => `M${fromX} ${fromY}L${toX} ${toY}`).join('');
      return sceneLibrary.path.createFromString(path, {
        style: { fill: 'none', stroke: shape.colour, lineWidth: 3 },
        silent: true,
        z2,
      });
    }
    case 'line':
      return new sceneLibrary.Polyline({
        shape: { points: shape.points.map(([x, y]) => [x, y]) },
        style: { fill: 'none', stroke: shape.colour, lineWidth: shape.width, ...(shape.dashed ? { lineDash: [10, 8] } : {}) },
        silent: true,
        z2,
      });
    case 'dot':
      return new sceneLibrary.Circle({
        shape: { cx: shape.x, cy: shape.y, r: shape.radius },
        style: { fill: shape.fill, stroke: shape.edge, lineWidth: 3 },
        silent: true,
        z2,
      });
  }
}

const textOf = ({ text, x, y, height, size, bold, colour }: PlacedText, z2: number): Drawn =>
  new sceneLibrary.TSpan({
    style: {
      text,
      x,
      y: y + height / 2,
      textBaseline: 'middle',
      fontFamily: FONT,
      fontSize: size,
      fontWeight: bold ? 'bold' : 'normal',
      font: `${bold ? 'bold ' : ''}${size}px ${FONT}`,
      fill: colour,
    },
    silent: true,
    z2,
  });
