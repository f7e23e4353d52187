import { luminanceFromRec2020, rec2020FromRec709 } from '../../core/color/spaces.ts';
import { distance, type Vec3 } from '../../core/vec3.ts';
import type { Finish } from '../../materials/finish.ts';
import { meanReflectanceRgb } from '../../materials/finishPattern.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import { boundsOfShape } from '../../scene/bounds.ts';
import type { CheckInput } from '../contracts.ts';
import { type BouncePatch, patchesOf } from './bouncePatch.ts';
import type { FrameLight } from './frameLight.ts';
import { solvePatches } from './solvePatches.ts';

/** Length that a patch of a set piece is cut to, and how many may stand along one side. */
const PATCH_M = 0.3;
const MOST_PER_SIDE = 8;
const MOST_PATCHES = 180;
/** Curved parts are cut so much finer, for their patches are not split where they are near. */
const CURVED_FINER = 1.6;
/** Rounds of light among set pieces: inside a white cove each leaves about a third, so that under a hundredth is left out. */
const PASSES = 5;
const FARTHEST_M = 4;
const LEAST_AREA_M2 = 0.004;
/** What sends back less than this adds nothing that a meter shows. */
const LEAST_REFLECTANCE = 0.04;

/**
 * The broad matte parts of the set as sources of their own: table, sweep, walls, plinths; the hero taken away. Lit by the
 * emitters and by the given sheets, then five times by one another.
 */
export function createSetPatches(input: CheckInput, light: FrameLight, sheets: readonly BouncePatch[]): BouncePatch[] {
  const { scene, set } = input;
  const pieceIds = new Set(scene.pieces.map(({ id }) => id));
  pieceIds.delete(scene.subject.pieceId);
  const faces = set.surfaces.flatMap((surface, surfaceIndex) => {
    if (!pieceIds.has(surface.recordId) || surface.shape.type === 'mesh') return [];
    if (reflectanceOf(surface.finish) < LEAST_REFLECTANCE) return [];
    if (distanceFromM(surface, scene.subject.meterPointM) > FARTHEST_M) return [];
    const [lengthU, lengthV] = sidesM(surface);
    if (lengthU * lengthV < LEAST_AREA_M2) return [];
    const finer = surface.shape.type === 'quad' ? 1 : CURVED_FINER;
    return [{ surface, surfaceIndex, lengthU: lengthU * finer, lengthV: lengthV * finer }];
  });
  let patchM = PATCH_M;
  const countOf = (lengthM: number): number => Math.min(MOST_PER_SIDE, Math.max(1, Math.round(lengthM / patchM)));
  const total = (): number => faces.reduce((sum, f) => sum + countOf(f.lengthU) * countOf(f.lengthV), 0);
  while (total() > MOST_PATCHES && patchM < 4) patchM *= 1.25;
  const patches = faces
    .slice(0, MOST_PATCHES)
    .flatMap(({ surface, surfaceIndex, lengthU, lengthV }) =>
      patchesOf(surface, surfaceIndex, light.layerCount, countOf(lengthU), countOf(lengthV), 1, 1),
    );
  // As for a meter that stands in the hero's place.
  const ignore = (surface: number): boolean => set.surfaces[surface].recordId === scene.subject.pieceId;
  if (patches.length > 0) solvePatches(light, set.surfaces, patches, PASSES, { given: sheets, ignore });
  return patches;
}

function reflectanceOf(finish: Finish): number {
  if (finish.type !== 'matte' && finish.type !== 'gloss' && finish.type !== 'translucent') return 0;
  return luminanceFromRec2020(rec2020FromRec709(meanReflectanceRgb(finish)));
}

/** Lengths along the two ways in which a surface is cut. */
function sidesM({ shape }: OpticalSurface): readonly [number, number] {
  switch (shape.type) {
    case 'quad':
      return [Math.hypot(...shape.edgeUM), Math.hypot(...shape.edgeVM)];
    case 'revolvedLine': {
      const turnRad = shape.azimuth ? shape.azimuth.endRad - shape.azimuth.startRad : 2 * Math.PI;
      return [(turnRad * (shape.r0M + shape.r1M)) / 2, Math.hypot(shape.r1M - shape.r0M, shape.y1M - shape.y0M)];
    }
    case 'revolvedArc': {
      const turnRad = shape.azimuth ? shape.azimuth.endRad - shape.azimuth.startRad : 2 * Math.PI;
      return [turnRad * (shape.centreRM + shape.radiusM), shape.radiusM * Math.abs(shape.angle1Rad - shape.angle0Rad)];
    }
    case 'mesh':
      return [0, 0];
  }
}

function distanceFromM(surface: OpticalSurface, pointM: Vec3): number {
  const { minM, maxM } = boundsOfShape(surface);
  const nearest = (k: 0 | 1 | 2): number => Math.min(maxM[k], Math.max(minM[k], pointM[k]));
  return distance([nearest(0), nearest(1), nearest(2)], pointM);
}
