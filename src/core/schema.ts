import { z } from 'zod';

/** Shared pieces of record schemas. All numbers are finite (the validator refuses NaN and infinities). */
export const vec3Schema = z.tuple([z.number(), z.number(), z.number()]);
export const idSchema = z
  .string()
  .min(1)
  .max(80)
  .regex(/^[A-Za-z0-9:_-]+$/, 'use letters, digits, colon, dash and underscore only');
export const nameSchema = z.string().min(1).max(120);
/** A length of a thing on or round the table. */
export const sizeM = z.number().positive().max(50);
export const positionMSchema = vec3Schema
  .refine((p) => p.every((v) => Math.abs(v) <= 100), 'stay within 100 m of the subject')
  .describe('Metres: x camera-right, y up, z toward the usual camera side; origin on the table top under the hero.');
