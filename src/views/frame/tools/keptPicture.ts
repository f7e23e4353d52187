import { composeFilm } from '../../../transport/cpu/film.ts';
import { getFrameScene, getLayerGains, sessionStore } from '../../session/index.ts';
import { traceStore } from '../traceStore.ts';
import { frameToolsStore, type KeptPicture } from './frameToolsStore.ts';

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
