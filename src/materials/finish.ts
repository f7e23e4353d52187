import { z } from 'zod';
import { patternSchema } from './pattern.ts';
import { pictureSchema } from './picture.ts';
import { reflectanceRgbSchema } from './reflectance.ts';

export { type ReflectanceRgb, reflectanceRgbSchema } from './reflectance.ts';

const pattern = patternSchema.optional().describe('Mixes a second colour into the reflectance.');

/** What a surface does with light. `roughness` is the GGX alpha (0 = optically smooth). */
export const finishSchema = z.discriminatedUnion('type', [
  z
    .object({
      type: z.literal('matte'),
      reflectanceRgb: reflectanceRgbSchema,
      pattern,
      picture: pictureSchema.optional(),
    })
    .describe('Lambertian: paper, plaster, cloth, paint.'),
  z
    .object({
      type: z.literal('gloss'),
      reflectanceRgb: reflectanceRgbSchema.describe('Reflectance of the matte base under the coat.'),
      coatIndex: z.number().min(1).max(2.5).default(1.49),
      roughness: z.number().min(0).max(1).default(0),
      pattern,
      dust: z.number().min(0).max(1).optional().describe('Share of the surface that matte specks of dust cover.'),
      scratches: z
        .number()
        .min(0)
        .max(1)
        .optional()
        .describe('Wear, from new to well worn: fine rough lines in the coat that catch a raking light.'),
    })
    .describe('Clear dielectric coat over a matte base: gloss acrylic, varnish, glazed tile, leatherette.'),
  z
    .object({
      type: z.literal('metal'),
      reflectanceRgb: reflectanceRgbSchema,
      roughness: z.number().min(0).max(1).default(0.1),
      pattern,
    })
    .describe('Conductor; reflectance at normal incidence.'),
  z.object({ type: z.literal('mirror'), reflectanceRgb: reflectanceRgbSchema }).describe('Perfect mirror with a loss.'),
  z
    .object({
      type: z.literal('translucent'),
      reflectanceRgb: reflectanceRgbSchema,
      transmittanceRgb: reflectanceRgbSchema,
    })
    .describe(
      'Thin sheet that scatters light to both sides: diffusion cloth, paper, leaf. Reflectance + transmittance <= 1.',
    ),
  z
    .object({ type: z.literal('clear'), roughness: z.number().min(0).max(1).default(0) })
    .describe('Boundary between two clear media; the media say the rest.'),
  z.object({ type: z.literal('black') }).describe('Absorbs everything: the housing of a fixture, a black flag.'),
]);
export type Finish = z.infer<typeof finishSchema>;
