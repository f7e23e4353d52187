import { z } from 'zod';
import { nameSchema } from '../core/schema.ts';
import { mediumFields } from './mediumRecords.ts';

const libraryId = z
  .string()
  .max(80)
  .optional()
  .describe('Drink of the library that the figures were taken from. For naming only: the figures here count.');

export const drinkLayerSchema = z
  .object({
    name: nameSchema,
    libraryId,
    ...mediumFields,
    share: z.number().min(0.02).max(0.95).describe('Share of all that is poured, by volume.'),
    blend: z
      .number()
      .min(0)
      .max(1)
      .optional()
      .describe('Share of this layer that has run into what lies under it, as a gradient: 0 sharp (when left out).'),
  })
  .describe('Lies on the drink, or on the layer before it, with a level surface between them.');
export type DrinkLayer = z.infer<typeof drinkLayerSchema>;

export const foamSchema = z
  .object({
    heightM: z.number().min(0.0005).max(0.15).describe('At the wall, above the drink.'),
    domeM: z.number().min(0).max(0.03).default(0.002).describe('How much higher it stands in the middle.'),
    look: z
      .enum(['cloudy', 'matte'])
      .default('cloudy')
      .describe('Light goes in and scatters, or a plain matte surface, which is faster.'),
    scatteringPerM: z.number().min(50).max(20000).default(1500).describe('Of a cloudy head; the same in R, G, B.'),
    tintRgb: z
      .tuple([z.number().min(0).max(1), z.number().min(0).max(1), z.number().min(0).max(1)])
      .default([0.93, 0.9, 0.83])
      .describe('What a thick head gives back of white light, linear.'),
  })
  .describe('Head of a lager, of a sour, of a coffee.');
export type Foam = z.infer<typeof foamSchema>;

export const bubblesSchema = z
  .object({
    rising: z.int().min(0).max(600).describe('In chains from the floor and the wall.'),
    clinging: z.int().min(0).max(600).describe('Sitting on the wall.'),
    minDiameterM: z.number().min(0.0001).max(0.006).default(0.0004),
    maxDiameterM: z.number().min(0.0001).max(0.006).default(0.0012),
    seed: z.int().min(0).max(4294967295).default(1),
  })
  .describe('Bubbles of gas in the drink.');
export type Bubbles = z.infer<typeof bubblesSchema>;

export const drinkSchema = z
  .object({
    name: nameSchema,
    libraryId,
    ...mediumFields,
    fillFraction: z
      .number()
      .min(0.01)
      .max(1)
      .optional()
      .describe('Height of the liquid over the height of the inside. Give this or fillMl.'),
    fillMl: z
      .number()
      .positive()
      .max(20000)
      .optional()
      .describe('What is poured round the ice, millilitres; the level follows. Give this or fillFraction.'),
    meniscusM: z.number().min(0).max(0.005).default(0.0015).describe('Height that the liquid climbs at the wall.'),
    layers: z.array(drinkLayerSchema).min(1).max(2).optional().describe('Poured over the drink, lowest first.'),
    foam: foamSchema.optional(),
    bubbles: bubblesSchema.optional(),
  })
  .refine((drink) => (drink.fillFraction === undefined) !== (drink.fillMl === undefined), {
    message: 'be given, or fillMl instead: exactly one of the two',
    path: ['fillFraction'],
  });
export type Drink = z.infer<typeof drinkSchema>;
