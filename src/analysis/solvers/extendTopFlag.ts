import { dot, sub } from '../../core/vec3.ts';
import type { RecordChange, Remedy } from '../contracts.ts';
import { frontElementPoints } from '../flareGeometry.ts';
import type { FrameStudy } from '../study.ts';
import { keepsSubjectLit, lensShare, openTrial } from './tryFlare.ts';

const LONGEST_M = 0.6;
const ROUND_M = 0.01;
const CAMERA_ID = 'camera';

/**
 * How far the top flag of the matte box must reach so that a fixture above the frame no longer lights the front element.
 *
 * A line from the element at height y0 to the emitter at height y1, z1 ahead, meets the plane of the flag at height h
 * after (h - y0) / (y1 - y0) z1; the flag must reach past the farthest such crossing. It is not offered when a crossing
 * misses its width, when it would cut into the field of view (h < aperture radius + reach x tan half field), or when the
 * trial on the changed set still finds light on the lens.
 */
export function solveTopFlag(study: FrameStudy, fixtureId: string): Remedy | null {
  const { scene, view } = study.input;
  const box = scene.camera.matteBox;
  const fixture = scene.fixtures.find((record) => record.id === fixtureId);
  if (!box || !fixture) return null;
  const heightM = box.innerHeightM / 2;
  const elementM = frontElementPoints(view, scene.camera.frontElementDiameterM, 48);
  const points = study.light.sources
    .filter((source) => source.emitter.fixtureId === fixtureId)
    .flatMap((source) => study.light.samplesOf(source, 6).pointsM);
  let reachM = 0;
  for (const pointM of points) {
    const d = sub(pointM, view.originM);
    const [x1, y1, z1] = [dot(d, view.right), dot(d, view.up), dot(d, view.forward)];
    if (z1 <= 0) continue;
    for (const fromM of elementM) {
      const o = sub(fromM, view.originM);
      const [x0, y0] = [dot(o, view.right), dot(o, view.up)];
      if (y1 <= heightM) return null;
      const t = (heightM - y0) / (y1 - y0);
      if (Math.abs(x0 + (x1 - x0) * t) > box.innerWidthM / 2) return null;
      reachM = Math.max(reachM, t * z1);
    }
  }
  const topFlagM = Math.ceil((reachM - box.depthM + 0.004) / ROUND_M) * ROUND_M;
  if (topFlagM <= box.topFlagM || topFlagM > LONGEST_M) return null;
  if (heightM < view.apertureRadiusM + (box.depthM + topFlagM) * view.tanHalfHeight) return null;
  const matteBox = { ...box, topFlagM: Math.round(topFlagM * 100) / 100 };
  const changes: RecordChange[] = [
    { op: 'update', collection: 'camera', id: study.input.frameId ?? CAMERA_ID, patch: { matteBox } },
  ];
  const trial = openTrial(study, changes);
  if (lensShare(trial, fixtureId) > 0 || !keepsSubjectLit(study, trial)) return null;
  return { label: `Extend the top flag to ${Math.round(topFlagM * 100)} cm against ${fixture.name}`, changes };
}
