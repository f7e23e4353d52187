import { describe, expect, it } from 'vitest';
import { cameraSchema } from '../../../src/camera/records.ts';
import {
  createFrameMerge,
  type FrameStamp,
  gainsById,
  readFrameExr,
  type TracedFrame,
  tracedFrameOf,
  writeFrameExr,
  writeLayerExr,
} from '../../../src/deliverables/image/index.ts';
import {
  addTile,
  compileWorld,
  createFilm,
  createTracerFor,
  type Film,
  traceTile,
} from '../../../src/transport/index.ts';
import { TABLETOP_N, tabletopSet, tabletopView } from '../../reference/tabletop/scene.ts';

const WIDTH = 24;
const HEIGHT = 16;
const world = compileWorld(tabletopSet(TABLETOP_N));
/** A warm panel and a dim, cool one. */
const gains = Float32Array.of(1, 0.8, 0.5, 0.2, 0.25, 0.35);
const stamp: FrameStamp = {
  setupTitle: 'Tumbler',
  frameId: 'frame:1',
  frameName: 'Wide',
  traceKey: '0123456789abcdef',
  programVersion: '0.1.0',
  seeds: [1],
  gains: gainsById(world.layerIds, gains),
  bounceOnly: false,
  camera: cameraSchema.parse({
    positionM: [0, 0.25, 0.9],
    aimM: [0, 0.09, 0],
    focalLengthMm: 100,
    focusDistanceM: 0.9,
    apertureFNumber: 8,
    shutterS: 0.01,
    iso: 100,
  }),
};

/** Adds samples of one seed to a film: more of them left of the middle, as the adaptive tracer would leave it. */
function trace(film: Film, seed: number, samples: number): Film {
  const tracer = createTracerFor({
    world,
    view: tabletopView(),
    widthPx: WIDTH,
    heightPx: HEIGHT,
    seed,
    samplesPerPixel: samples,
    maxDepth: 12,
    layerGains: gains,
  });
  const half = { y: 0, widthPx: WIDTH / 2, heightPx: HEIGHT, firstSample: 0 };
  addTile(film, traceTile(tracer, 2, { ...half, x: 0, samples: samples + 3 }));
  addTile(film, traceTile(tracer, 2, { ...half, x: WIDTH / 2, samples }));
  return film;
}
const emptyFilm = (): Film => createFilm(WIDTH, HEIGHT, world.layerIds);
const frameOf = (film: Film, seeds: number[]): TracedFrame => tracedFrameOf(film, gains, { ...stamp, seeds });

function throughFile(frame: TracedFrame): TracedFrame {
  const read = readFrameExr(writeFrameExr(frame));
  if (!read.ok) throw new Error(read.error.message);
  return read.value;
}

function mergeAll(...frames: TracedFrame[]): TracedFrame {
  const merge = createFrameMerge();
  frames.forEach((frame, i) => {
    const added = merge.add(`part-${i + 1}.exr`, frame);
    if (!added.ok) throw new Error(added.error.message);
  });
  const frame = merge.merged();
  if (!frame) throw new Error('nothing merged');
  return frame;
}

/** Largest difference, as a share of the larger of the value and a thousandth of the picture's mean. */
function largestDifference(a: Float32Array, b: Float32Array): number {
  const floor = a.reduce((sum, v) => sum + Math.abs(v), 0) / a.length / 1000;
  return a.reduce((most, v, i) => Math.max(most, Math.abs(v - b[i]) / Math.max(Math.abs(v), floor)), 0);
}

const first = frameOf(trace(emptyFilm(), 11, 5), [11]);
const second = frameOf(trace(emptyFilm(), 12, 9), [12]);
const both = frameOf(trace(trace(emptyFilm(), 11, 5), 12, 9), [11, 12]);

