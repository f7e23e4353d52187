import { z } from 'zod';
import { createMergePatch } from '../../document/mergePatch.ts';
import { isEqualData } from '../../document/plainData.ts';
import { type Finish, finishSchema } from '../../materials/finish.ts';
import { FINISH_LIBRARY } from '../../materials/library/index.ts';
import { type Pattern, patternSchema } from '../../materials/pattern.ts';
import { choice, type Field, type FieldGroup, type Patch } from './fields.ts';
import { plainWords } from './fieldWords.ts';
import { objectSchemaOf, type PartContext, schemaFields } from './schemaFields.ts';

const FINISH_WORDS: Readonly<Record<string, Finish['type']>> = {
  'matte (paper, plaster)': 'matte',
  'gloss coat (acrylic, varnish)': 'gloss',
  metal: 'metal',
  mirror: 'mirror',
  'translucent (cloth)': 'translucent',
  black: 'black',
};
const CLEAR_WORDS = { 'clear all through': 'clear' } as const;

const FIRST_REFLECTANCE = [0.18, 0.18, 0.18] as const;
const FIRST_SECOND_RGB = [0.06, 0.05, 0.04] as const;
const OWN = 'its own';
const NO_PATTERN = 'none';

export interface FinishContext extends PartContext {
  readonly title: string;
  /** The thing is a solid, so it can be clear all through. */
  readonly clearAllowed: boolean;
}

/**
 * What a surface does with light: from the shelf, or figure by figure, and the pattern in it. `patch` of the context takes
 * a part of the finish.
 */
export function finishGroups(finish: Finish, context: FinishContext): FieldGroup[] {
  const { title, prefix = '', patch, clearAllowed } = context;
  const schema = objectSchemaOf(finishSchema, finish);
  const words = clearAllowed || finish.type === 'clear' ? { ...FINISH_WORDS, ...CLEAR_WORDS } : FINISH_WORDS;
  const type = choice(`${prefix}type`, 'Finish', finish.type, words, (next) =>
    patch(createMergePatch(finish, startFinish(finish, next))),
  );
  const surface: Field[] = [
    shelfField(finish, context),
    type,
    ...(schema ? schemaFields(schema, finish, context) : []),
    ...('pattern' in finish || takesPattern(finish) ? [patternField(finish, context)] : []),
  ];
  return [{ title, fields: surface }, ...patternGroups(finish, title, context)];
}

const takesPattern = ({ type }: Finish): boolean => type === 'matte' || type === 'gloss' || type === 'metal';
const patternOf = (finish: Finish): Pattern | undefined => ('pattern' in finish ? finish.pattern : undefined);

/** How a pattern lies depends on the thing that it is in, not on the stuff: it does not tell two stuffs apart. */
function shelfField(finish: Finish, { prefix = '', patch }: PartContext): Field {
  const laid = FINISH_LIBRARY.map(({ name, finish: shelved }) => ({
    name,
    finish: laidAs(shelved, patternOf(finish)),
  }));
  const entry = laid.find((candidate) => isEqualData(candidate.finish, finish));
  const names = [...(entry ? [] : [OWN]), ...laid.map(({ name }) => name)];
  return choice(`${prefix}material`, 'Material', entry?.name ?? OWN, wordsAsOptions(names), (name) => {
    const chosen = laid.find((candidate) => candidate.name === name);
    return chosen ? patch(createMergePatch(finish, chosen.finish)) : patch({});
  });
}

function laidAs(finish: Finish, like: Pattern | undefined): Finish {
  const pattern = patternOf(finish);
  if (!pattern || !like) return finish;
  const plane = 'plane' in pattern && 'plane' in like ? { plane: like.plane } : {};
  const along = 'along' in pattern && 'along' in like ? { along: like.along } : {};
  const seed = like.type === pattern.type ? { seed: like.seed } : {};
  const laid = patternSchema.safeParse({ ...pattern, ...plane, ...along, ...seed });
  return laid.success ? finishSchema.parse({ ...finish, pattern: laid.data }) : finish;
}

/** Types of patterns, as the schema lists them. */
const PATTERN_TYPES: readonly string[] = patternSchema.options.flatMap(({ shape }) =>
  shape.type instanceof z.ZodLiteral ? [shape.type.value] : [],
);

function patternField(finish: Finish, { prefix = '', patch }: PartContext): Field {
  const pattern = patternOf(finish);
  const options = Object.fromEntries([NO_PATTERN, ...PATTERN_TYPES].map((type) => [plainWords(type), type]));
  return choice(`${prefix}patternType`, 'Pattern', pattern?.type ?? NO_PATTERN, options, (type) => {
    if (type === (pattern?.type ?? NO_PATTERN)) return patch({});
    if (type === NO_PATTERN) return patch({ pattern: null });
    const first = patternSchema.safeParse({ type, secondRgb: pattern?.secondRgb ?? FIRST_SECOND_RGB });
    if (!first.success) return patch({});
    return patch({ pattern: pattern ? createMergePatch(pattern, first.data) : first.data });
  });
}

function patternGroups(finish: Finish, title: string, { prefix = '', patch }: PartContext): FieldGroup[] {
  const pattern = patternOf(finish);
  const schema = pattern && objectSchemaOf(patternSchema, pattern);
  if (!pattern || !schema) return [];
  const context = {
    length: 'mm' as const,
    prefix: `${prefix}pattern-`,
    patch: (part: Patch) => patch({ pattern: part }),
  };
  return [{ title: `Pattern of the ${title.toLowerCase()}`, fields: schemaFields(schema, pattern, context) }];
}

/** Another finish, with the colour kept where both have one. */
function startFinish(finish: Finish, type: string): object {
  if (type === finish.type) return finish;
  const reflectanceRgb = 'reflectanceRgb' in finish ? finish.reflectanceRgb : FIRST_REFLECTANCE;
  switch (type) {
    case 'gloss':
      return { type, reflectanceRgb, coatIndex: 1.49, roughness: 0 };
    case 'metal':
      return { type, reflectanceRgb, roughness: 0.1 };
    case 'translucent':
      return {
        type,
        reflectanceRgb: reflectanceRgb.map((value) => Math.min(0.45, value)),
        transmittanceRgb: [0.5, 0.5, 0.5],
      };
    case 'clear':
      return { type, roughness: 0 };
    case 'black':
      return { type };
    default:
      return { type, reflectanceRgb };
  }
}

const wordsAsOptions = (names: readonly string[]): Record<string, string> =>
  Object.fromEntries(names.map((name) => [name, name]));
