import { degFromRad } from '../../core/units.ts';
import { addScaled, normalize, sub } from '../../core/vec3.ts';
import { changeInput } from '../checkInput.ts';
import type { RecordChange, Remedy } from '../contracts.ts';
import { litPlaces, widestPair } from '../direction/litPlaces.ts';
import { createFrameStudy } from '../frameStudy.ts';
import type { FrameStudy } from '../study.ts';
import { applyChanges } from './applyChanges.ts';

const STEPS_M = [0.5, 1, 1.5, 2, 3];

/**
 * The sun is far away: a near light is drawn back along its own line, aim kept, until subject, table and background agree on
 * where it stands. Tried out on the changed set.
 */
export function solveFartherSun(study: FrameStudy, fixtureId: string): Remedy[] {
  const { scene, limits } = study.input;
  const fixture = scene.fixtures.find(({ id }) => id === fixtureId);
  if (!fixture) return [];
  const back = normalize(sub(fixture.positionM, fixture.aimM));
  for (const stepM of STEPS_M) {
    const positionM = addScaled(fixture.positionM, back, stepM).map((v) => Math.round(v * 1e3) / 1e3);
    const changes: RecordChange[] = [{ op: 'update', collection: 'fixtures', id: fixtureId, patch: { positionM } }];
    const trial = createFrameStudy(changeInput(study.input, applyChanges(scene, changes)));
    const widest = widestPair(litPlaces(trial));
    const apartDeg = widest ? degFromRad(widest.angleRad) : 180;
    if (apartDeg < limits.lightDirectionCareDeg)
      return [
        {
          label: `Move ${fixture.name} ${stepM.toFixed(1)} m back: ${Math.round(apartDeg)} degrees apart`,
          changes,
        },
      ];
  }
  return [];
}
