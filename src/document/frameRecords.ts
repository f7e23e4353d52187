import { z } from 'zod';
import { idSchema, nameSchema } from '../core/schema.ts';

/*
 * What a frame carries beside its light path: how it will be cropped, how its lights are handled at the desk, and the
 * picture that it is meant to look like. None of it changes the traced light.
 */

/** Shapes of delivered pictures, width : height, as they are asked for. */
export const CROP_NAMES = ['16:9', '3:2', '4:3', '1:1', '4:5', '2:3', '9:16', '1.85:1', '2.39:1'] as const;
export type CropName = (typeof CROP_NAMES)[number];

export const deliverySchema = z
  .object({
    crops: z.array(z.enum(CROP_NAMES)).max(CROP_NAMES.length).default([]),
    safeAreas: z.boolean().default(false).describe('Show the safe areas for action and for titles.'),
  })
  .describe('Shapes in which the picture will be delivered, shown over it.');
export type Delivery = z.infer<typeof deliverySchema>;

const share = z.number().min(0).max(1);

export const fixtureStateSchema = z.object({
  fixtureId: idSchema,
  on: z.boolean(),
  dimStops: z.number().min(-12).max(0),
  cctK: z.number().min(1500).max(20000),
  duv: z.number().min(-0.03).max(0.03),
});
export type FixtureState = z.infer<typeof fixtureStateSchema>;

export const lookSchema = z
  .object({ name: nameSchema, states: z.array(fixtureStateSchema).max(32) })
  .describe('Switch, dimmer and colour of the lights as they stood once. States of lights that are gone do nothing.');
export type Look = z.infer<typeof lookSchema>;

export const deskGroupSchema = z
  .object({ id: idSchema, name: nameSchema, fixtureIds: z.array(idSchema).min(1).max(32) })
  .describe(
    'Lights that are dimmed together, each keeping its distance in stops. Ids of lights that are gone do nothing.',
  );
export type DeskGroup = z.infer<typeof deskGroupSchema>;

export const deskSchema = z
  .object({
    groups: z.array(deskGroupSchema).max(16).default([]),
    lookA: lookSchema.optional(),
    lookB: lookSchema.optional(),
    blendShare: share.optional().describe('Where between look A, 0, and look B, 1, the lights were last set.'),
  })
  .describe('Groups of lights, and two looks kept to compare and to blend.');
export type Desk = z.infer<typeof deskSchema>;

/** Longest data URL of a reference photo: about 0.5 MB of picture. */
export const MAX_REFERENCE_CHARS = 700_000;

export const referenceSchema = z
  .object({
    name: z.string().max(200).default(''),
    widthPx: z.int().min(1).max(4096),
    heightPx: z.int().min(1).max(4096),
    dataUrl: z
      .string()
      .max(MAX_REFERENCE_CHARS)
      .regex(/^data:image\/(?:jpeg|png|webp);base64,[A-Za-z0-9+/]+={0,2}$/, 'give a JPEG, PNG or WebP as a data URL')
      .describe('The picture itself, so that the setup stays one file.'),
  })
  .describe(
    'A photo whose mood the frame is meant to have. Shown beside the frame; nothing is computed from it but its colours.',
  );
export type Reference = z.infer<typeof referenceSchema>;
