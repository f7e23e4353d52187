import type { Vec3 } from '../../core/vec3.ts';
import type { FrameScene, SetModel } from '../../scene/setModel.ts';
import type { TapeEnd } from './tapeStore.ts';

/**
 * Places that a tape is held at by name: the meter point, what lights, sheets and the camera are placed by, the foot and
 * the top of what stands on the set.
 */
export function tapePoints(scene: FrameScene, set: SetModel): readonly TapeEnd[] {
  const at = (pointM: Vec3, name: string): TapeEnd => ({ pointM, name });
  const standing = scene.pieces.flatMap((piece) => {
    const bounds = set.boundsByRecord.get(piece.id);
    const [x, , z] = piece.positionM;
    if (!bounds) return [at(piece.positionM, piece.name)];
    return [at(piece.positionM, `${piece.name}, foot`), at([x, bounds.maxM[1], z], `${piece.name}, top`)];
  });
  return [
    at(scene.subject.meterPointM, 'Meter point'),
    at(scene.camera.positionM, 'Lens'),
    ...scene.fixtures.map(({ positionM, name }) => at(positionM, name)),
    ...scene.grip.map(({ positionM, name }) => at(positionM, name)),
    ...standing,
  ];
}
