/** A picture of the demo: red, green, blue for each point, row by row. Drawn by this file, of cats that do not exist. */
export interface Drawing {
  /** Key of the animal in the cast. */
  readonly key: string;
  readonly side_px: number;
  readonly pixels: Uint8Array;
}

type Colour = readonly [red: number, green: number, blue: number];

/** What tells one drawn face from the others; as the cast describes the animal. */
interface Face {
  readonly key: string;
  /** The left and the right half, as one looks at it. */
  readonly coat: readonly [Colour, Colour];
  readonly stripes: Colour | null;
  readonly chin: Colour | null;
  readonly eyes: readonly [Colour, Colour];
  readonly bareEar: boolean;
}

const wall: Colour = [224, 216, 196];
const ink: Colour = [40, 36, 32];
const skin: Colour = [222, 170, 160];
const white: Colour = [244, 242, 236];
const ginger: Colour = [205, 122, 52];
const grey: Colour = [138, 140, 144];
const black: Colour = [58, 52, 50];
const amber: Colour = [214, 160, 40];
const blue: Colour = [92, 148, 214];

const faces: readonly Face[] = [
  { key: 'gorse', coat: [ginger, ginger], stripes: [168, 92, 34], chin: white, eyes: [amber, amber], bareEar: false },
  { key: 'curlew', coat: [white, white], stripes: null, chin: null, eyes: [amber, blue], bareEar: false },
  { key: 'angelica', coat: [ginger, black], stripes: null, chin: white, eyes: [amber, amber], bareEar: false },
  { key: 'comfrey', coat: [grey, grey], stripes: [96, 98, 104], chin: null, eyes: [amber, amber], bareEar: true },
];

const side_px = 480;

/** All drawn pictures, the same bytes each time. */
export const drawings = (): Drawing[] => faces.map((face) => ({ key: face.key, side_px, pixels: drawn(face) }));

function drawn(face: Face): Uint8Array {
  const pixels = new Uint8Array(side_px * side_px * 3);
  for (let row = 0; row < side_px; row += 1) {
    for (let column = 0; column < side_px; column += 1) {
      // From -1 at the left and above to 1 at the right and below.
      const colour = colourAt(face, (2 * column) / side_px - 1, (2 * row) / side_px - 1);
      pixels.set(colour, (row * side_px + column) * 3);
    }
  }
  return pixels;
}

function colourAt(face: Face, x: number, y: number): Colour {
  for (const [index, at] of [-0.26, 0.26].entries()) {
    if (within(x, y, at, -0.02, 0.03, 0.1)) return ink;
    if (within(x, y, at, -0.02, 0.1, 0.12)) return face.eyes[index] ?? ink;
  }
  if (within(x, y, 0, 0.26, 0.07, 0.05)) return skin;
  if (Math.abs(y - 0.34 - 0.2 * Math.abs(x)) < 0.012 && Math.abs(x) < 0.16) return ink;
  if (face.chin !== null && within(x, y, 0, 0.5, 0.3, 0.16)) return face.chin;
  const half = face.coat[x < 0 ? 0 : 1];
  if (within(x, y, 0, 0.12, 0.66, 0.58)) {
    const striped = face.stripes !== null && y < -0.12 && Math.sin(x * 26) > 0.35;
    return striped && face.stripes !== null ? face.stripes : half;
  }
  // Ears: triangles that stand on the head.
  const [away, up] = [Math.abs(Math.abs(x) - 0.42), -0.24 - y];
  if (up > 0 && up < 0.56 && away < 0.24 * (1 - up / 0.56)) {
    const inside = away < 0.12 * (1 - up / 0.4) && up < 0.4;
    return inside || (face.bareEar && x > 0 && up > 0.3) ? skin : half;
  }
  return wall;
}

const within = (x: number, y: number, atX: number, atY: number, wide: number, high: number): boolean =>
  ((x - atX) / wide) ** 2 + ((y - atY) / high) ** 2 < 1;
