import type { Vec3 } from '../../core/vec3.ts';
import { isEqualData } from '../../document/plainData.ts';
import { CLEAR_TINTS } from '../../materials/clearTints.ts';
import { choice, type FieldGroup, number } from './fields.ts';
import { labelOfKey } from './fieldWords.ts';
import { absorptionFields } from './mediumFields.ts';

const OWN = 'its own';
const COLOURLESS: Vec3 = [0, 0, 0];

/** What a clear solid is filled with: plastic or glass from the shelf, its index, and how deep it is coloured. */
export function clearBodyGroup(piece: {
  readonly clearIndex: number;
  readonly clearAbsorptionPerM?: Vec3;
}): FieldGroup {
  const { clearIndex, clearAbsorptionPerM = COLOURLESS } = piece;
  const known = CLEAR_TINTS.find(
    (tint) => tint.index === clearIndex && isEqualData([...tint.absorptionPerM], [...clearAbsorptionPerM]),
  );
  const names = [...(known ? [] : [OWN]), ...CLEAR_TINTS.map(({ name }) => name)];
  return {
    title: 'Clear body',
    fields: [
      choice('clearTint', 'Made of', known?.name ?? OWN, Object.fromEntries(names.map((n) => [n, n])), (name) => {
        const tint = CLEAR_TINTS.find((candidate) => candidate.name === name);
        return tint ? { clearIndex: tint.index, clearAbsorptionPerM: [...tint.absorptionPerM] } : {};
      }),
      number('clearIndex', labelOfKey('clearIndex'), clearIndex, {
        min: 1,
        max: 2.5,
        step: 0.01,
        decimals: 3,
        patch: (next) => ({ clearIndex: next }),
      }),
      ...absorptionFields('clearAbsorptionPerM', clearAbsorptionPerM, (next) => ({ clearAbsorptionPerM: next })),
    ],
  };
}
