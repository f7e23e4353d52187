/** Backdrop, table and lights round the thing that is shown, as records of the document. */
export interface Rig {
  readonly pieces: readonly object[];
  readonly fixtures: readonly object[];
  readonly grip: readonly object[];
  readonly shutterS: number;
}

/**
 * 'product': satin table, a pool of light on the wall behind it, a large soft side and a strip behind. 'paper': a sweep
 * instead of table and wall, for things seen from above. 'bare': a wall alone, for things that bring their own ground. 'dim':
 * paper, three stops less, for things that bring their own light.
 */
export type RigName = 'product' | 'paper' | 'bare' | 'dim';

type Point = readonly [number, number, number];

/** Lights and backdrop, all sizes and distances times `scale`, the light on the thing the same. */
export function rigOf(name: RigName, scale: number): Rig {
  const at = (p: Point): Point => [p[0] * scale, p[1] * scale, p[2] * scale];
  const dimStops = name === 'dim' ? -3 : 0;
  const lamp = (id: string, positionM: Point, aimM: Point, lumens: number, more: object): object => ({
    id: `fixture:${id}`,
    name: id,
    positionM: at(positionM),
    aimM: at(aimM),
    output: { unit: 'lumens', value: lumens * scale ** 2 },
    dimStops,
    ...more,
  });
  const softbox = (widthM: number, heightM: number, more: object = {}): object => ({
    kind: 'softbox',
    widthM: widthM * scale,
    heightM: heightM * scale,
    depthM: 0.08 * scale,
    ...more,
  });
  const wall = (positionM: Point, reflectanceRgb: Point): object => ({
    kind: 'wall',
    id: 'piece:sheet-wall',
    name: 'Backdrop',
    positionM: at(positionM),
    widthM: 3.2 * scale,
    heightM: 2.6 * scale,
    finish: { type: 'matte', reflectanceRgb },
  });
  const table = {
    kind: 'tabletop',
    id: 'piece:sheet-table',
    name: 'Table',
    positionM: at([0, 0, 0.21]),
    widthM: 1.6 * scale,
    depthM: 0.86 * scale,
    thicknessM: 0.02,
    finish: { type: 'gloss', reflectanceRgb: [0.2, 0.185, 0.17], coatIndex: 1.5, roughness: 0.16 },
  };
  const sweep = {
    kind: 'sweep',
    id: 'piece:sheet-sweep',
    name: 'Paper',
    positionM: at([0, 0, 0.75]),
    widthM: 3 * scale,
    floorDepthM: 1.3 * scale,
    coveRadiusM: 0.45 * scale,
    heightM: 1.7 * scale,
    finish: { type: 'matte', reflectanceRgb: [0.34, 0.315, 0.285] },
  };
  const ground: Readonly<Record<RigName, readonly object[]>> = {
    product: [table, wall([0, -1, -0.95], [0.36, 0.34, 0.32])],
    paper: [sweep],
    bare: [wall([0, -0.9, -1.35], [0.42, 0.385, 0.35])],
    dim: [sweep],
  };
  const behind: Readonly<Record<RigName, object>> = {
    product: lamp('pool', [0, -0.34, -0.5], [0, 0.1, -0.95], 1500, {
      kind: 'spot',
      lensDiameterM: 0.08 * scale,
      housingLengthM: 0.1 * scale,
      beamAngleDeg: 46,
    }),
    paper: lamp('paper', [0, 0.62, -0.62], [0, 0.1, -1.0], 12000, softbox(0.34, 0.14, { gridCutoffDeg: 50 })),
    bare: lamp('backdrop', [0, -0.42, -0.95], [0, 0.1, -1.35], 9000, softbox(1.2, 0.16)),
    dim: lamp('paper', [0, 0.62, -0.62], [0, 0.1, -1.0], 12000, softbox(0.34, 0.14, { gridCutoffDeg: 50 })),
  };
  const card = (id: string, positionM: Point, aimM: Point, widthM: number, heightM: number): object => ({
    kind: 'bounceCard',
    id: `grip:${id}`,
    name: id,
    positionM: at(positionM),
    aimM: at(aimM),
    widthM: widthM * scale,
    heightM: heightM * scale,
  });
  return {
    pieces: ground[name],
    fixtures: [
      lamp('side', [-0.68, 0.52, 0.56], [0, 0.07, 0], 10000, softbox(0.6, 0.9, { gridCutoffDeg: 60 })),
      name === 'product'
        ? lamp('strip', [0.5, 0.42, -0.42], [0, 0.08, 0], 4200, softbox(0.1, 0.8))
        : lamp('strip', [0.95, 0.6, -0.45], [0, 0.08, 0], 9000, softbox(0.14, 0.8)),
      behind[name],
    ],
    grip: [
      card('card', [0.55, 0.26, 0.2], [0, 0.1, 0], 0.4, 0.5),
      card('overhead', [0.1, 1.0, 0.35], [0, 0, 0.05], 0.9, 0.7),
    ],
    shutterS: 0.17,
  };
}
