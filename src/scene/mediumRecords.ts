import { z } from 'zod';

export const absorptionPerMSchema = z
  .tuple([z.number().min(0).max(1e6), z.number().min(0).max(1e6), z.number().min(0).max(1e6)])
  .describe('Beer-Lambert absorption per metre in R, G, B.');

/** What fills a drink, a layer or a head of foam. */
export const mediumFields = {
  index: z.number().min(1).max(2).default(1.333),
  absorptionPerM: absorptionPerMSchema,
  scatteringPerM: z
    .tuple([z.number().min(0).max(1e5), z.number().min(0).max(1e5), z.number().min(0).max(1e5)])
    .optional()
    .describe('Scattering per metre in R, G, B: what makes a drink cloudy. None when left out.'),
  anisotropy: z
    .number()
    .min(-0.98)
    .max(0.98)
    .optional()
    .describe('Mean cosine of scattering (Henyey-Greenstein): 0 even all round, toward 1 ahead. 0 when left out.'),
};
