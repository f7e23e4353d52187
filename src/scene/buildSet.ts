import type { Diagnostic } from '../core/diagnostic.ts';
import { buildFixture } from '../fixtures/buildFixture.ts';
import { buildGrip } from '../fixtures/buildGrip.ts';
import { fixtureDiagnostics, gripDiagnostics } from '../fixtures/diagnostics.ts';
import type { OpticalSurface, Volume } from '../materials/surface.ts';
import { uniteBounds } from './bounds.ts';
import type { Built } from './built.ts';
import { checkSetIntegrity } from './integrity.ts';
import { buildMatteBox } from './matteBox.ts';
import { buildPiece } from './pieces/buildPiece.ts';
import { createSetMemory, type SetMemory } from './setMemory.ts';
import type { Bounds, FrameScene, SetModel } from './setModel.ts';
import { buildTurntable, placePiece } from './turntable.ts';

/**
 * The whole set of one frame as exact surfaces and volumes in the world: pieces in the order of the scene, turntable,
 * fixtures, grip, matte box. A record that can't be made is left out and says why in `diagnostics`; nothing throws on
 * doubtful sizes. The same scene gives the same set.
 *
 * @param memory of the sets before, where one follows another by small changes
 */
export function buildSet(scene: FrameScene, memory: SetMemory = createSetMemory()): SetModel {
  memory.begin();
  const surfaces: OpticalSurface[] = [];
  const volumes: Volume[] = [];
  const diagnostics: Diagnostic[] = [];
  const take = (built: Built): void => {
    surfaces.push(...built.surfaces);
    volumes.push(...built.volumes);
    diagnostics.push(...built.diagnostics);
  };
  for (const piece of scene.pieces) {
    const placed = placePiece(piece, scene.turntable, scene.turntableAngleDeg);
    take(memory.recall('piece', [piece, placed], () => buildPiece(piece, placed)));
  }
  const { turntable } = scene;
  if (turntable) take(memory.recall('turntable', turntable, () => buildTurntable(turntable)));
  for (const fixture of scene.fixtures) {
    surfaces.push(...memory.recall('fixture', fixture, () => buildFixture(fixture)));
    diagnostics.push(...fixtureDiagnostics(fixture));
  }
  for (const item of scene.grip) {
    surfaces.push(...memory.recall('grip', item, () => buildGrip(item)));
    diagnostics.push(...gripDiagnostics(item));
  }
  surfaces.push(...memory.recall('matte box', scene.camera, () => buildMatteBox(scene.camera)));
  diagnostics.push(...checkSetIntegrity(scene));
  return {
    surfaces,
    volumes,
    layerFixtureIds: scene.fixtures.map((fixture) => fixture.id),
    boundsByRecord: boundsByRecord(surfaces, memory),
    diagnostics,
  };
}

function boundsByRecord(surfaces: readonly OpticalSurface[], memory: SetMemory): ReadonlyMap<string, Bounds> {
  const bounds = new Map<string, Bounds>();
  for (const surface of surfaces) {
    const own = memory.boundsOf(surface);
    const sofar = bounds.get(surface.recordId);
    bounds.set(surface.recordId, sofar ? uniteBounds(sofar, own) : own);
  }
  return bounds;
}
