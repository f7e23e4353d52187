/** Records of set dressing: blocks, walls, screens, cutters, and small things on the table. */
import { z } from 'zod';
import { sizeM } from '../core/schema.ts';
import { finishSchema } from '../materials/finish.ts';
import { storedMeshSchema } from './ownShape/storedMesh.ts';
import { clearBodyFields, pieceCommon } from './pieceCommon.ts';

const share = z.number().min(0).max(1);
const seed = z.int().min(0).max(4294967295).default(1).describe('Another seed is another piece of the same kind.');
const edgeRadiusM = z.number().min(0).max(0.05);
const solid = { finish: finishSchema, ...clearBodyFields };
const leanDeg = z.number().min(0).max(60).default(12).describe('How far it leans back from upright.');
const direction = z.enum(['upright', 'level']);

export const stepSchema = z
  .object({
    kind: z.literal('step'),
    ...pieceCommon,
    widthM: sizeM.default(0.3),
    treadM: sizeM.default(0.1).describe('Depth of each step.'),
    riserM: sizeM.default(0.05).describe('Height of each step.'),
    steps: z.int().min(1).max(12).default(2),
    ...solid,
  })
  .describe('Block of steps that rises away from local +z.');

export const archSchema = z
  .object({
    kind: z.literal('arch'),
    ...pieceCommon,
    widthM: sizeM.default(0.26),
    heightM: sizeM.default(0.3),
    depthM: sizeM.default(0.06),
    openingWidthM: sizeM.default(0.14),
    openingHeightM: sizeM.default(0.22).describe('To the crown of the opening.'),
    head: z.enum(['round', 'flat']).default('round'),
    ...solid,
  })
  .describe('Block with a doorway through it; it faces local +z.');

export const sphereSchema = z.object({
  kind: z.literal('sphere'),
  ...pieceCommon,
  diameterM: sizeM.default(0.08),
  ...solid,
});

export const slattedWallSchema = z
  .object({
    kind: z.literal('slattedWall'),
    ...pieceCommon,
    widthM: sizeM.default(1.6),
    heightM: sizeM.default(1.2),
    thicknessM: sizeM.default(0.02).describe('Of the panel behind the slats.'),
    direction: direction.default('upright').describe('How the slats run.'),
    pitchM: z.number().min(0.004).max(2).default(0.04),
    slatWidthM: z.number().min(0.002).max(2).default(0.025),
    slatDepthM: z.number().min(0.001).max(0.5).default(0.018),
    edgeRadiusM: edgeRadiusM.default(0.003).describe('Rounding of the two front edges of each slat.'),
    finish: finishSchema,
  })
  .describe('Upright panel with slats on its front, which stands at positionM and faces local +z.');

export const mouldedWallSchema = z
  .object({
    kind: z.literal('mouldedWall'),
    ...pieceCommon,
    widthM: sizeM.default(1.8),
    heightM: sizeM.default(1.3),
    thicknessM: sizeM.default(0.02),
    columns: z.int().min(1).max(12).default(3),
    rows: z.int().min(1).max(6).default(1),
    marginM: z.number().min(0.01).max(1).default(0.08).describe('Plain wall round each framed panel.'),
    beadM: z.number().min(0.004).max(0.1).default(0.016).describe('Width of the half-round bead.'),
    skirtingM: z.number().min(0).max(0.5).default(0.09).describe('Height of the skirting board; 0 for none.'),
    finish: finishSchema,
  })
  .describe('Wall with panels framed by a half-round bead; its front stands at positionM and faces local +z.');

export const reedScreenSchema = z
  .object({
    kind: z.literal('reedScreen'),
    ...pieceCommon,
    widthM: sizeM.default(0.9),
    heightM: sizeM.default(0.7),
    reedM: z.number().min(0.001).max(0.05).default(0.006).describe('Diameter of a reed.'),
    pitchM: z.number().min(0.001).max(0.3).default(0.012),
    unevenness: share.default(0.5).describe('Of spacing, thickness, height and lean.'),
    brokenShare: share.default(0.08).describe('Share of the reeds that have snapped off.'),
    cords: z.int().min(0).max(8).default(3),
    seed,
    finish: finishSchema,
  })
  .describe('Reeds side by side, tied with cords. It stands across local x.');

export const slatScreenSchema = z
  .object({
    kind: z.literal('slatScreen'),
    ...pieceCommon,
    widthM: sizeM.default(0.9),
    heightM: sizeM.default(0.7),
    direction: direction.default('level').describe('How the slats run.'),
    slatWidthM: z.number().min(0.002).max(0.5).default(0.03),
    slatThicknessM: z.number().min(0.0005).max(0.05).default(0.003),
    pitchM: z.number().min(0.004).max(0.5).default(0.04),
    tiltDeg: z.number().min(-90).max(90).default(0).describe('Turn of each slat about its length; 0 is shut.'),
    frameM: z
      .number()
      .min(0)
      .max(0.2)
      .default(0.025)
      .describe('Width of the posts at both ends of the slats; 0 for none.'),
    unevenness: share.default(0.1),
    missingShare: share.default(0),
    seed,
    finish: finishSchema,
  })
  .describe('Blind or slatted fence. It stands across local x.');

