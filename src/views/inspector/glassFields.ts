import type { z } from 'zod';
import { createMergePatch } from '../../document/mergePatch.ts';
import { isEqualData } from '../../document/plainData.ts';
import { GLASS_TINTS } from '../../materials/glassTints.ts';
import { defaultGlassProfile, defaultIceOf, GLASS_SHAPES } from '../../scene/pieceDefaults.ts';
import {
  type GlassProfile,
  glassProfileSchema,
  ICE_FORMS,
  type Ice,
  iceSchema,
  type Piece,
} from '../../scene/records.ts';
import { drinkGroups } from './drinkFields.ts';
import { choice, type Field, type FieldGroup } from './fields.ts';
import { plainWords } from './fieldWords.ts';
import { shapeWords } from './pieceWords.ts';
import { objectSchemaOf, type PartContext, schemaFields } from './schemaFields.ts';
import { schemaGroups } from './schemaGroups.ts';

type Glass = Extract<Piece, { kind: 'glass' }>;

const OWN = 'its own';
/** Soda-lime glass is written as 1.52 as often as by its exact index. */
const SAME_INDEX = 0.006;

/** A glass with all that is on it and in it, the garnish aside. */
export function glassGroups(glass: Glass, schema: z.ZodObject, skip: readonly string[]): FieldGroup[] {
  const groups = schemaGroups(schema, glass, {
    title: 'Glass and what goes with it',
    length: 'mm',
    patch: (part) => part,
    skip: [...skip, 'garnish', 'profile'],
    ownGroups: (key, _value, context) => {
      if (key === 'drink' && glass.drink) return drinkGroups(glass.drink, glass, context);
      if (key === 'ice' && glass.ice) return [{ title: 'Ice', fields: iceFields(glass.ice, context) }];
      return null;
    },
  });
  const [glassItself, ...parts] = groups;
  const fields = glassItself ? [tintField(glass), ...glassItself.fields] : [tintField(glass)];
  return [...profileGroups(glass.profile), { title: 'Glass', fields }, ...parts];
}

function profileGroups(profile: GlassProfile): FieldGroup[] {
  const shape = choice(
    'shape',
    'Shape',
    profile.shape,
    Object.fromEntries(GLASS_SHAPES.map((value) => [shapeWords(value), value])),
    (value) => {
      const next = GLASS_SHAPES.find((known) => known === value) ?? profile.shape;
      if (next === profile.shape) return {};
      return { profile: createMergePatch(profile, defaultGlassProfile(next)) };
    },
  );
  const schema = objectSchemaOf(glassProfileSchema, profile);
  if (!schema) return [{ title: 'Form', fields: [shape] }];
  const [first, ...parts] = schemaGroups(schema, profile, {
    title: 'Form',
    length: 'mm',
    prefix: 'profile-',
    patch: (part) => ({ profile: part }),
    skip: ['shape'],
  });
  return [{ title: 'Form', fields: [shape, ...(first?.fields ?? [])] }, ...parts];
}

/** Glass from the shelf: its index and its colour. */
function tintField({ glassIndex, glassAbsorptionPerM }: Glass): Field {
  const known = GLASS_TINTS.find(
    (tint) =>
      Math.abs(tint.index - glassIndex) < SAME_INDEX && isEqualData([...tint.absorptionPerM], [...glassAbsorptionPerM]),
  );
  const names = [...(known ? [] : [OWN]), ...GLASS_TINTS.map(({ name }) => name)];
  return choice('tint', 'Glass', known?.name ?? OWN, Object.fromEntries(names.map((n) => [n, n])), (name) => {
    const tint = GLASS_TINTS.find((candidate) => candidate.name === name);
    return tint ? { glassIndex: tint.index, glassAbsorptionPerM: [...tint.absorptionPerM] } : {};
  });
}

/** Another form of ice starts from its own usual size and number. */
function iceFields(ice: Ice, context: PartContext): Field[] {
  const { prefix = '', patch } = context;
  const form = ice.form ?? ICE_FORMS[0];
  const forms = Object.fromEntries(ICE_FORMS.map((value) => [plainWords(value), value]));
  return [
    choice(`${prefix}form`, 'Form', form, forms, (value) => {
      const next = ICE_FORMS.find((known) => known === value);
      if (!next || next === form) return patch({});
      const kept = Object.fromEntries(Object.entries(ice).filter(([key]) => KEPT_OF_ICE.includes(key)));
      return patch(createMergePatch(ice, { ...defaultIceOf(next), ...kept }));
    }),
    ...schemaFields(iceSchema, ice, {
      ...context,
      skip: form === 'block' || form === 'spear' ? ['form'] : ['form', 'lengthM'],
    }),
  ];
}

const KEPT_OF_ICE: readonly string[] = ['meltMin', 'cloudyCore', 'seed'];
