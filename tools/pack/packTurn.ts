import type { ScenePictures } from '../../src/deliverables/traced/scenePictures.ts';
import type { TurnFilmOptions } from '../../src/deliverables/video/turnFilm.ts';
import { writeTurnFiles } from '../cli/turnFiles.ts';
import type { PackFrame } from './openPackFrames.ts';
import type { Output } from './output.ts';

/** Frames that turn, as numbered pictures through one round with motion blur, and the list of their angles. */
export async function packTurn(
  output: Output,
  frames: readonly PackFrame[],
  pictures: ScenePictures,
  options: TurnFilmOptions,
): Promise<void> {
  for (const { stem, frameSet } of frames) {
    if (frameSet.frame.kind !== 'turn' || !frameSet.scene.turntable) continue;
    await writeTurnFiles(frameSet, pictures, options, (path, content) => output.write(`turn/${stem}/${path}`, content));
  }
}
