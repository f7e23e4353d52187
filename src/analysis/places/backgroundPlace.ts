import { rayThrough } from '../../camera/projection.ts';
import { dot, sub, type Vec3 } from '../../core/vec3.ts';
import type { CheckInput } from '../contracts.ts';
import type { BackgroundPlace, HeroPlace, SeenCell } from '../study.ts';
import { pieceOf } from '../words.ts';

/** Places across the frame; as many down as make them square. */
const COLUMNS = 20;
/** A background smaller than this is a gap between other things. */
const LEAST_SHARE = 0.02;
/** What stands up behind the subject counts before the table from this part of the frame on. */
const UPRIGHT_SHARE = 0.08;

/**
 * Looks through the frame for what stands behind the subject: the record that fills most of it beyond the subject's depth.
 * The table counts only where what stands up behind it is little. Null for an empty frame.
 */
export function findBackground(
  { scene, set, view, query }: Pick<CheckInput, 'scene' | 'set' | 'view' | 'query'>,
  hero: HeroPlace | null,
): BackgroundPlace | null {
  const rows = Math.max(2, Math.round((COLUMNS * view.tanHalfHeight) / view.tanHalfWidth));
  const behindM = hero ? depthOf(view, hero.footM) + hero.radiusM : view.focusDistanceM;
  const fixtureIds = new Set(scene.fixtures.map(({ id }) => id));
  const byRecord = new Map<string, SeenCell[]>();
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < COLUMNS; column++) {
      const [u, v] = [(column + 0.5) / COLUMNS, (row + 0.5) / rows];
      const { originM, direction } = rayThrough(view, u, v);
      const hit = query.closestHit(originM, direction);
      if (!hit || depthOf(view, hit.pointM) < behindM) continue;
      const { recordId } = set.surfaces[hit.surfaceIndex];
      // The dark back of a lamp, or a barn door, is nothing to light.
      const isDarkLamp = fixtureIds.has(recordId) && !set.surfaces[hit.surfaceIndex].emission;
      if (recordId === hero?.recordId || isDarkLamp) continue;
      const { normal: n } = hit;
      const cell = {
        u,
        v,
        pointM: hit.pointM,
        normal: hit.front ? n : ([-n[0], -n[1], -n[2]] as const),
        front: hit.front,
        surfaceIndex: hit.surfaceIndex,
      };
      const cells = byRecord.get(recordId);
      if (cells) cells.push(cell);
      else byRecord.set(recordId, [cell]);
    }
  }
  const supportId = hero?.support?.recordId;
  const isFloor = (recordId: string): boolean => {
    const kind = pieceOf(scene, recordId)?.kind;
    return kind === 'tabletop' || (recordId === supportId && kind !== 'sweep');
  };
  const bySize = [...byRecord].sort((a, b) => b[1].length - a[1].length || (a[0] < b[0] ? -1 : 1));
  const upright = bySize.find(([recordId]) => !isFloor(recordId));
  const largest = upright && upright[1].length >= UPRIGHT_SHARE * COLUMNS * rows ? upright : bySize[0];
  if (!largest) return null;
  const [recordId, cells] = largest;
  const share = cells.length / (COLUMNS * rows);
  return share >= LEAST_SHARE ? { recordId, cells, share } : null;
}

const depthOf = (view: CheckInput['view'], pointM: Vec3): number => dot(sub(pointM, view.originM), view.forward);
