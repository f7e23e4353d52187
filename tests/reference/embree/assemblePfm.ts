/**
 * Puts Embree's 8-bit exposures of the flagged table together as one float picture, luminance in cd/m2 for the lamp of
 * scene.ts: `npx tsx tests/reference/embree/assemblePfm.ts OUT.pfm GAIN=FILE.ppm ...`.
 *
 * Its path tracer writes floor(255.01 v) of the mean v, clipped at 1, without a curve. Every exposure (three in a file,
 * see writeEmbreeScene.ts) so bounds the luminance from both sides; all of them are of the same random paths, so the
 * bounds are of one number, and its middle is taken.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { writePfm } from '../../../src/deliverables/image/index.ts';
import { SIZE_PX } from './scene.ts';

const CODES = 255.01;

const [out, ...exposures] = process.argv.slice(2);
const pixels = SIZE_PX * SIZE_PX;
const low = new Float64Array(pixels);
const high = new Float64Array(pixels).fill(Number.POSITIVE_INFINITY);
for (const exposure of exposures) {
  const [gain, file] = exposure.split('=');
  const bytes = readFileSync(file);
  const codes = bytes.subarray(bytes.length - pixels * 3);
  codes.forEach((code, k) => {
    const i = Math.floor(k / 3);
    const scale = CODES * Number(gain) * [1, 4, 16][k % 3];
    low[i] = Math.max(low[i], code / scale);
    if (code < 255) high[i] = Math.min(high[i], (code + 1) / scale);
  });
}
const rgb = new Float32Array(pixels * 3);
let widest = 0;
let crossed = 0;
for (let i = 0; i < pixels; i++) {
  if (high[i] < low[i]) crossed++;
  widest = Math.max(widest, low[i] > 0 ? (high[i] - low[i]) / low[i] : 0);
  rgb.fill((low[i] + high[i]) / 2, i * 3, i * 3 + 3);
}
writeFileSync(out, writePfm({ widthPx: SIZE_PX, heightPx: SIZE_PX, rgb }));
process.stdout.write(`widest bounds ${(100 * widest).toFixed(2)} % of a value; ${crossed} pixels whose bounds cross\n`);
