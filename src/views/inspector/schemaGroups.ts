import type { z } from 'zod';
import type { Finish } from '../../materials/finish.ts';
import { finishSchema } from '../../materials/finish.ts';
import {
  defaultBubbles,
  defaultCondensation,
  defaultDrink,
  defaultFoam,
  defaultGlassCut,
  defaultIce,
  defaultLabel,
  defaultRimCrust,
  defaultStopper,
} from '../../scene/pieceDefaults.ts';
import { type Field, type FieldGroup, type Patch, toggle } from './fields.ts';
import { labelOfKey } from './fieldWords.ts';
import { finishGroups } from './finishFields.ts';
import { bareType, objectSchemaOf, type PartContext, schemaFields, valueAt } from './schemaFields.ts';

/** What an optional part starts as when it is put in. */
const FIRST_PARTS: Readonly<Record<string, () => object>> = {
  drink: defaultDrink,
  ice: defaultIce,
  cut: defaultGlassCut,
  label: defaultLabel,
  stopper: defaultStopper,
  rimCrust: defaultRimCrust,
  condensation: defaultCondensation,
  foam: defaultFoam,
  bubbles: defaultBubbles,
  wiped: () => ({ bottomM: 0.03, topM: 0.06, azimuthDeg: 90, spanDeg: 120 }),
};

/** Fields for a part that is edited in its own way, in place of those that its schema gives. */
export type OwnGroups = (key: string, value: object, context: PartContext) => FieldGroup[] | null;

export interface GroupContext extends PartContext {
  readonly title: string;
  readonly ownGroups?: OwnGroups;
  /** Finishes of this part may be clear: it is a solid. */
  readonly clearAllowed?: boolean;
}

/**
 * A record or a part of it as groups: its plain values with a switch for each part that it may have, then a group for
 * every part that it has.
 */
export function schemaGroups(schema: z.ZodObject, part: object, context: GroupContext): FieldGroup[] {
  const { title, prefix = '', patch, length, skip = [], ownGroups, clearAllowed = false } = context;
  const switches: Field[] = [];
  const groups: FieldGroup[] = [];
  for (const [key, wrapped] of Object.entries(schema.shape)) {
    if (skip.includes(key)) continue;
    const { type, optional } = bareType(wrapped);
    const value = valueAt(part, key);
    const inner: PartContext = {
      length,
      prefix: `${prefix}${key}-`,
      patch: (changed: Patch) => patch({ [key]: changed }),
    };
    const first = FIRST_PARTS[key];
    if (optional && first && type !== null) {
      switches.push(
        toggle(`${prefix}${key}-has`, labelOfKey(key), value !== undefined, (on) =>
          patch({ [key]: on ? first() : null }),
        ),
      );
    }
    if (typeof value !== 'object' || value === null || Array.isArray(value)) continue;
    const finish = /finish$/i.test(key) ? readFinish(value) : null;
    const innerSchema = objectSchemaOf(type, value);
    const own = ownGroups?.(key, value, inner);
    if (own) groups.push(...own);
    else if (finish) groups.push(...finishGroups(finish, { ...inner, title: finishTitle(key, prefix), clearAllowed }));
    else if (innerSchema) groups.push(...schemaGroups(innerSchema, value, { ...inner, title: labelOfKey(key) }));
  }
  const fields = [...schemaFields(schema, part, context), ...switches];
  return [...(fields.length > 0 ? [{ title, fields }] : []), ...groups];
}

function readFinish(value: object): Finish | null {
  const finish = finishSchema.safeParse(value);
  return finish.success ? finish.data : null;
}

const finishTitle = (key: string, prefix: string): string =>
  prefix === '' ? labelOfKey(key) : `${labelOfKey(key)} of the ${labelOfKey(prefix.replace(/-$/, '')).toLowerCase()}`;
