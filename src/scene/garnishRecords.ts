import { z } from 'zod';

export const FRUITS = ['lemon', 'lime', 'orange', 'grapefruit'] as const;
export type Fruit = (typeof FRUITS)[number];

const seed = z.int().min(0).max(4294967295).default(1);
const where = {
  azimuthDeg: z
    .number()
    .min(-360)
    .max(360)
    .default(0)
    .describe('Where round the glass: 0 at camera right, 90 toward the camera. Standing alone, how far it is turned.'),
};
const smallM = z.number().min(0.001).max(0.5);

export const garnishSchema = z.discriminatedUnion('kind', [
  z
    .object({
      kind: z.literal('citrusWheel'),
      ...where,
      fruit: z.enum(FRUITS),
      diameterM: smallM.default(0.055),
      thicknessM: z.number().min(0.001).max(0.02).default(0.005),
      place: z.enum(['rim', 'inside']).default('rim').describe('Slit and set on the rim, or against the wall inside.'),
      seed,
    })
    .describe('Round slice of a citrus fruit.'),
  z
    .object({
      kind: z.literal('citrusWedge'),
      ...where,
      fruit: z.enum(FRUITS),
      diameterM: smallM.default(0.052),
      spanDeg: z.number().min(20).max(120).default(60).describe('Of the whole turn of the fruit.'),
      seed,
    })
    .describe('Wedge set on the rim.'),
  z
    .object({
      kind: z.literal('twist'),
      ...where,
      fruit: z.enum(FRUITS),
      lengthM: smallM.default(0.09),
      widthM: z.number().min(0.002).max(0.04).default(0.007),
      turns: z.number().min(0).max(6).default(2),
      seed,
    })
    .describe('Strip of peel hung over the rim.'),
  z
    .object({
      kind: z.literal('olives'),
      ...where,
      count: z.int().min(1).max(4).default(2),
      lengthM: z.number().min(0.008).max(0.04).default(0.022).describe('Of one olive.'),
      pick: z.enum(['metal', 'wood']).default('metal'),
      pickLengthM: smallM.default(0.11),
      rest: z.enum(['leaning', 'across']).default('leaning').describe('Leans in the glass, or lies across the rim.'),
      seed,
    })
    .describe('Olives on a pick.'),
  z
    .object({
      kind: z.literal('mint'),
      ...where,
      pairs: z.int().min(1).max(6).default(5).describe('Pairs of leaves.'),
      leafLengthM: z.number().min(0.008).max(0.08).default(0.032),
      seed,
    })
    .describe('Sprig that stands out of the drink at the rim.'),
  z
    .object({
      kind: z.literal('berries'),
      ...where,
      berry: z.enum(['blueberry', 'raspberry', 'cherry', 'cranberry']),
      count: z.int().min(1).max(12).default(3),
      diameterM: z.number().min(0.004).max(0.05).default(0.014),
      seed,
    })
    .describe('Float on the drink, or lie on the ice or the floor.'),
  z
    .object({
      kind: z.literal('straw'),
      ...where,
      material: z.enum(['paper', 'metal', 'glass', 'bamboo']).default('paper'),
      diameterM: z.number().min(0.002).max(0.02).default(0.006),
      lengthM: smallM.default(0.2),
      colourRgb: z
        .tuple([z.number().min(0).max(1), z.number().min(0).max(1), z.number().min(0).max(1)])
        .optional()
        .describe('Linear reflectance of paper; white when left out.'),
    })
    .describe('Thin tube that leans on the rim.'),
  z
    .object({
      kind: z.literal('stirrer'),
      ...where,
      material: z.enum(['glass', 'metal', 'wood']).default('glass'),
      diameterM: z.number().min(0.0015).max(0.015).default(0.005),
      lengthM: smallM.default(0.18),
    })
    .describe('Rod with a ball at each end.'),
]);
/** One thing on or in a drink, or beside it on the table. */
export type Garnish = z.infer<typeof garnishSchema>;
export type GarnishKind = Garnish['kind'];

export const condensationSchema = z
  .object({
    dropsPerCm2: z.number().min(0).max(60).default(8).describe('At most 1500 drops in all.'),
    minDiameterM: z.number().min(0.0002).max(0.008).default(0.0008),
    maxDiameterM: z.number().min(0.0002).max(0.008).default(0.0036),
    mist: z
      .number()
      .min(0)
      .max(1)
      .optional()
      .describe('Film of drops too small to see apart, between the others: 0 none (when left out), 1 dense.'),
    bottomM: z.number().min(0).max(10).optional().describe('Lowest drop above the foot; near the foot when left out.'),
    topM: z.number().min(0).max(10).optional().describe('Highest drop; a little over the drink when left out.'),
    wiped: z
      .object({
        bottomM: z.number().min(0).max(10),
        topM: z.number().min(0).max(10),
        azimuthDeg: z.number().min(-360).max(360).default(90),
        spanDeg: z.number().min(1).max(360).default(360),
      })
      .optional()
      .describe('A band wiped dry, where a finger or a cloth went.'),
    seed,
  })
  .describe('Drops of water on the cold outside of a glass.');
export type Condensation = z.infer<typeof condensationSchema>;

export const rimCrustSchema = z
  .object({
    kind: z.enum(['salt', 'sugar']),
    depthM: z.number().min(0.001).max(0.03).default(0.005).describe('How far it reaches down the outside.'),
    spanDeg: z.number().min(10).max(360).default(360),
    azimuthDeg: z.number().min(-360).max(360).default(90).describe('Middle of a crust that does not go all round.'),
    seed,
  })
  .describe('Salt or sugar on the rim.');
export type RimCrust = z.infer<typeof rimCrustSchema>;
