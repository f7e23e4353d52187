import { z } from 'zod';
import type { Vec3 } from '../../core/vec3.ts';
import { choice, type Field, type Patch, point, toggle } from './fields.ts';
import { labelOfKey, plainWords } from './fieldWords.ts';
import { absorptionFields, scatteringFields } from './mediumFields.ts';
import { numberFromSchema } from './numberFromSchema.ts';

export interface PartContext {
  /** Small things are measured in millimetres, sets in centimetres. */
  readonly length: 'mm' | 'cm';
  /** Puts changed fields of the part back where they belong in the record. */
  patch(part: Patch): Patch;
  /** Goes before each key, so that parts of one record do not clash. */
  readonly prefix?: string;
  readonly skip?: readonly string[];
}

export interface BareType {
  readonly type: unknown;
  /** May be left out of the record. A field with a default is always there. */
  readonly optional: boolean;
}

/** A schema without its wrappings. */
export function bareType(schema: unknown): BareType {
  let type = schema;
  let optional = false;
  while (type instanceof z.ZodOptional || type instanceof z.ZodDefault || type instanceof z.ZodNullable) {
    if (type instanceof z.ZodOptional) optional = true;
    type = type.unwrap();
  }
  return { type, optional };
}

/** The schema of an object, or of the form of it that a value has; null for anything else. */
export function objectSchemaOf(type: unknown, value: unknown): z.ZodObject | null {
  if (type instanceof z.ZodObject) return type;
  if (!(type instanceof z.ZodDiscriminatedUnion)) return null;
  const { discriminator } = type.def;
  const kind = valueAt(value, discriminator);
  for (const option of type.options) {
    if (!(option instanceof z.ZodObject)) continue;
    const named: unknown = option.shape[discriminator];
    if (named instanceof z.ZodType && named.safeParse(kind).success) return option;
  }
  return null;
}

/** A field of plain data; undefined where there is none. */
export const valueAt = (part: unknown, key: string): unknown =>
  typeof part === 'object' && part !== null ? new Map<string, unknown>(Object.entries(part)).get(key) : undefined;

/** What optional figures come to when they are left out. */
const LEFT_OUT: Readonly<Record<string, (part: object) => unknown>> = {
  frost: () => 0,
  meltMin: () => 0,
  cloudyCore: () => 0,
  mist: () => 0,
  dust: () => 0,
  scratches: () => 0,
  anisotropy: () => 0,
  powerW: () => 0,
  bowlDiameterM: (part) => valueAt(part, 'rimDiameterM'),
};
const FIRST_FIGURES: Readonly<Record<string, number>> = { bottomM: 0.01, topM: 0.09, lengthM: 0.05 };
/** As a drink with a little fruit in it. */
const FIRST_CLOUD_PER_M = [20, 20, 20];
const WHITE: Vec3 = [0.85, 0.85, 0.85];
const NOT_EDITED = ['libraryId', 'id'];

/**
 * A field for every plain value of a record or of a part of it, by its schema: what it may be, and by its name: the unit
 * and the words. A new value can so be edited from the day that it exists. Parts that are objects are left to
 * `schemaGroups`.
 */
export function schemaFields(schema: z.ZodObject, part: object, context: PartContext): Field[] {
  const { patch, prefix = '', skip = [] } = context;
  return Object.entries(schema.shape).flatMap(([key, wrapped]): Field[] => {
    if (skip.includes(key) || NOT_EDITED.includes(key)) return [];
    // Which way a cloud scatters is nothing to ask where there is none.
    if (key === 'anisotropy' && valueAt(part, 'scatteringPerM') === undefined) return [];
    const { type, optional } = bareType(wrapped);
    const value = valueAt(part, key);
    const id = `${prefix}${key}`;
    const label = labelOfKey(key);
    const put = (next: unknown): Patch => patch({ [key]: next });
    if (type instanceof z.ZodNumber) {
      return numberFields({ key, id, label, type, optional, value, part, put, length: context.length });
    }
    if (type instanceof z.ZodBoolean) return [toggle(id, label, value === true, put)];
    if (type instanceof z.ZodEnum) {
      const options = type.options.map(String);
      const now = typeof value === 'string' ? value : options[0];
      return [choice(id, label, now, Object.fromEntries(options.map((option) => [plainWords(option), option])), put)];
    }
    if (type instanceof z.ZodString && typeof value === 'string') {
      return [{ type: 'text', key: id, label, value, patch: (text) => put(text.trim().slice(0, 120) || value) }];
    }
    if (type instanceof z.ZodTuple) return tripleFields(key, id, label, value, put);
    return [];
  });
}

interface NumberInput {
  readonly key: string;
  readonly id: string;
  readonly label: string;
  readonly type: z.ZodNumber;
  readonly optional: boolean;
  readonly value: unknown;
  readonly part: object;
  readonly length: 'mm' | 'cm';
  put(next: unknown): Patch;
}

function numberFields({ key, id, label, type, optional, value, part, length, put }: NumberInput): Field[] {
  const settings = { key, id, label, type, length };
  if (!optional) return typeof value === 'number' ? [numberFromSchema({ ...settings, value, put })] : [];
  const leftOut = LEFT_OUT[key]?.(part);
  if (typeof leftOut === 'number') {
    const now = typeof value === 'number' ? value : leftOut;
    return [
      numberFromSchema({ ...settings, value: now, put: (next) => put(leftOut === 0 && next === 0 ? null : next) }),
    ];
  }
  const given = typeof value === 'number';
  const first = FIRST_FIGURES[key] ?? Math.max(0, type.minValue ?? 0);
  const fixed = toggle(`${id}-set`, `${label}: own figure`, given, (on) => put(on ? first : null));
  return given ? [fixed, numberFromSchema({ ...settings, value, put })] : [fixed];
}

function tripleFields(key: string, id: string, label: string, value: unknown, put: (next: unknown) => Patch): Field[] {
  const triple = isVec3(value) ? value : null;
  if (key.endsWith('Rgb')) return [{ type: 'colour', key: id, label, value: triple ?? WHITE, patch: put }];
  if (/absorptionPerM$/i.test(key)) return triple ? absorptionFields(id, triple, put) : [];
  if (/scatteringPerM$/i.test(key)) {
    const cloudy = toggle(`${id}-has`, 'Cloudy', triple !== null, (on) => put(on ? FIRST_CLOUD_PER_M : null));
    return triple ? [cloudy, ...scatteringFields(id, triple, put)] : [cloudy];
  }
  return triple && key.endsWith('M') ? [point(id, label, triple, put)] : [];
}

const isVec3 = (value: unknown): value is Vec3 =>
  Array.isArray(value) && value.length === 3 && value.every((v) => typeof v === 'number');
