import { z } from 'zod';
import { cameraSchema } from '../camera/records.ts';
import { idSchema, nameSchema } from '../core/schema.ts';
import { fixtureSchema, gripSchema } from '../fixtures/records.ts';
import { pieceSchema, subjectSchema, turntableSchema } from '../scene/records.ts';
import { deliverySchema, deskSchema, referenceSchema } from './frameRecords.ts';

export const SETUP_FORMAT = 'keyglass-setup';
export const SETUP_FORMAT_VERSION = 1;

/** How many records each list may hold. */
export const LIST_LIMITS = { pieces: 200, fixtures: 32, grip: 64, frames: 40 } as const;

const stops = z.number().min(-20).max(20);
const positiveStops = z.number().min(0).max(20);
const share = z.number().min(0).max(1);

export const limitsSchema = z
  .object({
    reflectionCareStops: z.number(),
    reflectionStopStops: z.number(),
    flareCareShare: share,
    flareStopShare: share,
    exposureCareStops: z.number().min(0),
    exposureStopStops: z.number().min(0),
    clippedCareShare: share.describe('Part of the frame that may clip, lamps in view left out.'),
    thingInFrameCareShare: share.describe('Part of the frame that a stand, flag or lamp may cover.'),
    familyClearanceM: z.number().min(0).max(5).describe('Room between a light and what a mirror-like surface mirrors.'),
    shadowCount: z.int().min(0).max(32).describe('Wanted number of shadows of the hero on what it stands on.'),
    shadowSeenStops: positiveStops.describe('Depth from which a shadow counts.'),
    shadowMergeDeg: z.number().min(0).max(90).describe('Shadows nearer than this in direction count as one.'),
    backgroundWanted: z.enum(['any', 'even', 'graded']),
    backgroundRead: z
      .enum(['asSeen', 'litParts', 'smoothed'])
      .describe('Where stripes of shadow are meant: by its lit parts alone, or smoothed over a tenth of the frame.'),
    backgroundCareStops: positiveStops.describe('Spread of an even background.'),
    backgroundStopStops: positiveStops,
    backgroundGradedStops: positiveStops.describe('Least size of a wanted gradient, end to end.'),
    backgroundPlaceU: share.describe('Where the bright end of a wanted gradient should be: 0 left, 1 right.'),
    backgroundPlaceV: share.describe('The same from the top, 0, to the bottom, 1.'),
    backgroundPlaceTolerance: share.describe('How far off it may be, in widths of the frame.'),
    keyToFillMinStops: positiveStops,
    keyToFillMaxStops: positiveStops,
    subjectToBackgroundMinStops: stops,
    subjectToBackgroundMaxStops: stops,
    circleOfConfusionDivisor: z.number().min(300).max(10000).describe('Sensor diagonal over this passes as sharp.'),
    blurCareCircles: z.number().min(0).max(1000).describe('Blur of the hero, in circles of confusion.'),
    blurStopCircles: z.number().min(0).max(1000),
    edgeWanted: z.enum(['any', 'crisp', 'soft']).describe('What the edges of flags and cutters should throw.'),
    edgePenumbraM: z.number().min(0).max(5).describe('Width that parts a crisp edge from a soft one.'),
    edges: z
      .array(
        z.object({
          makerId: idSchema.describe(
            'What throws the edge: flag, cutter, screen, set piece, or a light for its own shapers.',
          ),
          wanted: z.enum(['any', 'crisp', 'soft']),
          penumbraM: z
            .number()
            .min(0)
            .max(5)
            .optional()
            .describe('Parts crisp from soft; that of the frame when left out.'),
        }),
      )
      .max(100)
      .describe('Makers of shadows whose edges are wanted otherwise than those of the frame.'),
    patternContrastCare: share.describe('Contrast that the pattern of a gobo should keep.'),
    lightDirectionCareDeg: z.number().min(0).max(180),
    practicalCareStops: stops.describe('Brightest part of a practical over clipping.'),
    practicalStopStops: stops,
    glowMinStops: stops.describe('How far the drink should stand over what is round it.'),
    edgeContrastCareStops: positiveStops.describe('Outline of the glass against what is behind it.'),
    runOutCarePx: z.number().min(0).max(1000),
    turnBlurCarePx: z.number().min(0).max(1000),
    turnBlurStopPx: z.number().min(0).max(1000),
    flickerCareShare: share,
    turnClipCareShare: share.describe('Part of the frame that highlights of a turn may clip over.'),
    heroTimeCareMin: z.number().min(0).max(600),
    heroTimeStopMin: z.number().min(0).max(600),
    mixNoteMired: z.number().min(0).max(600),
    mixCareMired: z.number().min(0).max(600),
    tintNoteDuv: z.number().min(0).max(0.2).describe('The same toward green or magenta, in Duv.'),
    tintCareDuv: z.number().min(0).max(0.2),
    circuitCareShare: share,
    boomCareNm: z.number().min(0).max(1000),
  })
  .partial();

export const markSchema = z
  .object({
    findingId: z.string().min(1).max(300),
    wanted: z.boolean().describe('True: fine as it is. False: to be got rid of, whatever its figure.'),
    reason: z.string().max(300).default(''),
  })
  .describe('What the photographer says of one finding, for example that a catch-light is meant.');

export const roomSchema = z
  .object({
    temperatureC: z.number().min(-20).max(60).default(22),
    drinkC: z.number().min(-10).max(95).default(6).describe('Of the drink as it is poured.'),
    mainsV: z.number().min(12).max(480).default(230),
    mainsHz: z.union([z.literal(50), z.literal(60)]).default(50),
    circuitA: z.number().min(1).max(400).default(10).describe('Rating of one circuit.'),
  })
  .describe('The room and its mains; these figures where there is none.');

const groupIds = z.array(idSchema).min(2).max(300);
export const groupSchema = z
  .object({ id: idSchema, name: nameSchema, ids: groupIds.describe('Records; each is in one group at most.') })
  .describe('Things that are selected and moved as one.');
export type Group = z.infer<typeof groupSchema>;

export const arrangementSchema = z
  .object({
    groups: z.array(groupSchema).max(100).default([]),
    locked: z
      .array(idSchema)
      .max(400)
      .default([])
      .describe('Records that no hand moves; the id of a frame stands for its camera.'),
  })
  .describe('How things are held together and held still. It changes no light.');
export type Arrangement = z.infer<typeof arrangementSchema>;

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
  ownDesk: z
    .boolean()
    .optional()
    .describe('True: switch, dimmer and colour of the lights are set for this frame alone.'),
  marks: z.array(markSchema).max(200).optional().describe('Findings that are wanted, or unwanted.'),
  framesPerS: z.number().min(1).max(2000).optional().describe('Of a turn; 24 when left out.'),
  pictureWidthPx: z.int().min(16).max(20000).optional().describe('Of the delivered picture; 3840 when left out.'),
  delivery: deliverySchema.optional(),
  desk: deskSchema.optional(),
  reference: referenceSchema.optional(),
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
  room: roomSchema.optional(),
  arrangement: arrangementSchema.optional(),
  frames: z.array(frameSchema).min(1).max(LIST_LIMITS.frames),
});
/** The one document: everything on screen derives from it. */
export type Setup = z.infer<typeof setupSchema>;
