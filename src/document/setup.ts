import { z } from 'zod';
import { cameraSchema } from '../camera/records.ts';
import { idSchema, nameSchema } from '../core/schema.ts';
import { fixtureSchema, gripSchema } from '../fixtures/records.ts';
import { pieceSchema, subjectSchema, turntableSchema } from '../scene/records.ts';

export const SETUP_FORMAT = 'keyglass-setup';
export const SETUP_FORMAT_VERSION = 1;

/** How many records each list may hold. */
export const LIST_LIMITS = { pieces: 200, fixtures: 32, grip: 64, frames: 40 } as const;

export const limitsSchema = z
  .object({
    reflectionCareStops: z.number(),
    reflectionStopStops: z.number(),
    flareCareShare: z.number().min(0).max(1),
    flareStopShare: z.number().min(0).max(1),
    exposureCareStops: z.number().min(0),
    exposureStopStops: z.number().min(0),
  })
  .partial();

export const overrideSchema = z.object({
  collection: z.enum(['pieces', 'fixtures', 'grip']),
  id: idSchema.describe('The record that differs.'),
  patch: z.record(z.string(), z.unknown()).describe('JSON Merge Patch (RFC 7396) on the record.'),
});

export const frameSchema = z.object({
  id: idSchema,
  name: nameSchema,
  kind: z.enum(['still', 'turn']).default('still').describe('A turn is filmed through one round of the turntable.'),
  camera: cameraSchema,
  turntableAngleDeg: z
    .number()
    .min(-3600)
    .max(3600)
    .default(0)
    .describe('From its rest, counter-clockwise from above.'),
  overrides: z
    .array(overrideSchema)
    .default([])
    .describe('Fields of set pieces, fixtures or grip that differ in this frame.'),
  hidden: z.array(idSchema).default([]).describe('Records left out of this frame.'),
  limits: limitsSchema.default({}).describe('Limits of the checks where they differ from the usual ones.'),
});
export type Frame = z.infer<typeof frameSchema>;

export const briefSchema = z.object({
  client: z.string().max(200).default(''),
  mood: z.string().max(2000).default(''),
  deliverables: z.string().max(2000).default(''),
  notes: z.string().max(10000).default(''),
});

export const setupSchema = z.object({
  format: z.literal(SETUP_FORMAT),
  formatVersion: z.literal(SETUP_FORMAT_VERSION),
  title: nameSchema,
  brief: briefSchema.default({ client: '', mood: '', deliverables: '', notes: '' }),
  subject: subjectSchema,
  pieces: z.array(pieceSchema).max(LIST_LIMITS.pieces),
  fixtures: z.array(fixtureSchema).max(LIST_LIMITS.fixtures),
  grip: z.array(gripSchema).max(LIST_LIMITS.grip).default([]),
  turntable: turntableSchema.optional(),
  frames: z.array(frameSchema).min(1).max(LIST_LIMITS.frames),
});
/** The one document: everything on screen derives from it. */
export type Setup = z.infer<typeof setupSchema>;
