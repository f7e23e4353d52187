import { developPixels } from '../../src/camera/develop.ts';
import { developParams } from '../../src/camera/developParams.ts';
import { cameraView } from '../../src/camera/projection.ts';
import { layerGains } from '../../src/fixtures/gain.ts';
import { compileWorld } from '../../src/transport/compile/compileWorld.ts';
import type { Film } from '../../src/transport/contracts.ts';
import { denoiseFilm } from '../../src/transport/cpu/denoiseFilm.ts';
import { composeFilm } from '../../src/transport/cpu/film.ts';
import type { TracePool } from '../../src/transport/workers/tracePool.ts';
import { buildItem, type SheetItem } from './itemSetup.ts';
import type { PictureShelf } from './pictureShelf.ts';

export interface Picture {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly rgb: Uint8Array;
}

/** Traces an item, or takes it from the shelf when nothing of it has changed, smooths it and develops it as its camera would. Notes of the set go to `onNote`. */
export async function traceItem(
  pool: TracePool,
  item: SheetItem,
  size: { readonly widthPx: number; readonly heightPx: number },
  samples: number,
  shelf: PictureShelf,
  onNote: (note: string) => void,
): Promise<Picture> {
  const { widthPx, heightPx } = size;
  const { scene, set } = buildItem(item, widthPx / heightPx);
  for (const { message } of set.diagnostics) onNote(message);
  const gains = layerGains(scene.fixtures);
  const world = compileWorld(set);
  const key = shelf.keyOf(world, JSON.stringify([scene.camera, size, samples, [...gains]]));
  const kept = shelf.take(key, size);
  if (kept) return kept;
  const film = await new Promise<Film>((resolve, reject) => {
    pool.start(
      {
        world,
        view: cameraView(scene.camera, widthPx / heightPx),
        widthPx,
        heightPx,
        seed: 1,
        samplesPerPixel: samples,
        maxDepth: 32,
        layerGains: gains,
      },
      { onDone: resolve, onError: reject },
    );
  });
  const rgba = developPixels(composeFilm(denoiseFilm(film, gains), gains), developParams(scene.camera));
  const picture = {
    widthPx,
    heightPx,
    rgb: Uint8Array.from({ length: widthPx * heightPx * 3 }, (_, i) => rgba[Math.floor(i / 3) * 4 + (i % 3)]),
  };
  shelf.put(key, picture);
  return picture;
}