describe('merging traced frames', () => {
  it('of 5 and 9 samples gives the film with all 14, through files, to single precision', () => {
    const merged = mergeAll(throughFile(first), throughFile(second));
    expect(Array.from(merged.samples)).toEqual(Array.from(both.samples));
    expect(merged.samples[0]).toBe(20);
    expect(merged.samples[WIDTH - 1]).toBe(14);
    expect(merged.stamp.seeds).toEqual([11, 12]);
    // 24 bits of mantissa are 6e-8; a film's running sums of 20 samples and the change of primaries take some more.
    expect(largestDifference(both.rgb, merged.rgb)).toBeLessThan(2e-5);
    merged.layers.forEach((layer, i) => {
      expect(layer.fixtureId).toBe(both.layers[i].fixtureId);
      expect(largestDifference(both.layers[i].rgb, layer.rgb)).toBeLessThan(2e-5);
    });
    // And it is neither of its parts.
    expect(largestDifference(both.rgb, first.rgb)).toBeGreaterThan(0.1);
  });

  it('keeps the estimated error of the one film to 0.1 %', () => {
    const merged = mergeAll(first, second);
    both.luminanceError.forEach((error, i) => {
      expect(Math.abs(merged.luminanceError[i] - error)).toBeLessThan(1e-3 * error + 1e-6);
    });
  });

  it('keeps the sum of the layers equal to the picture', () => {
    const { rgb, layers } = throughFile(mergeAll(first, second));
    expect(layers).toHaveLength(2);
    rgb.forEach((v, k) => {
      const sum = layers[0].rgb[k] + layers[1].rgb[k];
      expect(Math.abs(v - sum)).toBeLessThan(1e-5 * Math.max(0.01, Math.abs(v)));
    });
  });

  it('does not care for order, nor whether a part was merged before', () => {
    const third = frameOf(trace(emptyFilm(), 13, 4), [13]);
    const once = mergeAll(first, second, third);
    const nested = mergeAll(third, throughFile(mergeAll(second, first)));
    expect(largestDifference(once.rgb, nested.rgb)).toBeLessThan(1e-5);
    expect(Array.from(nested.samples)).toEqual(Array.from(once.samples));
  });

  it('leaves a pixel that one part never reached to the other', () => {
    const cut = emptyFilm();
    const tracer = createTracerFor({
      world,
      view: tabletopView(),
      widthPx: WIDTH,
      heightPx: HEIGHT,
      seed: 14,
      samplesPerPixel: 2,
      maxDepth: 12,
      layerGains: gains,
    });
    addTile(cut, traceTile(tracer, 2, { x: 0, y: 0, widthPx: 8, heightPx: 8, firstSample: 0, samples: 2 }));
    const merged = mergeAll(frameOf(cut, [14]), first);
    const corner = WIDTH * HEIGHT - 1;
    expect(merged.samples[corner]).toBe(5);
    expect(Array.from(merged.rgb.slice(corner * 3))).toEqual(Array.from(first.rgb.slice(corner * 3)));
    expect(merged.luminanceError[corner]).toBeCloseTo(first.luminanceError[corner], 6);
  });

  it.each([
    [
      'a seed twice',
      { seeds: [11] },
      /part-1\.exr and part-2\.exr both hold seed 11, .*trace one again with another --seed/,
    ],
    [
      'another setup',
      { seeds: [12], traceKey: 'ffff' },
      /part-1\.exr and part-2\.exr show different setups .*same setup file/,
    ],
    ['another light', { seeds: [12], gains: { ...stamp.gains, 'panel-2': [0, 0, 1] } }, /lit differently/],
    ['bounced light alone', { seeds: [12], bounceOnly: true }, /only what is bounced; .*--bounce-only/],
    ['another version', { seeds: [12], programVersion: '0.2.0' }, /versions 0\.1\.0 and 0\.2\.0/],
  ])('refuses %s in one line that names both files and the mend', (_name, change, words) => {
    const merge = createFrameMerge();
    expect(merge.add('part-1.exr', first).ok).toBe(true);
    const added = merge.add('part-2.exr', { ...second, stamp: { ...second.stamp, ...change } });
    if (added.ok) throw new Error('was taken');
    expect(added.error.message).toMatch(words);
    expect(added.error.message).not.toContain('\n');
    // What was there before is left as it was.
    expect(merge.merged()).toBe(first);
  });

  it('refuses another size, and a seed that came in with a merged part', () => {
    const merge = createFrameMerge();
    expect(merge.add('a.exr', mergeAll(first, second)).ok).toBe(true);
    const again = merge.add('b.exr', second);
    expect(again.ok ? '' : again.error.message).toMatch(/a\.exr and b\.exr both hold seed 12/);
    const small = merge.add('c.exr', { ...second, widthPx: 16, heightPx: 24, stamp: { ...stamp, seeds: [5] } });
    expect(small.ok ? '' : small.error.message).toMatch(/differ in size \(24 x 16, 16 x 24\)/);
  });
});

describe('frame files', () => {
  it('hold all that a merge needs, to the last bit', () => {
    expect(throughFile(first)).toEqual(first);
  });

  it('of a single layer, or without samples, are not taken for frames', () => {
    const layer = readFrameExr(writeLayerExr(first, first.layers[0]));
    expect(layer.ok ? '' : layer.error.message).toMatch(/holds no samples.*npm run -s frame/);
    const broken = readFrameExr(writeFrameExr(first).slice(0, 900));
    expect(broken.ok ? '' : broken.error.message).toMatch(/cut short/);
  });
});