const cutterCommon = {
  widthM: sizeM.default(0.9),
  heightM: sizeM.default(0.9),
  standM: z.number().min(0).max(10).default(0.6).describe('Lower edge over the foot.'),
};

export const windowCutterSchema = z
  .object({
    kind: z.literal('windowCutter'),
    ...pieceCommon,
    ...cutterCommon,
    shape: z.enum(['window', 'doorway']).default('window').describe('A doorway is open at the bottom.'),
    openingWidthM: sizeM.default(0.5),
    openingHeightM: sizeM.default(0.6),
    head: z.enum(['round', 'flat']).default('flat'),
    columns: z.int().min(1).max(12).default(2).describe('Panes across.'),
    rows: z.int().min(1).max(12).default(3).describe('Panes up.'),
    barM: z.number().min(0.001).max(0.2).default(0.015).describe('Width of the bars between panes.'),
    finish: finishSchema,
  })
  .describe('Card on a stand with a window or doorway cut out, for a shaped pool of light. It stands across local x.');

export const dappleCutterSchema = z
  .object({
    kind: z.literal('dappleCutter'),
    ...pieceCommon,
    ...cutterCommon,
    cut: z.enum(['leaves', 'holes']).default('leaves').describe('Leaves on twigs, or a card with oval holes.'),
    sizeM: z.number().min(0.005).max(0.5).default(0.07).describe('Length of a leaf or hole.'),
    cover: share.default(0.5).describe('Share of the area that is covered, about.'),
    seed,
    finish: finishSchema,
  })
  .describe('Breaks light up into dapples. It stands across local x.');

export const lightTableSchema = z
  .object({
    kind: z.literal('lightTable'),
    ...pieceCommon,
    widthM: sizeM.default(0.6),
    depthM: sizeM.default(0.4),
    heightM: sizeM.default(0.12).describe('Of the top, over the foot.'),
    rimM: z.number().min(0.002).max(0.2).default(0.015).describe('Width of the opaque rim.'),
    finish: finishSchema.describe('Of the sheet on top: translucent.'),
    frameFinish: finishSchema.default({ type: 'matte', reflectanceRgb: [0.75, 0.75, 0.74] }),
  })
  .describe('Translucent sheet on a hollow frame without a floor: put a light under it.');

export const coasterSchema = z.object({
  kind: z.literal('coaster'),
  ...pieceCommon,
  shape: z.enum(['round', 'square']).default('round'),
  widthM: sizeM.default(0.095),
  thicknessM: z.number().min(0.001).max(0.03).default(0.004),
  edgeRadiusM: edgeRadiusM.default(0.001),
  cornerRadiusM: z.number().min(0).max(0.2).default(0.008).describe('Of a square one, seen from above.'),
  ...solid,
});

export const traySchema = z.object({
  kind: z.literal('tray'),
  ...pieceCommon,
  shape: z.enum(['round', 'rectangular']).default('rectangular'),
  widthM: sizeM.default(0.4).describe('Diameter of a round one.'),
  depthM: sizeM.default(0.28).describe('Of a rectangular one.'),
  heightM: sizeM.default(0.025),
  wallM: z.number().min(0.001).max(0.05).default(0.005),
  floorM: z.number().min(0.001).max(0.05).default(0.005).describe('Thickness of its floor.'),
  cornerRadiusM: z.number().min(0).max(0.5).default(0.03),
  ...solid,
});

export const napkinSchema = z
  .object({
    kind: z.literal('napkin'),
    ...pieceCommon,
    widthM: sizeM.default(0.2),
    depthM: sizeM.default(0.1),
    layers: z.int().min(1).max(8).default(4),
    layerM: z.number().min(0.0005).max(0.02).default(0.0022).describe('Height of one layer with the air in it.'),
    softness: share.default(0.5).describe('How far the cloth is from lying flat.'),
    seed,
    finish: finishSchema,
  })
  .describe('Folded cloth, the folds along local x.');

export const spoonSchema = z
  .object({
    kind: z.literal('spoon'),
    ...pieceCommon,
    lengthM: z.number().min(0.05).max(0.6).default(0.135),
    bowlWidthM: z.number().min(0.008).max(0.15).default(0.029),
    gaugeM: z.number().min(0.0005).max(0.01).default(0.0016).describe('Thickness of the metal.'),
    finish: finishSchema,
  })
  .describe('Lies on its back, the bowl toward local +x.');

