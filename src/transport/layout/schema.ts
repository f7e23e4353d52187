/**
 * The one declaration of how a compiled World lies in memory. Every record is a run of 32-bit float words; whole numbers
 * (indices, kinds; -1 for none) are stored as floats, exact up to 2^24, so a struct has no padding on any device.
 */
export interface RecordLayout<Name extends string> {
  readonly strideWords: number;
  readonly offset: Readonly<Record<Name, number>>;
  readonly fields: readonly Name[];
}

const defineLayout = <const Name extends string>(fields: readonly Name[]): RecordLayout<Name> => ({
  strideWords: fields.length,
  fields,
  offset: Object.fromEntries(fields.map((name, i) => [name, i])) as Record<Name, number>,
});

export const PrimitiveKind = { quad: 0, triangle: 1, revolvedLine: 2, revolvedArc: 3 } as const;
export const FinishKind = {
  matte: 0,
  gloss: 1,
  metal: 2,
  mirror: 3,
  translucent: 4,
  clear: 5,
  black: 6,
  frosted: 7,
} as const;
export const ProfileKind = { lambert: 0, cosPower: 1, table: 2, measured: 3 } as const;

/**
 * One primitive. `transform` places turned pieces, `patternFrame` is the frame of the finish's pattern (-1: the world's own).
 * `d0..d8` by kind: quad and triangle, world space, metres: corner xyz, first edge xyz, second edge xyz;
 * revolvedLine, local space: r0 y0 r1 y1 azimuthStart azimuthSpan; revolvedArc: centreR centreY radius angle0 angle1
 * azimuthStart azimuthSpan (radians; span 2 pi for a full turn).
 */
export const PRIMITIVE = defineLayout([
  'kind',
  'surface',
  'finish',
  'frontVolume',
  'backVolume',
  'emitter',
  'transform',
  'normals',
  'patternFrame',
  'd0',
  'd1',
  'd2',
  'd3',
  'd4',
  'd5',
  'd6',
  'd7',
  'd8',
]);

/** worldFromLocal: row-major rotation, then translation in metres. */
export const TRANSFORM = defineLayout(['r0', 'r1', 'r2', 'r3', 'r4', 'r5', 'r6', 'r7', 'r8', 'tx', 'ty', 'tz']);

/** Inner node: `first` is its right child (the left one follows the node), `count` 0. Leaf: primitives first..first+count-1. */
export const NODE = defineLayout(['minX', 'minY', 'minZ', 'maxX', 'maxY', 'maxZ', 'first', 'count']);

/**
 * `kind` of FinishKind; colours in working RGB. gloss: base reflectance r g b, coat index, GGX alpha, hemispherical
 * reflectance of the coat from inside, `albedoTable` offset into profileWords of its directional albedo (-1 when smooth).
 * Patterns are offsets into profileWords (-1 for none) of PATTERN_WORDS numbers: kind, 8 parameters, second colour. `dust` and
 * `scratches` also name the finish that shows where they do. `picture` is the offset of a print's head and colours (-1 for none).
 */
export const FINISH = defineLayout([
  'kind',
  'r',
  'g',
  'b',
  'tr',
  'tg',
  'tb',
  'index',
  'roughness',
  'insideReflectance',
  'albedoTable',
  'pattern',
  'dust',
  'dustFinish',
  'scratches',
  'scratchFinish',
  'picture',
]);

/** Words of one pattern in profileWords. */
export const PATTERN_WORDS = 12;

/** Index of refraction, absorption and scattering per metre in working channels, mean cosine of scattering, priority. */
export const VOLUME = defineLayout(['index', 'ar', 'ag', 'ab', 'sr', 'sg', 'sb', 'anisotropy', 'priority']);

/**
 * Emitting surface: its primitive, layer, axial luminance (cd/m2), area (m2), profile kind and parameters: cosPower: A the
 * exponent of luminance; table: A offset into profileWords, B count; measured: A offset of world-from-luminaire rotation (9
 * words), thetaCount, phiCount, then phiCount runs of thetaCount values.
 */
export const EMITTER = defineLayout(['primitive', 'layer', 'axialNits', 'area', 'profileKind', 'profileA', 'profileB']);

/** Entries of a coat's directional albedo table, at equal steps of cos theta from 0 to 1. */
export const ALBEDO_TABLE_SIZE = 33;

/** Changes whenever the meaning of any word changes; both ends of a worker compare it before anything is traced. */
export const LAYOUT_HASH: string = (() => {
  const text = JSON.stringify([
    PRIMITIVE.fields,
    TRANSFORM.fields,
    NODE.fields,
    FINISH.fields,
    VOLUME.fields,
    EMITTER.fields,
    PrimitiveKind,
    FinishKind,
    ProfileKind,
    ALBEDO_TABLE_SIZE,
    PATTERN_WORDS,
  ]);
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return (hash >>> 0).toString(16).padStart(8, '0');
})();
