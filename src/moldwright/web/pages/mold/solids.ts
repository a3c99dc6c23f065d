/** The file of solids, read: `making/screen/packed_parts.py` tells its form. */

const MAGIC = 0x3153574d; // "MWS1", the first byte lowest
const NONE = 65535;
/** Stands for no value in what a shader is given. */
export const NOTHING = -1e9;

export interface Solid {
  readonly id: string;
  readonly kind: string;
  readonly places: Float32Array;
  readonly normals: Float32Array;
  readonly corners: Uint32Array;
  readonly quantities: ReadonlyMap<string, Float32Array>;
  readonly draw: readonly number[] | null;
}

interface Scaled {
  readonly low: number;
  readonly step: number;
  readonly at: number;
}

interface Head {
  readonly id: string;
  readonly kind: string;
  readonly vertices: number;
  readonly triangles: number;
  readonly draw: number[] | null;
  readonly low: number[];
  readonly step: number[];
  readonly place: number;
  readonly normal: number;
  readonly corner: number;
  readonly quantities: Record<string, Scaled>;
}

/** All solids of the file. */
export function readSolids(file: ArrayBuffer): Solid[] {
  const view = new DataView(file);
  if (view.getUint32(0, true) !== MAGIC) throw new Error("no file of solids");
  const start = 8 + view.getUint32(4, true);
  const head = JSON.parse(new TextDecoder().decode(new Uint8Array(file, 8, start - 8))) as { parts: Head[] };
  return head.parts.map((part) => readSolid(file, start, part));
}

function readSolid(file: ArrayBuffer, start: number, head: Head): Solid {
  const raw = new Uint16Array(file, start + head.place, 3 * head.vertices);
  const turned = new Int8Array(file, start + head.normal, 3 * head.vertices);
  const quantities = Object.entries(head.quantities).map(
    ([name, scaled]) => [name, readValues(new Uint16Array(file, start + scaled.at, head.vertices), scaled)] as const,
  );
  return {
    id: head.id,
    kind: head.kind,
    places: threes(raw, head.vertices, head.low, head.step),
    normals: threes(turned, head.vertices, [0, 0, 0], [1 / 127, 1 / 127, 1 / 127]),
    corners: summed(new Int32Array(file, start + head.corner, 3 * head.triangles)),
    quantities: new Map(quantities),
    draw: head.draw,
  };
}

/** One axis after the other becomes corner after corner. */
function threes(raw: Uint16Array | Int8Array, count: number, low: number[], step: number[]): Float32Array {
  const out = new Float32Array(3 * count);
  for (let axis = 0; axis < 3; axis++) {
    const from = low[axis] ?? 0;
    const by = step[axis] ?? 0;
    for (let n = 0; n < count; n++) out[3 * n + axis] = from + by * (raw[axis * count + n] ?? 0);
  }
  return out;
}

function summed(steps: Int32Array): Uint32Array {
  const out = new Uint32Array(steps.length);
  let at = 0;
  for (let n = 0; n < steps.length; n++) out[n] = at += steps[n] ?? 0;
  return out;
}

function readValues(raw: Uint16Array, scaled: Scaled): Float32Array {
  return Float32Array.from(raw, (value) => (value === NONE ? NOTHING : scaled.low + scaled.step * value));
}
