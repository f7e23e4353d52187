import { applyToDirection, applyToPoint, IDENTITY } from '../../core/rigid.ts';
import type { MeshShape } from '../../core/shape.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import { isFineDetail } from '../../scene/roles.ts';
import { type TessellationOptions, tessellate } from '../../scene/tessellate.ts';

/** Fewer surfaces than this of one kind cost less as they are. */
const WORTH_MERGING = 8;
/** Drops and bubbles are a few pixels on the stage. */
const COARSE: TessellationOptions = { turnStepRad: Math.PI / 6, arcStepRad: Math.PI / 5 };

interface Merged {
  readonly members: readonly OpticalSurface[];
  readonly surface: OpticalSurface;
}

/**
 * Makes one mesh of the many like surfaces of a record: drops, bubbles, slats, reeds, the edges of ice. Each surface of a
 * set costs a draw call of its own, and a wet glass has hundreds. Surfaces that emit light stay apart, and so does what a
 * pattern lies on differently. What was merged before is given again as long as its members are the same objects.
 */
export function createDetailMerger(): (surfaces: readonly OpticalSurface[]) => readonly OpticalSurface[] {
  let before = new Map<string, Merged>();
  return (surfaces) => {
    const groups = new Map<string, OpticalSurface[]>();
    for (const surface of surfaces) {
      const key = keyOf(surface);
      const group = groups.get(key);
      if (group) group.push(surface);
      else groups.set(key, [surface]);
    }
    const now = new Map<string, Merged>();
    const shown = [...groups].flatMap(([key, members]): readonly OpticalSurface[] => {
      if (members.length < WORTH_MERGING) return members;
      const known = before.get(key);
      const merged =
        known && sameMembers(known.members, members) ? known : { members, surface: mergeSurfaces(members) };
      now.set(key, merged);
      return [merged.surface];
    });
    before = now;
    return shown;
  };
}

const finishKeys = new WeakMap<object, string>();

function keyOf({ recordId, role, finish, frontVolume, backVolume, emission, patternFrame }: OpticalSurface): string {
  if (emission || ('pattern' in finish && patternFrame === undefined)) return `${recordId} ${role} alone ${alone++}`;
  let finishKey = finishKeys.get(finish);
  if (finishKey === undefined) {
    finishKey = JSON.stringify(finish);
    finishKeys.set(finish, finishKey);
  }
  return [recordId, role.replace(/\d+/g, '#'), finishKey, frontVolume ?? '', withoutNumber(backVolume)].join('\n');
}
let alone = 0;

/** Pieces of ice are volumes of their own that look alike. */
const withoutNumber = (volume: string | undefined): string => volume?.replace(/\d+$/, '#') ?? '';

const sameMembers = (a: readonly OpticalSurface[], b: readonly OpticalSurface[]): boolean =>
  a.length === b.length && a.every((surface, i) => surface === b[i]);

/** The surfaces as one mesh in the world, with the finish and the volumes of the first. */
export function mergeSurfaces(members: readonly OpticalSurface[]): OpticalSurface {
  const parts = members.map(({ shape, worldFromLocal, role }) => ({
    worldFromLocal,
    ...tessellate(shape, isFineDetail(role) ? COARSE : {}),
  }));
  const vertexCount = parts.reduce((sum, { positionsM }) => sum + positionsM.length, 0);
  const indexCount = parts.reduce((sum, { indices }) => sum + indices.length, 0);
  const shape: Required<MeshShape> = {
    type: 'mesh',
    positionsM: new Float32Array(vertexCount),
    normals: new Float32Array(vertexCount),
    indices: new Uint32Array(indexCount),
  };
  let at = 0;
  let indexAt = 0;
  for (const { positionsM, normals, indices, worldFromLocal } of parts) {
    for (let i = 0; i < positionsM.length; i += 3) {
      shape.positionsM.set(applyToPoint(worldFromLocal, [positionsM[i], positionsM[i + 1], positionsM[i + 2]]), at + i);
      shape.normals.set(applyToDirection(worldFromLocal, [normals[i], normals[i + 1], normals[i + 2]]), at + i);
    }
    for (const [i, index] of indices.entries()) shape.indices[indexAt + i] = index + at / 3;
    at += positionsM.length;
    indexAt += indices.length;
  }
  return { ...members[0], shape, worldFromLocal: IDENTITY };
}
