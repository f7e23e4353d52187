import { z } from 'zod';

export const ICE_FORMS = ['cube', 'block', 'sphere', 'spear', 'cracked', 'crushed'] as const;
export type IceForm = (typeof ICE_FORMS)[number];

export const iceSchema = z.object({
  count: z.int().min(0).max(160),
  edgeM: z.number().min(0.004).max(0.12).describe('Edge of a cube, width of a block or spear, diameter of a sphere.'),
  bevelM: z
    .number()
    .min(0)
    .max(0.02)
    .describe('Rounding of the edges; how far the corners of broken ice are struck off. Of no account to a sphere.'),
  seed: z.int().min(0).max(4294967295).default(1),
  form: z
    .enum(ICE_FORMS)
    .optional()
    .describe('Cubes when left out. A block is a cube drawn out to lengthM; cracked and crushed ice is broken.'),
  lengthM: z
    .number()
    .min(0.004)
    .max(0.3)
    .optional()
    .describe('Of a block (1.3 edges when left out) or a spear (4 edges when left out).'),
  meltMin: z
    .number()
    .min(0)
    .max(240)
    .optional()
    .describe('Minutes in the glass: rounds the edges and takes size, by a rough estimate. 0 when left out.'),
  cloudyCore: z
    .number()
    .min(0)
    .max(1)
    .optional()
    .describe('How cloudy the middle is: 0 clear (when left out), 1 as ice from an ordinary freezer.'),
});
export type Ice = z.infer<typeof iceSchema>;
