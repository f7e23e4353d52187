import { z } from 'zod';
import { cameraSchema, matteBoxSchema } from '../../src/camera/records.ts';
import { idSchema, nameSchema, positionMSchema, vec3Schema } from '../../src/core/schema.ts';
import {
  briefSchema,
  frameSchema,
  limitsSchema,
  overrideSchema,
  SETUP_FORMAT_VERSION,
  setupSchema,
} from '../../src/document/setup.ts';
import { distributionSchema, openingSchema } from '../../src/fixtures/measuredRecords.ts';
import { gelSchema, goboPatternSchema, goboSchema, snootSchema } from '../../src/fixtures/modifierRecords.ts';
import { barnDoorsSchema, fixtureSchema, gripSchema, outputSchema } from '../../src/fixtures/records.ts';
import { finishSchema, reflectanceRgbSchema } from '../../src/materials/finish.ts';
import { patternSchema } from '../../src/materials/pattern.ts';
import {
  bubblesSchema,
  condensationSchema,
  drinkLayerSchema,
  drinkSchema,
  foamSchema,
  garnishSchema,
  glassCutSchema,
  glassProfileSchema,
  handleSchema,
  iceSchema,
  labelSchema,
  pieceSchema,
  profilePointSchema,
  rimCrustSchema,
  stopperSchema,
  subjectSchema,
  turntableSchema,
} from '../../src/scene/records.ts';

/** Parts of the setup that get a name of their own in the JSON Schema and a table in the docs, in that order. */
export const NAMED_PARTS: Readonly<Record<string, z.ZodType>> = {
  brief: briefSchema,
  subject: subjectSchema,
  piece: pieceSchema,
  glassProfile: glassProfileSchema,
  handle: handleSchema,
  profilePoint: profilePointSchema,
  glassCut: glassCutSchema,
  label: labelSchema,
  stopper: stopperSchema,
  drink: drinkSchema,
  drinkLayer: drinkLayerSchema,
  foam: foamSchema,
  bubbles: bubblesSchema,
  ice: iceSchema,
  garnish: garnishSchema,
  rimCrust: rimCrustSchema,
  condensation: condensationSchema,
  finish: finishSchema,
  pattern: patternSchema,
  fixture: fixtureSchema,
  output: outputSchema,
  barnDoors: barnDoorsSchema,
  snoot: snootSchema,
  gobo: goboSchema,
  goboPattern: goboPatternSchema,
  gel: gelSchema,
  opening: openingSchema,
  distribution: distributionSchema,
  gripItem: gripSchema,
  turntable: turntableSchema,
  frame: frameSchema,
  camera: cameraSchema,
  matteBox: matteBoxSchema,
  override: overrideSchema,
  limits: limitsSchema,
};
/** Parts that are named but too small for a table. */
const SMALL_PARTS: Readonly<Record<string, z.ZodType>> = {
  id: idSchema,
  name: nameSchema,
  position: positionMSchema,
  vector: vec3Schema,
  reflectanceRgb: reflectanceRgbSchema,
};

export type JsonSchema = z.core.JSONSchema.JSONSchema;

/** How far from the subject a position may be, m; a refinement that the generator can't see. */
const POSITION_BOUND_M = 100;

/** JSON Schema (draft 2020-12) of what a setup file may hold, from the very schema that reads it. */
export function buildSetupJsonSchema(): JsonSchema {
  for (const [id, schema] of Object.entries({ ...NAMED_PARTS, ...SMALL_PARTS })) {
    z.globalRegistry.add(schema, { ...z.globalRegistry.get(schema), id });
  }
  const generated = z.toJSONSchema(setupSchema, {
    io: 'input',
    override: ({ zodSchema, jsonSchema }) => {
      // The reader refuses fields that it does not know, so the schema does too.
      if (jsonSchema.type === 'object' && jsonSchema.properties) jsonSchema.additionalProperties = false;
      // Exactly one of the two says how full the glass is.
      if (zodSchema === drinkSchema) {
        jsonSchema.anyOf = [{ required: ['fillFraction'] }, { required: ['fillMl'] }];
        jsonSchema.not = { required: ['fillFraction', 'fillMl'] };
      }
      if (zodSchema === positionMSchema) {
        const coordinate = { type: 'number', minimum: -POSITION_BOUND_M, maximum: POSITION_BOUND_M } as const;
        jsonSchema.prefixItems = [coordinate, { ...coordinate }, { ...coordinate }];
      }
    },
  });
  const { $schema, ...rest } = generated;
  return {
    $schema,
    title: `Keyglass setup, format version ${SETUP_FORMAT_VERSION}`,
    description:
      'Lengths in metres, angles in degrees. The reader checks more than can be said here: ids are unique, references lead somewhere, overrides fit their records.',
    ...rest,
    properties: { $schema: { type: 'string' }, ...rest.properties },
  };
}