export const bookSchema = z
  .object({
    kind: z.literal('book'),
    ...pieceCommon,
    widthM: sizeM.default(0.14),
    depthM: sizeM.default(0.21),
    thicknessM: sizeM.default(0.028),
    coverM: z.number().min(0.0003).max(0.02).default(0.0025).describe('Thickness of the boards.'),
    finish: finishSchema.describe('Of the cover.'),
  })
  .describe('Lies flat, its spine along local -x.');

const leaf = {
  leafLengthM: z.number().min(0.004).max(1).default(0.06),
  leafShape: z.enum(['broad', 'narrow', 'round']).default('broad'),
  seed,
  finish: finishSchema.describe('Of the leaves: translucent.'),
};

export const branchSchema = z
  .object({
    kind: z.literal('branch'),
    ...pieceCommon,
    lengthM: sizeM.default(0.6),
    pitchDeg: z.number().min(-90).max(90).default(8).describe('Rise of the branch over the level.'),
    twigs: z.int().min(0).max(60).default(14),
    leavesPerTwig: z.int().min(0).max(20).default(6),
    ...leaf,
  })
  .describe('Leafy branch that runs along local +x from its cut end at positionM.');

export const plantSchema = z
  .object({
    kind: z.literal('plant'),
    ...pieceCommon,
    heightM: sizeM.default(0.38).describe('With its pot.'),
    spreadM: sizeM.default(0.3).describe('Across the leaves.'),
    stems: z.int().min(1).max(40).default(9),
    leavesPerStem: z.int().min(0).max(40).default(8),
    potDiameterM: z.number().min(0).max(1).default(0.12).describe('0 for no pot.'),
    potHeightM: sizeM.default(0.11),
    potFinish: finishSchema.default({ type: 'matte', reflectanceRgb: [0.36, 0.15, 0.08] }),
    ...leaf,
  })
  .describe('Leafy stems, from a pot or from the table.');

export const greyCardSchema = z
  .object({
    kind: z.literal('greyCard'),
    ...pieceCommon,
    widthM: sizeM.default(0.13),
    heightM: sizeM.default(0.09),
    leanDeg,
    greyReflectance: share.default(0.18),
    whiteReflectance: share.default(0.9),
    blackReflectance: share.default(0.03),
  })
  .describe('Stand-in card: a grey field with a white and a black patch, facing local +z.');

export const greyRampSchema = z
  .object({
    kind: z.literal('greyRamp'),
    ...pieceCommon,
    widthM: sizeM.default(0.24),
    heightM: sizeM.default(0.06),
    leanDeg,
    steps: z.int().min(2).max(24).default(12),
    stepStops: z.number().min(0.05).max(2).default(0.5).describe('Stops from one patch to the next.'),
    lightestReflectance: z.number().min(0.01).max(1).default(0.9),
  })
  .describe('Patches from light to dark, left to right seen from local +z.');

export const ownShapeSchema = z
  .object({
    kind: z.literal('ownShape'),
    ...pieceCommon,
    mesh: storedMeshSchema,
    creaseDeg: z
      .number()
      .min(0)
      .max(180)
      .default(40)
      .describe('Edges that turn by more stay sharp, the rest are smooth; 0 shows every facet.'),
    ...solid,
  })
  .describe('A body from a file. A clear one is one solid of glass or acrylic, and has to be closed.');

/** One schema per kind of dressing, for the union of pieces. */
export const dressingSchemas = [
  stepSchema,
  archSchema,
  sphereSchema,
  slattedWallSchema,
  mouldedWallSchema,
  reedScreenSchema,
  slatScreenSchema,
  windowCutterSchema,
  dappleCutterSchema,
  lightTableSchema,
  coasterSchema,
  traySchema,
  napkinSchema,
  spoonSchema,
  bookSchema,
  branchSchema,
  plantSchema,
  greyCardSchema,
  greyRampSchema,
  ownShapeSchema,
] as const;

export const dressingSchema = z.discriminatedUnion('kind', dressingSchemas);
/** A piece of set dressing. */
export type DressingPiece = z.infer<typeof dressingSchema>;
export type DressingKind = DressingPiece['kind'];
export type DressingOf<K extends DressingKind> = Extract<DressingPiece, { kind: K }>;

export const DRESSING_KINDS = [
  'step',
  'arch',
  'sphere',
  'slattedWall',
  'mouldedWall',
  'reedScreen',
  'slatScreen',
  'windowCutter',
  'dappleCutter',
  'lightTable',
  'coaster',
  'tray',
  'napkin',
  'spoon',
  'book',
  'branch',
  'plant',
  'greyCard',
  'greyRamp',
  'ownShape',
] as const satisfies readonly DressingKind[];

const KINDS: ReadonlySet<string> = new Set(DRESSING_KINDS);
export const isDressingKind = (kind: string): kind is DressingKind => KINDS.has(kind);
export const isDressing = <P extends { readonly kind: string }>(
  piece: P,
): piece is Extract<P, { readonly kind: DressingKind }> => KINDS.has(piece.kind);
