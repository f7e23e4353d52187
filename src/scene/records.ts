import { z } from 'zod';
import { idSchema, positionMSchema, sizeM, vec3Schema } from '../core/schema.ts';
import { finishSchema } from '../materials/finish.ts';
import { dressingSchemas } from './dressingRecords.ts';
import { drinkSchema } from './drinkRecords.ts';
import { condensationSchema, garnishSchema, rimCrustSchema } from './garnishRecords.ts';
import { glassCutSchema, glassProfileSchema, labelSchema, stopperSchema } from './glassRecords.ts';
import { iceSchema } from './iceRecords.ts';
import { absorptionPerMSchema } from './mediumRecords.ts';
import { clearBodyFields, pieceCommon } from './pieceCommon.ts';

export * from './dressingRecords.ts';
export * from './drinkRecords.ts';
export * from './garnishRecords.ts';
export * from './glassRecords.ts';
export * from './iceRecords.ts';

export const pieceSchema = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('glass'),
    ...pieceCommon,
    profile: glassProfileSchema,
    glassIndex: z.number().min(1.3).max(2).default(1.52),
    glassAbsorptionPerM: absorptionPerMSchema.default([2, 0.8, 1.6]),
    frost: z
      .number()
      .min(0)
      .max(1)
      .optional()
      .describe('Frosted outside: 0 polished (when left out), 0.5 satin, 1 sand-blasted.'),
    cut: glassCutSchema.optional(),
    label: labelSchema.optional(),
    stopper: stopperSchema.optional(),
    drink: drinkSchema.optional(),
    ice: iceSchema.optional(),
    garnish: z.array(garnishSchema).max(12).optional(),
    rimCrust: rimCrustSchema.optional(),
    condensation: condensationSchema.optional(),
  }),
  z
    .object({ kind: z.literal('garnish'), ...pieceCommon, item: garnishSchema })
    .describe('Fruit, leaves, a straw or a stirrer by itself, lying at positionM.'),
  z
    .object({
      kind: z.literal('tabletop'),
      ...pieceCommon,
      widthM: sizeM,
      depthM: sizeM,
      thicknessM: sizeM.default(0.03),
      finish: finishSchema,
      ...clearBodyFields,
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
      ...clearBodyFields,
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
    ...clearBodyFields,
  }),
  z.object({
    kind: z.literal('plinthCylinder'),
    ...pieceCommon,
    diameterM: sizeM,
    heightM: sizeM,
    edgeRadiusM: z.number().min(0).max(0.05).default(0.001),
    finish: finishSchema,
    ...clearBodyFields,
  }),
  z
    .object({
      kind: z.literal('wall'),
      ...pieceCommon,
      widthM: sizeM,
      heightM: sizeM,
      thicknessM: sizeM.default(0.02),
      finish: finishSchema,
      ...clearBodyFields,
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
