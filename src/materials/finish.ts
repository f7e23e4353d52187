import { z } from 'zod';

/** Linear reflectance, Rec. 709 primaries, D65, each channel 0..1. */
export const reflectanceRgbSchema = z.tuple([
  z.number().min(0).max(1),
  z.number().min(0).max(1),
  z.number().min(0).max(1),
]);
export type ReflectanceRgb = z.infer<typeof reflectanceRgbSchema>;

/** What a surface does with light. `roughness` is the GGX alpha (0 = optically smooth). */
export const finishSchema = z.discriminatedUnion('type', [
  z
    .object({ type: z.literal('matte'), reflectanceRgb: reflectanceRgbSchema })
    .describe('Lambertian: paper, plaster, cloth, paint.'),
  z
    .object({
      type: z.literal('gloss'),
      reflectanceRgb: reflectanceRgbSchema.describe('Reflectance of the matte base under the coat.'),
      coatIndex: z.number().min(1).max(2.5).default(1.49),
      roughness: z.number().min(0).max(1).default(0),
    })
    .describe('Clear dielectric coat over a matte base: gloss acrylic, varnish, glazed tile, leatherette.'),
  z
    .object({
      type: z.literal('metal'),
      reflectanceRgb: reflectanceRgbSchema,
      roughness: z.number().min(0).max(1).default(0.1),
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
