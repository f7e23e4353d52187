import { z } from 'zod';
import { sizeM } from '../core/schema.ts';
import { finishSchema } from '../materials/finish.ts';

const wallM = z.number().min(0.0004).max(0.02);
const baseThicknessM = z.number().min(0.0005).max(0.06);

const straightFields = {
  heightM: sizeM,
  rimDiameterM: sizeM,
  baseDiameterM: sizeM.describe('Outside, at the foot; equal to the rim for a straight glass.'),
  wallM,
  baseThicknessM,
  footRadiusM: z.number().min(0).max(0.02).default(0.002).describe('Rounding of the outside bottom edge.'),
  floorFilletM: z.number().min(0).max(0.03).default(0.003).describe('Rounding between inside floor and wall.'),
  rim: z.enum(['rounded', 'flat']).default('rounded').describe('Fire-polished half round, or ground flat.'),
};

export const handleSchema = z
  .object({
    middleM: sizeM.describe('Height of the middle of the handle above the foot.'),
    spanM: sizeM.describe('Height between the middles of its two roots.'),
    reachM: sizeM.describe('From the wall out to the middle of the grip.'),
    thicknessM: z.number().min(0.002).max(0.04),
    azimuthDeg: z.number().min(-360).max(360).default(0).describe('Where round the vessel; 0 is camera right.'),
  })
  .describe('Round bar: two level roots, two bends, an upright grip.');

export const profilePointSchema = z.object({
  r: z.number().min(0).max(10000).describe('Distance from the axis.'),
  y: z.number().min(-10000).max(10000).describe('Height.'),
  round: z.number().min(0).max(10000).optional().describe('Radius that rounds this corner; sharp when left out.'),
  bulge: z
    .number()
    .min(-20)
    .max(20)
    .optional()
    .describe(
      'Makes the side from here to the next point an arc: tangent of a quarter of its angle, positive when it turns left.',
    ),
});
export type DrawnPoint = z.infer<typeof profilePointSchema>;
export const MOST_PROFILE_POINTS = 400;

export const glassProfileSchema = z.discriminatedUnion('shape', [
  z.object({ shape: z.enum(['highball', 'tumbler', 'doubleTumbler', 'shot']), ...straightFields }),
  z.object({
    shape: z.enum(['coupe', 'conicalStemmed', 'flute', 'wine', 'copa']),
    heightM: sizeM,
    rimDiameterM: sizeM,
    bowlHeightM: sizeM,
    bowlDiameterM: sizeM.optional().describe('Widest outside diameter of the bowl, for wine; rim when left out.'),
    wallM,
    baseThicknessM: baseThicknessM.describe('Glass under the lowest point of the bowl.'),
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
    wallM,
    baseThicknessM,
  }),
  z
    .object({
      shape: z.literal('carafe'),
      heightM: sizeM,
      footDiameterM: sizeM.describe('Flat part that it stands on.'),
      bodyDiameterM: sizeM,
      bodyHeightM: sizeM.describe('Height of the widest part.'),
      neckDiameterM: sizeM,
      neckHeightM: sizeM.describe('Height of the narrowest part.'),
      rimDiameterM: sizeM,
      wallM,
      baseThicknessM,
    })
    .describe('Round belly, drawn-in neck, flared lip.'),
  z.object({ shape: z.literal('mug'), ...straightFields, handle: handleSchema }),
  z
    .object({
      shape: z.literal('ownProfile'),
      heightM: sizeM.describe('Whole height; the drawn points are scaled to it.'),
      points: z
        .array(profilePointSchema)
        .min(4)
        .max(MOST_PROFILE_POINTS)
        .describe('From the axis under the foot, up the outside, over the rim, down the inside to the axis. Any unit.'),
    })
    .describe('A profile of your own: half of the section through glass, drawn once round.'),
]);
export type GlassProfile = z.infer<typeof glassProfileSchema>;

export const glassCutSchema = z
  .object({
    style: z
      .enum(['ribs', 'flutes', 'hammered', 'facets'])
      .describe(
        'Raised upright bars, hollow upright grooves, shallow round dents, or flat faces ground round the glass.',
      ),
    count: z.int().min(3).max(160).describe('Round the glass; for hammered, dents round its widest part.'),
    depthM: z.number().min(0.0001).max(0.01).describe('How far the middle of a bar stands out, or a hollow goes in.'),
    bottomM: z.number().min(0).max(10),
    topM: z.number().min(0).max(10),
    seed: z.int().min(0).max(4294967295).default(1),
  })
  .describe('Pressed or cut pattern on the outside, between two heights above the foot.');
export type GlassCut = z.infer<typeof glassCutSchema>;

export const labelSchema = z
  .object({
    bottomM: z.number().min(0).max(10).describe('Height of its lower edge above the foot.'),
    heightM: sizeM,
    spanDeg: z.number().min(1).max(360),
    azimuthDeg: z.number().min(-360).max(360).default(90).describe('Where its middle stands; 90 is toward the camera.'),
    finish: finishSchema,
  })
  .describe('Thin paper round the outside, 0.1 mm off the glass.');
export type Label = z.infer<typeof labelSchema>;

export const stopperSchema = z
  .object({
    kind: z.enum(['cork', 'glass']),
    insertM: z.number().min(0.003).max(0.1).default(0.02).describe('How deep it sits in the neck.'),
    heightM: z.number().min(0.002).max(0.15).default(0.012).describe('How far it stands out of the neck.'),
  })
  .describe('Closes a bottle or a carafe.');
export type Stopper = z.infer<typeof stopperSchema>;
