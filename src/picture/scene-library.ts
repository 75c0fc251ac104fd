import * as zrender from 'zrender';

/** What is used of the scene library. Its own types are written for bundlers: here the compiler finds nothing in them. */
interface SceneLibrary {
  setPlatformAPI(api: { measureText(text: string, font?: string): { width: number } }): void;
  init(root: null, options: { renderer: 'svg'; ssr: true; width: number; height: number }): Canvas;
  readonly Rect: Kind<{ x: number; y: number; width: number; height: number }>;
  readonly Polyline: Kind<{ points: number[][] }>;
  readonly Circle: Kind<{ cx: number; cy: number; r: number }>;
  readonly TSpan: new (options: { style: TextStyle; silent: true; z2: number }) => Drawn;
  readonly path: { createFromString(path: string, options: { style: Style; silent: true; z2: number }): Drawn };
}

interface Canvas {
  add(drawn: Drawn): void;
  dispose(): void;
  readonly painter: { renderToString(): string };
}

type Kind<Form> = new (options: { shape: Form; style: Style; silent: true; z2: number }) => Drawn;

export interface Drawn {
  readonly z2: number;
}

interface Style {
  readonly fill: string;
  readonly stroke?: string;
  readonly lineWidth?: number;
  readonly lineDash?: readonly number[];
}

interface TextStyle {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly textBaseline: 'middle';
  readonly fontFamily: string;
  readonly fontSize: number;
  readonly fontWeight: 'bold' | 'normal';
  readonly font: string;
  readonly fill: string;
}

export const sceneLibrary = zrender as unknown as SceneLibrary;
