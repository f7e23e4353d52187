import { WebGLRenderer } from 'three';
import { developParams } from '../../../src/camera/developParams.ts';
import { cameraView } from '../../../src/camera/projection.ts';
import { parseSetup } from '../../../src/document/codec.ts';
import { resolveFrame } from '../../../src/document/resolveFrame.ts';
import { layerGains } from '../../../src/fixtures/gain.ts';
import { buildSet } from '../../../src/scene/buildSet.ts';
import { QuickPicture, type QuickQuality } from '../../../src/views/quick/QuickPicture.ts';
import type { PictureMode } from '../../../src/views/session/index.ts';

export interface QuickOrder {
  readonly setupText: string;
  readonly frameId: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly mode: PictureMode;
}

declare global {
  interface Window {
    /** Draws a frame by the quick picture alone and gives it as the address of a PNG. */
    drawQuick?: (order: QuickOrder) => string;
  }
}

/** The hardware's light at one sample a pixel: a software renderer has to draw it too. */
const QUALITY: QuickQuality = {
  cells: 4,
  patches: 56,
  secondHandShadows: true,
  samples: 1,
  mostWidthPx: 4000,
  mostWidthHeldPx: 4000,
};

window.drawQuick = ({ setupText, frameId, widthPx, heightPx, mode }) => {
  const opened = parseSetup(setupText);
  if (!opened.ok) throw new Error(opened.error.message);
  const scene = resolveFrame(opened.value.setup, frameId);
  if (!scene.ok) throw new Error(scene.error[0].message);
  const canvas = document.createElement('canvas');
  const renderer = new WebGLRenderer({ canvas, antialias: false, preserveDrawingBuffer: true });
  renderer.setSize(widthPx, heightPx, false);
  const picture = new QuickPicture(QUALITY);
  picture.update({
    scene: scene.value,
    set: buildSet(scene.value),
    view: cameraView(scene.value.camera, widthPx / heightPx),
    layerGains: layerGains(scene.value.fixtures),
    params: developParams(scene.value.camera),
    mode,
    held: false,
  });
  picture.render(renderer);
  const address = canvas.toDataURL('image/png');
  picture.dispose();
  renderer.dispose();
  return address;
};
