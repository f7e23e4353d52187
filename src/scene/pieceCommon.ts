import { z } from 'zod';
import { idSchema, nameSchema, positionMSchema } from '../core/schema.ts';
import { absorptionPerMSchema } from './mediumRecords.ts';

/** Fields of every piece. */
export const pieceCommon = {
  id: idSchema,
  name: nameSchema,
  positionM: positionMSchema.describe('Centre of the foot of the piece.'),
  headingDeg: z.number().min(-360).max(360).default(0),
};

const clearIndexSchema = z
  .number()
  .min(1)
  .max(2.5)
  .default(1.49)
  .describe('Index of the solid when its finish is clear.');

/** What a solid is filled with where its finish is clear. */
export const clearBodyFields = {
  clearIndex: clearIndexSchema,
  clearAbsorptionPerM: absorptionPerMSchema
    .optional()
    .describe(
      'Tint of the solid when its finish is clear: Beer-Lambert absorption per metre. Colourless when left out.',
    ),
};
