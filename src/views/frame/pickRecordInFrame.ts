import { rayThrough } from '../../camera/projection.ts';
import { getCameraView } from '../session/index.ts';
import { getFrameQuery } from './frameQuery.ts';

/** Record seen at a place of the frame, u right and v down, 0..1; null where nothing stands or no set is built yet. */
export function pickRecordInFrame(u: number, v: number): string | null {
  const query = getFrameQuery();
  if (query === null) return null;
  const { originM, direction } = rayThrough(getCameraView(), u, v);
  const hit = query.closestHit(originM, direction);
  return hit ? query.world.surfaceNames[hit.surfaceIndex].recordId : null;
}
