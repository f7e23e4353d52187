import type { Camera } from '../../../camera/records.ts';
import { composeFilm } from '../../../transport/cpu/film.ts';
import { getFrameScene, getLayerGains, sessionStore } from '../../session/index.ts';
import { traceStore } from '../traceStore.ts';
import { frameToolsStore } from './frameToolsStore.ts';

/** A picture put aside, as light, so that it can be shown in stops as well. */
export interface KeptPicture {
  /** Width x height x 3, working RGB, cd/m2, row 0 at the top. */
  readonly rgbNits: Float32Array;
  readonly widthPx: number;
  readonly heightPx: number;
  /** The camera that took it: its exposure and white balance go with it. */
  readonly camera: Camera;
  readonly samples: number;
}

/** Puts the picture on screen aside for its frame. False while nothing is traced. */
export function keepPicture(): boolean {
  const { film, smooth, samples } = traceStore.getState();
  if (film === null) return false;
  const { frameId, smooth: wantsSmooth } = sessionStore.getState();
  const shown = wantsSmooth && smooth?.of === film ? smooth.film : film;
  const picture: KeptPicture = {
    rgbNits: composeFilm(shown, getLayerGains()),
    widthPx: film.widthPx,
    heightPx: film.heightPx,
    camera: getFrameScene().camera,
    samples,
  };
  frameToolsStore.setState(({ kept }) => ({ kept: new Map(kept).set(frameId, picture) }));
  return true;
}

export function forgetPicture(frameId: string): void {
  frameToolsStore.setState(({ kept }) => {
    const others = new Map(kept);
    others.delete(frameId);
    return { kept: others };
  });
}
