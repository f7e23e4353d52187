import { add, addScaled, dot, scale, sub, type Vec3 } from '../../core/vec3.ts';
import type { RecordChange, Remedy } from '../contracts.ts';
import type { FrameStudy } from '../study.ts';
import { keepsSubjectLit, lensShare, openTrial } from './tryFlare.ts';

const NEAREST_M = 0.15;
const FARTHEST_M = 0.6;
const STEP_M = 0.05;
/** How far the flag reaches past the last ray that it must stop. */
const OVERLAP_M = 0.01;
/** Room kept between the flag and the field of view of the whole aperture. */
const CLEARANCE_M = 0.004;
const LARGEST_M = 1.2;
const RIM_POINTS = 16;
const ROUND_M = 0.005;

/** A rectangle on the plane `aheadM` before the lens; x along camera right, y along camera up. */
interface FlagPlace {
  readonly aheadM: number;
  readonly x0M: number;
  readonly x1M: number;
  readonly y0M: number;
  readonly y1M: number;
}

/**
 * A flag near the lens, square to the axis and just outside the field of view, that keeps every point of a fixture's
 * emitter from every point of the front element.
 *
 * On a plane ahead of the lens the lines from the emitter to the rim of the element fill a convex patch; where that patch
 * lies wholly beyond one edge of the field of view of the open aperture, a rectangle over it does it. The smallest
 * such rectangle 0.15 to 0.6 m ahead is tried out on the changed set: no light left on the lens, the subject as lit as
 * before.
 *
 * @returns null when the emitter reaches into the frame, or stands too near or too far round for a flag
 */
export function solveFlag(study: FrameStudy, fixtureId: string): Remedy | null {
  const { scene } = study.input;
  const fixture = scene.fixtures.find((record) => record.id === fixtureId);
  if (!fixture) return null;
  const places: FlagPlace[] = [];
  for (let k = 0; NEAREST_M + k * STEP_M <= FARTHEST_M + 1e-9; k++)
    places.push(...placesAt(study, fixtureId, NEAREST_M + k * STEP_M));
  places.sort((a, b) => areaOf(a) - areaOf(b));
  for (const place of places.slice(0, 6)) {
    const record = flagRecord(study, fixtureId, `Flag for ${fixture.name}`.slice(0, 120), place);
    const changes: RecordChange[] = [{ op: 'add', collection: 'grip', record }];
    const trial = openTrial(study, changes);
    if (lensShare(trial, fixtureId) > 0 || !keepsSubjectLit(study, trial)) continue;
    return {
      label:
        `Add a flag ${sizeWords(place)} ${place.aheadM.toFixed(2)} m before the lens, ` +
        `${sideWords(place)}, against ${fixture.name}`,
      changes,
    };
  }
  return null;
}

/** Places on one plane, one for each edge of the field of view that the patch lies beyond. */
function placesAt(study: FrameStudy, fixtureId: string, aheadM: number): FlagPlace[] {
  const { view, scene } = study.input;
  const radiusM = scene.camera.frontElementDiameterM / 2;
  const xs: number[] = [];
  const ys: number[] = [];
  for (const pointM of emitterCorners(study, fixtureId)) {
    const d = sub(pointM, view.originM);
    const depthM = dot(d, view.forward);
    // Beside or behind the plane: no flag on it stands between.
    if (depthM <= aheadM + 0.02) return [];
    const t = aheadM / depthM;
    for (let i = 0; i < RIM_POINTS; i++) {
      const angle = (2 * Math.PI * i) / RIM_POINTS;
      xs.push(radiusM * Math.cos(angle) * (1 - t) + dot(d, view.right) * t);
      ys.push(radiusM * Math.sin(angle) * (1 - t) + dot(d, view.up) * t);
    }
  }
  if (xs.length === 0) return [];
  const patch = {
    aheadM,
    x0M: Math.min(...xs) - OVERLAP_M,
    x1M: Math.max(...xs) + OVERLAP_M,
    y0M: Math.min(...ys) - OVERLAP_M,
    y1M: Math.max(...ys) + OVERLAP_M,
  };
  // Every point of the aperture sees the frame; the widest cone is that of focus at infinity.
  const clearX = view.tanHalfWidth * aheadM + view.apertureRadiusM + CLEARANCE_M;
  const clearY = view.tanHalfHeight * aheadM + view.apertureRadiusM + CLEARANCE_M;
  const candidates: FlagPlace[] = [];
  if (patch.y0M + OVERLAP_M > clearY) candidates.push({ ...patch, y0M: Math.max(patch.y0M, clearY) });
  if (patch.y1M - OVERLAP_M < -clearY) candidates.push({ ...patch, y1M: Math.min(patch.y1M, -clearY) });
  if (patch.x0M + OVERLAP_M > clearX) candidates.push({ ...patch, x0M: Math.max(patch.x0M, clearX) });
  if (patch.x1M - OVERLAP_M < -clearX) candidates.push({ ...patch, x1M: Math.min(patch.x1M, -clearX) });
  return candidates.filter(({ x0M, x1M, y0M, y1M }) => x1M - x0M <= LARGEST_M && y1M - y0M <= LARGEST_M);
}

/** Points that bound the emitters of a fixture. */
function emitterCorners(study: FrameStudy, fixtureId: string): Vec3[] {
  const steps = [0, 0.25, 0.5, 0.75, 1 - 1e-9];
  return study.light.sources
    .filter((source) => source.emitter.fixtureId === fixtureId)
    .flatMap(({ emitterIndex }) =>
      steps.flatMap((u) => steps.map((v) => study.light.query.sampleEmitter(emitterIndex, u, v).pointM)),
    );
}

function flagRecord(study: FrameStudy, fixtureId: string, name: string, place: FlagPlace) {
  const { view, scene } = study.input;
  const { aheadM, x0M, x1M, y0M, y1M } = place;
  const onAxis = addScaled(view.originM, view.forward, aheadM);
  const centreM = add(onAxis, add(scale(view.right, (x0M + x1M) / 2), scale(view.up, (y0M + y1M) / 2)));
  const taken = new Set(scene.grip.map((item) => item.id));
  const base = `flag-lens-${fixtureId}`.slice(0, 76);
  let id = base;
  for (let k = 2; taken.has(id); k++) id = `${base}-${k}`;
  return {
    kind: 'flag',
    id,
    name,
    positionM: [...centreM],
    // Its sheet looks along the axis, level with the camera.
    aimM: [...addScaled(centreM, view.forward, 1)],
    rollDeg: scene.camera.rollDeg,
    widthM: roundUp(x1M - x0M),
    heightM: roundUp(y1M - y0M),
  };
}

/** Rounding outward by up to half a step each side stays inside the clearance. */
const roundUp = (lengthM: number): number => Math.ceil(lengthM / ROUND_M) * ROUND_M;
const areaOf = ({ x0M, x1M, y0M, y1M }: FlagPlace): number => (x1M - x0M) * (y1M - y0M);
const sizeWords = ({ x0M, x1M, y0M, y1M }: FlagPlace): string =>
  `${Math.round(roundUp(x1M - x0M) * 100)} x ${Math.round(roundUp(y1M - y0M) * 100)} cm`;

function sideWords({ x0M, x1M, y0M, y1M }: FlagPlace): string {
  const [x, y] = [(x0M + x1M) / 2, (y0M + y1M) / 2];
  if (Math.abs(y) >= Math.abs(x)) return y > 0 ? 'above the frame' : 'below the frame';
  return x > 0 ? 'right of the frame' : 'left of the frame';
}
