import { decimalIn } from './number.ts';
import type { NumberKind } from './ply-header.ts';

/** The numbers of a PLY file in turn. */
export interface Numbers {
  next(kind: NumberKind): number;
  /** There was no further number, and `next` gave NaN. */
  readonly ended: boolean;
}

export class TypedNumbers implements Numbers {
  ended = false;
  private readonly text: string;
  private at: number;

  constructor(text: string, at: number) {
    this.text = text;
    this.at = at;
  }

  next(): number {
    const { text } = this;
    let at = this.at;
    while (text.charCodeAt(at) <= 32) at += 1;
    const start = at;
    while (text.charCodeAt(at) > 32) at += 1;
    this.at = at;
    if (at > start) return decimalIn(text, start, at);
    this.ended = true;
    return NaN;
  }
}

const BYTES: Readonly<Record<NumberKind, number>> = {
  int8: 1,
  uint8: 1,
  int16: 2,
  uint16: 2,
  int32: 4,
  uint32: 4,
  float32: 4,
  float64: 8,
};

export class PackedNumbers implements Numbers {
  ended = false;
  private readonly view: DataView;
  private readonly little: boolean;
  private at = 0;

  constructor(bytes: Uint8Array, little: boolean) {
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.little = little;
  }

  next(kind: NumberKind): number {
    const at = this.at;
    this.at += BYTES[kind];
    if (this.ended || this.at > this.view.byteLength) {
      this.ended = true;
      return NaN;
    }
    switch (kind) {
      case 'int8':
        return this.view.getInt8(at);
      case 'uint8':
        return this.view.getUint8(at);
      case 'int16':
        return this.view.getInt16(at, this.little);
      case 'uint16':
        return this.view.getUint16(at, this.little);
      case 'int32':
        return this.view.getInt32(at, this.little);
      case 'uint32':
        return this.view.getUint32(at, this.little);
      case 'float32':
        return this.view.getFloat32(at, this.little);
      case 'float64':
        return this.view.getFloat64(at, this.little);
    }
  }
}
