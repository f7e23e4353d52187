import { useEffect, useState } from 'react';
import type { Camera } from '../../camera/records.ts';
import { paletteOf, type Swatch } from '../../core/color/palette.ts';
import type { Reference } from '../../document/frameRecords.ts';
import { developImage } from '../frame/developImage.ts';
import type { ComposedPicture } from '../frame/paintPicture.ts';
import { pictureStore } from '../frame/pictureStore.ts';
import { getFrameScene } from '../session/index.ts';

const SAMPLE_LONG_PX = 96;
/** While a trace refines, its colours hardly move. */
const FRAME_PALETTE_MS = 700;

/** The colours of the photo; none until it is decoded. */
export function usePhotoPalette(reference: Reference | undefined): readonly Swatch[] {
  const [palette, setPalette] = useState<readonly Swatch[]>([]);
  const dataUrl = reference?.dataUrl;
  useEffect(() => {
    setPalette([]);
    if (dataUrl === undefined) return;
    let stale = false;
    const picture = new Image();
    picture.onload = () => {
      if (!stale) setPalette(paletteOf(samplePhoto(picture)));
    };
    picture.src = dataUrl;
    return () => {
      stale = true;
    };
  }, [dataUrl]);
  return palette;
}

function samplePhoto(picture: HTMLImageElement): Uint8ClampedArray {
  const shrink = Math.min(1, SAMPLE_LONG_PX / Math.max(picture.naturalWidth, picture.naturalHeight));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.naturalWidth * shrink));
  canvas.height = Math.max(1, Math.round(picture.naturalHeight * shrink));
  const context = canvas.getContext('2d', { alpha: false, willReadFrequently: true });
  if (!context) return new Uint8ClampedArray(0);
  context.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return context.getImageData(0, 0, canvas.width, canvas.height).data;
}

/** The colours of the traced frame as it is developed, kept in step with it at an easy pace. */
export function useFramePalette(): readonly Swatch[] {
  const [palette, setPalette] = useState<readonly Swatch[]>([]);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const read = () => {
      timer = undefined;
      const { picture } = pictureStore.getState();
      setPalette(picture === null ? [] : paletteOf(sampleFrame(picture, getFrameScene().camera)));
    };
    const off = pictureStore.subscribe(() => {
      timer ??= setTimeout(read, FRAME_PALETTE_MS);
    });
    read();
    return () => {
      off();
      clearTimeout(timer);
    };
  }, []);
  return palette;
}

/** A small copy of the picture, each of its pixels the mean light of a block, developed: grain does not become a colour. */
function sampleFrame({ rgbNits, widthPx, heightPx }: ComposedPicture, camera: Camera): Uint8ClampedArray {
  const block = Math.max(1, Math.floor(Math.max(widthPx, heightPx) / SAMPLE_LONG_PX));
  const columns = Math.max(1, Math.floor(widthPx / block));
  const rows = Math.max(1, Math.floor(heightPx / block));
  const small = new Float32Array(columns * rows * 3);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const to = (row * columns + column) * 3;
      for (let y = row * block; y < (row + 1) * block; y++) {
        for (let x = column * block; x < (column + 1) * block; x++) {
          const from = (y * widthPx + x) * 3;
          for (let k = 0; k < 3; k++) small[to + k] += rgbNits[from + k] / block ** 2;
        }
      }
    }
  }
  const image = new ImageData(columns, rows);
  developImage(small, camera, 'picture', image);
  return image.data;
}
