import { rayThrough } from '../../../camera/projection.ts';
import { layTape, pickRecord, tapeStore } from '../../arrange/index.ts';
import { getCameraView, getFrameScene } from '../../session/index.ts';
import { getFrameQuery } from '../frameQuery.ts';
import { pickRecordInFrame } from '../pickRecordInFrame.ts';

interface Keys {
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

/** A press on the picture: selects what is seen there, or holds the tape to it. */
export function pressFrame(u: number, v: number, { shiftKey, altKey }: Keys): void {
  if (!tapeStore.getState().out) {
    pickRecord(pickRecordInFrame(u, v), { add: shiftKey, alone: altKey });
    return;
  }
  const { originM, direction } = rayThrough(getCameraView(), u, v);
  const hit = getFrameQuery()?.closestHit(originM, direction);
  if (!hit) return;
  const id = pickRecordInFrame(u, v);
  const { pieces, fixtures, grip } = getFrameScene();
  const name = [...pieces, ...fixtures, ...grip].find((record) => record.id === id)?.name ?? null;
  layTape({ pointM: hit.pointM, name });
}
