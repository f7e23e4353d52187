import { readFileSync } from 'node:fs';
import type { HandOverRequest } from '../../../src/app/handOver/handOverProtocol.ts';
import { parseSetup } from '../../../src/document/codec.ts';
import { resolveFrame } from '../../../src/document/resolveFrame.ts';
import { FEATURE_WORDS, type Film } from '../../../src/transport/contracts.ts';
import type { HandOverKind } from '../../../src/views/session/index.ts';

const DEMO = new URL('../../../assets/setups/tonic-on-gloss-black.json', import.meta.url);
const WIDTH_PX = 8;
const HEIGHT_PX = 6;
const PIXELS = WIDTH_PX * HEIGHT_PX;

/** An even grey film of two samples a pixel, one layer. */
const greyFilm = (): Film => ({
  widthPx: WIDTH_PX,
  heightPx: HEIGHT_PX,
  layerIds: ['light'],
  layers: [new Float32Array(PIXELS * 3).fill(200)],
  samples: new Uint32Array(PIXELS).fill(2),
  features: new Float32Array(PIXELS * FEATURE_WORDS).fill(1),
  luminanceSum: new Float32Array(PIXELS).fill(200),
  luminanceSquareSum: new Float32Array(PIXELS).fill(20_000),
});

/** The first frame of a demo, with a picture. */
export function handOverRequest(kind: HandOverKind): HandOverRequest {
  const opened = parseSetup(readFileSync(DEMO, 'utf8'));
  if (!opened.ok) throw new Error(opened.error.message);
  const { setup } = opened.value;
  const frameId = setup.frames[0].id;
  const scene = resolveFrame(setup, frameId);
  if (!scene.ok) throw new Error(scene.error[0]?.message);
  const picture = { film: greyFilm(), layerGains: new Float32Array([1, 1, 1]), camera: scene.value.camera };
  return { kind, setup, frameId, date: '2026-04-18', picture };
}
