import { z } from 'zod';
import { positionMSchema } from '../core/schema.ts';

export const matteBoxSchema = z
  .object({
    innerWidthM: z.number().min(0.02).max(1),
    innerHeightM: z.number().min(0.02).max(1),
    depthM: z.number().min(0.005).max(0.6).describe('From the front element forward to the mouth of the box.'),
    topFlagM: z.number().min(0).max(0.6).default(0).describe('How far the top flag reaches on beyond the mouth.'),
    sideFlagsM: z.number().min(0).max(0.6).default(0),
  })
  .describe('Black box round the lens axis.');
export type MatteBox = z.infer<typeof matteBoxSchema>;

export const cameraSchema = z.object({
  positionM: positionMSchema.describe('Entrance pupil (the lens, for the thin-lens model).'),
  aimM: positionMSchema,
  rollDeg: z.number().min(-180).max(180).default(0),
  sensorWidthMm: z.number().min(1).max(300).default(36),
  sensorHeightMm: z.number().min(1).max(300).default(24),
  focalLengthMm: z.number().min(4).max(2000),
  focusDistanceM: z.number().min(0.02).max(200).describe('From the lens, along the axis.'),
  apertureFNumber: z.number().min(0.7).max(128).describe('As marked on the lens.'),
  pupilRatio: z.number().min(0.2).max(5).default(1).describe('Exit pupil over entrance pupil diameter.'),
  shutterS: z
    .number()
    .min(1 / 32000)
    .max(600),
  iso: z.number().min(1).max(1e6),
  whiteBalanceK: z.number().min(1500).max(20000).default(5600),
  frontElementDiameterM: z.number().min(0.005).max(0.4).default(0.062),
  matteBox: matteBoxSchema.optional(),
});
export type Camera = z.infer<typeof cameraSchema>;
