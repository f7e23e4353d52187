import { createMergePatch } from '../../document/mergePatch.ts';
import {
  type Gobo,
  type GoboPattern,
  goboPatternSchema,
  goboSchema,
  type Snoot,
} from '../../fixtures/modifierRecords.ts';
import type { BarnDoors, Fixture } from '../../fixtures/records.ts';
import { centimetres, choice, degrees, type Field, type FieldGroup, toggle } from './fields.ts';
import { filterGroups } from './gelFields.ts';
import { objectSchemaOf, schemaFields } from './schemaFields.ts';

/** What shapes and filters a light, as it is edited: doors, grid, snoot, gobo, gel and net. */
export function shaperGroups(fixture: Fixture): FieldGroup[] {
  const groups: FieldGroup[] = filterGroups(fixture);
  if (fixture.kind === 'panel' || fixture.kind === 'spot') {
    groups.push({ title: 'Barn doors', fields: doorFields(fixture.barnDoors) });
  }
  if (fixture.kind === 'panel' || fixture.kind === 'softbox') {
    groups.push({ title: 'Honeycomb grid', fields: gridFields(fixture.gridCutoffDeg) });
  }
  if (fixture.kind === 'spot' || fixture.kind === 'bulb') {
    groups.push({ title: 'Snoot', fields: snootFields(fixture.snoot) });
  }
  if (fixture.kind === 'spot') groups.push({ title: 'Gobo', fields: goboFields(fixture.gobo) });
  return groups;
}

const FIRST_DOORS: BarnDoors = { lengthM: 0.12, topDeg: 110, bottomDeg: 110, leftDeg: 110, rightDeg: 110 };
const FIRST_GRID_DEG = 40;
const FIRST_SNOOT: Snoot = { lengthM: 0.15, diameterM: 0.08 };

function doorFields(doors: BarnDoors | undefined): Field[] {
  const fitted = toggle('doorsFitted', 'Fitted', doors !== undefined, (on) => ({ barnDoors: on ? FIRST_DOORS : null }));
  if (!doors) return [fitted];
  const leaf = (key: 'topDeg' | 'bottomDeg' | 'leftDeg' | 'rightDeg', label: string) =>
    degrees(key, label, doors[key], 0, 135, (value) => ({ barnDoors: { [key]: value } }));
  return [
    fitted,
    leaf('topDeg', 'Top'),
    leaf('bottomDeg', 'Bottom'),
    leaf('leftDeg', 'Left'),
    leaf('rightDeg', 'Right'),
    centimetres('doorLengthM', 'Leaf length', doors.lengthM, (lengthM) => ({ barnDoors: { lengthM } })),
  ];
}

function gridFields(gridCutoffDeg: number | undefined): Field[] {
  const fitted = toggle('gridFitted', 'Fitted', gridCutoffDeg !== undefined, (on) => ({
    gridCutoffDeg: on ? FIRST_GRID_DEG : null,
  }));
  return gridCutoffDeg === undefined ? [fitted] : [fitted, degrees('gridCutoffDeg', 'Shuts at', gridCutoffDeg, 5, 85)];
}

function snootFields(snoot: Snoot | undefined): Field[] {
  const fitted = toggle('snootFitted', 'Fitted', snoot !== undefined, (on) => ({ snoot: on ? FIRST_SNOOT : null }));
  if (!snoot) return [fitted];
  return [
    fitted,
    centimetres('snootLengthM', 'Length', snoot.lengthM, (lengthM) => ({ snoot: { lengthM } }), { maxM: 2 }),
    centimetres('snootDiameterM', 'Diameter', snoot.diameterM, (diameterM) => ({ snoot: { diameterM } })),
  ];
}

const FIRST_PATTERNS: Readonly<Record<GoboPattern['type'], GoboPattern>> = {
  slats: { type: 'slats', count: 8, openShare: 0.5, run: 'level' },
  window: { type: 'window', columns: 2, rows: 3, barM: 0.02 },
  doorway: { type: 'doorway', openWidthShare: 0.4, openHeightShare: 0.85 },
  leaves: { type: 'leaves', count: 40, leafM: 0.06, seed: 1 },
};
const GOBO_OPTIONS = { none: 'none', slats: 'slats', window: 'window', doorway: 'doorway', leaves: 'leaves' };

function goboFields(gobo: Gobo | undefined): Field[] {
  const pattern = choice('goboPattern', 'Pattern', gobo?.pattern.type ?? 'none', GOBO_OPTIONS, (type) =>
    patchGobo(gobo, type),
  );
  if (!gobo) return [pattern];
  const schema = objectSchemaOf(goboPatternSchema, gobo.pattern);
  return [
    pattern,
    ...(schema
      ? schemaFields(schema, gobo.pattern, {
          length: 'cm',
          prefix: 'goboPattern-',
          patch: (part) => ({ gobo: { pattern: part } }),
          skip: ['type'],
        })
      : []),
    ...schemaFields(goboSchema, gobo, { length: 'cm', prefix: 'gobo-', patch: (part) => ({ gobo: part }) }),
  ];
}

function patchGobo(gobo: Gobo | undefined, type: string): Readonly<Record<string, unknown>> {
  const first = Object.values(FIRST_PATTERNS).find((pattern) => pattern.type === type);
  if (!first) return { gobo: null };
  if (!gobo) {
    return {
      gobo: { distanceM: 0.3, widthM: 0.2, heightM: 0.2, borderM: 0.05, hooded: true, rollDeg: 0, pattern: first },
    };
  }
  if (gobo.pattern.type === type) return {};
  return { gobo: { pattern: createMergePatch({ ...gobo.pattern }, { ...first }) } };
}
