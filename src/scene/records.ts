import { z } from 'zod';
import { idSchema, nameSchema, positionMSchema, sizeM, vec3Schema } from '../core/schema.ts';
import { finishSchema } from '../materials/finish.ts';
import { dressingSchemas } from './dressingRecords.ts';
import { clearIndexSchema, pieceCommon } from './pieceCommon.ts';

export * from './dressingRecords.ts';

const absorptionPerMSchema = z
  .tuple([z.number().min(0).max(1e6), z.number().min(0).max(1e6), z.number().min(0).max(1e6)])
  .describe('Beer-Lambert absorption per metre in R, G, B.');

export const glassProfileSchema = z.discriminatedUnion('shape', [
  z.object({
    shape: z.enum(['highball', 'tumbler']),
    heightM: sizeM,
    rimDiameterM: sizeM,
    baseDiameterM: sizeM.describe('Outside, at the foot; equal to the rim for a straight glass.'),
    wallM: z.number().min(0.0004).max(0.02),
    baseThicknessM: z.number().min(0.0005).max(0.06),
    footRadiusM: z.number().min(0).max(0.02).default(0.002).describe('Rounding of the outside bottom edge.'),
    floorFilletM: z.number().min(0).max(0.03).default(0.003).describe('Rounding between inside floor and wall.'),
    rim: z.enum(['rounded', 'flat']).default('rounded').describe('Fire-polished half round, or ground flat.'),
  }),
  z.object({
    shape: z.enum(['coupe', 'conicalStemmed', 'flute', 'wine']),
    heightM: sizeM,
    rimDiameterM: sizeM,
    bowlHeightM: sizeM,
    bowlDiameterM: sizeM.optional().describe('Widest outside diameter of the bowl, for wine; rim when left out.'),
    wallM: z.number().min(0.0004).max(0.02),
    baseThicknessM: z.number().min(0.0005).max(0.06).describe('Glass under the lowest point of the bowl.'),
    stemDiameterM: sizeM.default(0.008),
    footDiameterM: sizeM,
    footThicknessM: z.number().min(0.001).max(0.02).default(0.003),
  }),
  z.object({
    shape: z.literal('bottle'),
    heightM: sizeM,
    bodyDiameterM: sizeM,
    shoulderHeightM: sizeM.describe('Height at which the body begins to narrow.'),
    neckDiameterM: sizeM,
    neckHeightM: sizeM.describe('Length of the straight neck.'),
    wallM: z.number().min(0.0004).max(0.02),
    baseThicknessM: z.number().min(0.0005).max(0.06),
  }),
]);
export type GlassProfile = z.infer<typeof glassProfileSchema>;

export const drinkSchema = z.object({
  name: nameSchema,
  index: z.number().min(1).max(2).default(1.333),
  absorptionPerM: absorptionPerMSchema,
  fillFraction: z.number().min(0.01).max(1).describe('Height of the liquid over the height of the inside.'),
  meniscusM: z.number().min(0).max(0.005).default(0.0015).describe('Height that the liquid climbs at the wall.'),
});
export type Drink = z.infer<typeof drinkSchema>;

export const iceSchema = z.object({
  count: z.int().min(0).max(40),
  edgeM: z.number().min(0.004).max(0.12),
  bevelM: z.number().min(0).max(0.02),
  seed: z.int().min(0).max(4294967295).default(1),
});
export type Ice = z.infer<typeof iceSchema>;

export const pieceSchema = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('glass'),
    ...pieceCommon,
    profile: glassProfileSchema,
    glassIndex: z.number().min(1.3).max(2).default(1.52),
    glassAbsorptionPerM: absorptionPerMSchema.default([2, 0.8, 1.6]),
    drink: drinkSchema.optional(),
    ice: iceSchema.optional(),
  }),
  z
    .object({
      kind: z.literal('tabletop'),
      ...pieceCommon,
      widthM: sizeM,
      depthM: sizeM,
      thicknessM: sizeM.default(0.03),
      finish: finishSchema,
      clearIndex: clearIndexSchema,
    })
    .describe('Its top is at positionM.'),
  z
    .object({
      kind: z.literal('sheet'),
      ...pieceCommon,
      widthM: sizeM,
      depthM: sizeM,
      thicknessM: z.number().min(0.0005).max(0.1).default(0.005),
      edgeRadiusM: z.number().min(0).max(0.05).default(0).describe('Rounding of all edges; 0 is sharp.'),
      finish: finishSchema,
      clearIndex: clearIndexSchema,
    })
    .describe('Acrylic, glass tile, board lying on the table: its underside is at positionM.'),
  z
    .object({
      kind: z.literal('sweep'),
      ...pieceCommon,
      widthM: sizeM,
      floorDepthM: sizeM.describe('Flat part on the table, from the front edge back to where the cove begins.'),
      coveRadiusM: sizeM,
      heightM: sizeM.describe('Top edge above the table.'),
      finish: finishSchema,
    })
    .describe('Paper sweep; positionM is the middle of its front edge, it runs back along local -z.'),
  z.object({
    kind: z.literal('plinthBox'),
    ...pieceCommon,
    widthM: sizeM,
    depthM: sizeM,
    heightM: sizeM,
    edgeRadiusM: z.number().min(0).max(0.05).default(0),
    finish: finishSchema,
    clearIndex: clearIndexSchema,
  }),
  z.object({
    kind: z.literal('plinthCylinder'),
    ...pieceCommon,
    diameterM: sizeM,
    heightM: sizeM,
    edgeRadiusM: z.number().min(0).max(0.05).default(0.001),
    finish: finishSchema,
    clearIndex: clearIndexSchema,
  }),
  z
    .object({
      kind: z.literal('wall'),
      ...pieceCommon,
      widthM: sizeM,
      heightM: sizeM,
      thicknessM: sizeM.default(0.02),
      finish: finishSchema,
      clearIndex: clearIndexSchema,
    })
    .describe('Upright panel; its front faces local +z and stands at positionM.'),
  ...dressingSchemas,
]);
/** A thing on the set. */
export type Piece = z.infer<typeof pieceSchema>;
export type PieceKind = Piece['kind'];

export const turntableSchema = z.object({
  centreM: positionMSchema.describe('Centre of the top.'),
  diameterM: sizeM,
  thicknessM: sizeM.default(0.02),
  rpm: z.number().min(0).max(200),
  runOutM: z.number().min(0).max(0.05).default(0).describe('How far the turning pieces sit off the axis.'),
  carries: z.array(idSchema).describe('Pieces that turn.'),
});
export type Turntable = z.infer<typeof turntableSchema>;

export const subjectSchema = z.object({
  pieceId: idSchema,
  meterPointM: vec3Schema.describe('Where the incident meter is held, in the middle of the hero.'),
});
export type Subject = z.infer<typeof subjectSchema>;
