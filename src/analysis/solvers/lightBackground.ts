import { addScaled, distance, normalize, sub, type Vec3 } from '../../core/vec3.ts';
import type { Fixture } from '../../fixtures/records.ts';
import { measureBackground, nearestCell } from '../background/measureBackground.ts';
import { changeInput } from '../checkInput.ts';
import type { RecordChange, Remedy } from '../contracts.ts';
import { createFrameStudy } from '../frameStudy.ts';
import { findBackground } from '../places/backgroundPlace.ts';
import type { BackgroundLight, FrameStudy } from '../study.ts';
import { applyChanges } from './applyChanges.ts';

/** How many times farther off the light is tried, and the farthest that a room holds. */
const TIMES = [1, 1.25, 1.5, 2, 2.5, 3];
/** How far the aim is carried from the middle of the background toward its darkest part, and beyond. */
const FEATHERS = [0, 1, 1.6];
const FARTHEST_M = 5;
const LOWEST_M = 0.1;

/**
 * Evens out the light of the fixture that gives most of it: turned toward the dark side, drawn back along the line from
 * the middle of what it lights, or both; the smallest move that brings the spread within the limit. Tried out on the
 * changed set.
 */
export function solveEvenBackground(study: FrameStudy, light: BackgroundLight): Remedy[] {
  const fixture = mainFixture(study, light);
  if (!fixture) return [];
  const { limits } = study.input;
  const middleM = middleOf(light);
  const darkM = nearestCell(light, light.darkest.u, light.darkest.v).pointM;
  const fromM = distance(fixture.positionM, middleM);
  const away = normalize(sub(fixture.positionM, middleM));
  for (const times of TIMES) {
    if (times * fromM > FARTHEST_M) break;
    const moveM = (times - 1) * fromM;
    const positionM = addScaled(fixture.positionM, away, moveM);
    if (positionM[1] < LOWEST_M) continue;
    for (const feather of FEATHERS) {
      if (times === 1 && feather === 0) continue;
      const aimM = feather === 0 ? fixture.aimM : addScaled(middleM, sub(darkM, middleM), feather);
      const changes = [
        update(fixture, {
          ...(times > 1 ? { positionM: rounded(positionM) } : {}),
          ...(feather > 0 ? { aimM: rounded(aimM) } : {}),
        }),
      ];
      const after = tryBackground(study, changes, light.place.recordId);
      if (!after || after.spreadStops >= limits.backgroundCareStops) continue;
      const turn = feather > 0 ? `Turn ${fixture.name} toward the dark side` : '';
      const move = times > 1 ? `${turn ? ' and move it' : `Move ${fixture.name}`} ${moveM.toFixed(2)} m back` : '';
      const loss = Math.log2(light.meanLux / after.meanLux);
      const less = loss > 0.05 ? `, ${loss.toFixed(1)} stops less light` : '';
      return [{ label: `${turn}${move}: spread ${after.spreadStops.toFixed(1)} stops${less}`, changes }];
    }
  }
  return [];
}

/** Aims the fixture that gives most of the light at the wanted place of the background. Tried out on the changed set. */
export function solveGradientPlace(study: FrameStudy, light: BackgroundLight): Remedy[] {
  const fixture = mainFixture(study, light);
  if (!fixture) return [];
  const { limits } = study.input;
  const { backgroundPlaceU: u, backgroundPlaceV: v } = limits;
  const target = nearestCell(light, u, v).pointM;
  const changes = [update(fixture, { aimM: rounded(target) })];
  const after = tryBackground(study, changes, light.place.recordId);
  if (!after || Math.hypot(after.hotSpot.u - u, after.hotSpot.v - v) > limits.backgroundPlaceTolerance) return [];
  return [{ label: `Aim ${fixture.name} at the wanted bright end`, changes }];
}

function mainFixture(study: FrameStudy, { meanLayerLux }: BackgroundLight): Fixture | undefined {
  const layer = meanLayerLux.reduce((best, lux, i) => (lux > meanLayerLux[best] ? i : best), 0);
  const id = study.light.layerFixtureIds[layer];
  return study.input.scene.fixtures.find((fixture) => fixture.id === id);
}

function tryBackground(study: FrameStudy, changes: readonly RecordChange[], recordId: string): BackgroundLight | null {
  const trial = createFrameStudy(changeInput(study.input, applyChanges(study.input.scene, changes)));
  const place = findBackground(trial.input, trial.hero());
  return place?.recordId === recordId ? measureBackground(trial, place) : null;
}

function middleOf({ place: { cells } }: BackgroundLight): Vec3 {
  return cells.reduce<Vec3>((sum, { pointM }) => addScaled(sum, pointM, 1 / cells.length), [0, 0, 0]);
}

const update = (fixture: Fixture, patch: Readonly<Record<string, unknown>>): RecordChange => ({
  op: 'update',
  collection: 'fixtures',
  id: fixture.id,
  patch,
});
const rounded = (pointM: Vec3): number[] => pointM.map((v) => Math.round(v * 1e3) / 1e3);
