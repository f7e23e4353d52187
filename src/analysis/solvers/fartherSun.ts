import { addScaled, normalize, sub } from '../../core/vec3.ts';
import { changeInput } from '../checkInput.ts';
import type { RecordChange, Remedy } from '../contracts.ts';
import { createFrameStudy, type FrameStudy } from '../frameStudy.ts';
import { checkLightDirection } from '../lightDirection.ts';
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
    const { findings } = checkLightDirection(trial, { remedies: false });
    if (findings.length > 0 && findings[0].value < limits.lightDirectionCareDeg)
      return [
        {
          label: `Move ${fixture.name} ${stepM.toFixed(1)} m back: ${Math.round(findings[0].value)} degrees apart`,
          changes,
        },
      ];
  }
  return [];
}
