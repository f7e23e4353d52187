import { MIRROR_LIKE_ROUGHNESS } from '../../src/analysis/limits.ts';
import type { CameraView } from '../../src/camera/view.ts';
import { LUMINANCE_WEIGHTS_REC2020 } from '../../src/core/color/spaces.ts';
import { createPathTracer, type World } from '../../src/transport/index.ts';
import { reflectRay, refractRay, unitDirection } from '../../src/transport/kernels/boundary.ts';
import { createEmitterSampler } from '../../src/transport/kernels/emitterSampling.ts';
import { createInsideSet, INSIDE_WORDS } from '../../src/transport/kernels/insideSet.ts';
import { createIntersector, RAY_START_M } from '../../src/transport/kernels/intersector.ts';
import { createMediumKernel } from '../../src/transport/kernels/medium.ts';
import { dielectricReflectance } from '../../src/transport/kernels/microfacet.ts';
import { primitiveColumn } from '../../src/transport/kernels/primitiveColumn.ts';
import { createPixelSampler } from '../../src/transport/kernels/sampler.ts';
import { createScattering } from '../../src/transport/kernels/scattering.ts';
import { FINISH, FinishKind, VOLUME } from '../../src/transport/layout/schema.ts';
import { createFacetLobe, type FacetLobe } from './facetLobe.ts';

/** What one source shows by way of one first thing, in one manner. */
export interface NamedImage {
  /** Record of the lamp, card or cloth, and of the first thing that the ray met. */
  readonly sourceId: string;
  readonly firstId: string;
  /** Went through the first thing rather than bounced off it. */
  readonly transmitted: boolean;
  /** One event only. */
  readonly direct: boolean;
  /** Mean over the pixel, cd/m2 under the gains. */
  readonly nits: Float64Array;
  /** The part of it that rough surfaces blur, which has no detail within a pixel; mean, cd/m2. */
  readonly blurredNits: Float64Array;
  /** The samples that show the rest: pixel x samples + sample, ascending, and what it adds to each, cd/m2. */
  readonly sampleAt: number[];
  readonly sampleNits: number[];
}

export interface NamedImages {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Of each pixel. */
  readonly samples: number;
  readonly images: readonly NamedImage[];
  /** 1 where the middle of the pixel looks straight at a lamp. */
  readonly isLamp: Uint8Array;
  /** Record that the middle of the pixel meets first; empty for none. */
  readonly firstId: readonly string[];
}

export interface NamedImagesJob {
  readonly world: World;
  readonly view: CameraView;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly samples: number;
  readonly seed: number;
  readonly layerGains: Float32Array;
  /** Paths end when less than this share of the light gets through, and after so many events. */
  readonly leastShare: number;
  readonly mostEvents: number;
}

const MAX_DEPTH = 24;
/** Both ways of a boundary are followed while each carries enough, up to so many times; then one is drawn. */
const MAX_SPLITS = 16;
/** What a sheet shows in less of a path than this is traced in so few of them; its area is known all the same. */
const SHEET_SHARE = 0.02;
const BRANCH_WORDS = 17;
const DIRECT = 1;
const TRANSMITTED = 2;

interface NewImage extends Pick<NamedImage, 'nits' | 'blurredNits' | 'sampleAt' | 'sampleNits'> {
  /** Of sheets in the pixel in hand: sample, luminance of what gets through of white, nits. */
  readonly shares: [number, number, number][];
}

/**
 * Long-frame tracing of mirror-like paths alone: seeded random paths from all over each pixel of a pinhole, through exact
 * dielectric boundaries, off mirrors, and off the facets of coats and metals of any roughness (visible normals, against a
 * point drawn on a lamp, balance heuristic), until they meet something that scatters. Lamps, and the scattering sheets that
 * are there to light the set, are sources; what a sheet shows is one full path of the tracer.
 */
export function traceNamedImages(job: NamedImagesJob): NamedImages {
  const { world, view, widthPx, heightPx, samples, seed, layerGains, leastShare, mostEvents } = job;
  const pixels = widthPx * heightPx;
  const intersector = createIntersector(world);
  const { ray, hit, hitIndex, surfaceOf } = intersector;
  const emitters = createEmitterSampler(world);
  const scattering = createScattering(world);
  const inside = createInsideSet(world);
  const sampler = createPixelSampler();
  const { pair } = sampler;
  const facets = createFacetLobe(world);
  const sheets = createPathTracer({
    world,
    view,
    widthPx: 1,
    heightPx: 1,
    seed: seed + 1,
    maxDepth: MAX_DEPTH,
    layerGains,
  });
  const finishOf = primitiveColumn(world, 'finish');
  const frontVolume = primitiveColumn(world, 'frontVolume');
  const backVolume = primitiveColumn(world, 'backVolume');
  const emitterOf = primitiveColumn(world, 'emitter');
  const finishes = Float64Array.from(world.finishWords);
  const volumes = Float64Array.from(world.volumeWords);
  const indexOf = createMediumKernel(world).index;
  const [wr, wg, wb] = LUMINANCE_WEIGHTS_REC2020;

  const recordIds = [...new Set(world.surfaceNames.map(({ recordId }) => recordId))];
  const recordOf = Int32Array.from(world.surfaceNames, ({ recordId }) => recordIds.indexOf(recordId));
  const isSheet = Uint8Array.from(world.surfaceNames, ({ secondarySource }) => (secondarySource ? 1 : 0));
  const images = new Map<number, NewImage>();
  const isLamp = new Uint8Array(pixels);
  const firstId = new Array<string>(pixels).fill('');

  const branches = new Float64Array((MAX_SPLITS + 1) * BRANCH_WORDS);
  const branchInside = new Int32Array((MAX_SPLITS + 1) * INSIDE_WORDS);
  let branchCount = 0;
  let pixel = 0;
  let stream = 0;
  let sampleNow = 0;

  // The path in hand: what is left of it, events so far, splits, first record (-1 none), went through it.
  let [br, bg, bb, eta2, events, splits, first, through] = [1, 1, 1, 1, 0, 0, -1, 0];
  // Density of the last facet's direction, 0 after a single-direction turn; and where that was.
  let lobeDensity = 0;
  // Has a rough surface blurred it, and how many events may it have to be an image still?
  let isBlurred = 0;
  let namedEvents = mostEvents;
  const last = new Float64Array(3);

  const putBy = (): void => {
    const o = branchCount * BRANCH_WORDS;
    for (let k = 0; k < 6; k++) branches[o + k] = ray[k];
    branches.set([br, bg, bb, eta2, events, splits, first, through, lobeDensity, isBlurred, namedEvents], o + 6);
    inside.save(branchInside, branchCount * INSIDE_WORDS);
    branchCount++;
  };
  const takeUp = (): void => {
    branchCount--;
    const o = branchCount * BRANCH_WORDS;
    for (let k = 0; k < 6; k++) ray[k] = branches[o + k];
    [br, bg, bb, eta2, events, splits, first, through, lobeDensity, isBlurred, namedEvents] = branches.subarray(
      o + 6,
      o + BRANCH_WORDS,
    );
    inside.restore(branchInside, branchCount * INSIDE_WORDS);
  };

  const imageOf = (source: number): NewImage => {
    const key = ((source * recordIds.length + first) * 2 + through) * 2 + (events === 1 ? 1 : 0);
    let image = images.get(key);
    if (!image) {
      const empty = (): Float64Array => new Float64Array(pixels);
      image = { nits: empty(), blurredNits: empty(), sampleAt: [], sampleNits: [], shares: [] };
      images.set(key, image);
    }
    return image;
  };
  const addSample = ({ sampleAt, sampleNits }: NewImage, nits: number): void => {
    const at = pixel * samples + sampleNow;
    const lastAt = sampleAt.length - 1;
    if (sampleAt[lastAt] === at) sampleNits[lastAt] += nits;
    else {
      sampleAt.push(at);
      sampleNits.push(nits);
    }
  };
  /** Counts what a source shows at the end of the path in hand. */
  const add = (source: number, nits: number): void => {
    if (!(nits > 0) || events === 0 || events > namedEvents) return;
    const image = imageOf(source);
    image.nits[pixel] += nits / samples;
    if (isBlurred) image.blurredNits[pixel] += nits / samples;
    else addSample(image, nits);
  };
  /**
   * Likewise for a sheet, whose light comes with the noise of one path: its mean over the pixel is shared out by how much of it
   * gets through in each sample, once the pixel is done.
   */
  const addSheet = (source: number, nits: number, share: number): void => {
    if (events === 0 || events > namedEvents) return;
    const image = imageOf(source);
    image.nits[pixel] += nits / samples;
    if (isBlurred) image.blurredNits[pixel] += nits / samples;
    else image.shares.push([pixel * samples + sampleNow, share, nits]);
  };
  const shareOutSheets = (): void => {
    for (const { shares, sampleAt, sampleNits } of images.values()) {
      if (shares.length === 0) continue;
      const sum = shares.reduce((total, [, share]) => total + share, 0);
      const nits = shares.reduce((total, [, , own]) => total + own, 0);
      for (const [at, share] of shares) {
        sampleAt.push(at);
        sampleNits.push((share / sum) * nits);
      }
      shares.length = 0;
    }
  };
  const gained = (layer: number, r: number, g: number, b: number): number =>
    wr * r * layerGains[layer * 3] + wg * g * layerGains[layer * 3 + 1] + wb * b * layerGains[layer * 3 + 2];

  /** An event at a surface of so and so record: bounce or, `passes`, going through. */
  const turn = (record: number, passes: boolean): void => {
    if (events === 0) {
      first = record;
      through = passes ? 1 : 0;
    }
    events++;
  };

  /** A point drawn on every lamp, as the facets of a rough coat or metal show it. */
  const connect = (lobe: FacetLobe, record: number, x: number, y: number, z: number): void => {
    const was = [ray[3], ray[4], ray[5], events, first, through, isBlurred];
    turn(record, false);
    isBlurred = 1;
    for (let e = 0; e < emitters.count; e++) {
      sampler.next();
      emitters.sample(e, pair[0], pair[1]);
      const p = emitters.out;
      const [dx, dy, dz] = [p[0] - x, p[1] - y, p[2] - z];
      const d2 = dx * dx + dy * dy + dz * dz;
      const d = Math.sqrt(d2);
      const cosE = -(dx * p[3] + dy * p[4] + dz * p[5]) / d;
      if (!(d > 1e-6) || cosE <= 0) continue;
      lobe.into.set([dx / d, dy / d, dz / d]);
      if (!lobe.evaluate()) continue;
      emitters.leaving.set([-dx / d, -dy / d, -dz / d]);
      const nits = emitters.axialNits[e] * emitters.relative(e, cosE);
      if (nits <= 0) continue;
      ray.set([x, y, z, dx / d, dy / d, dz / d, RAY_START_M, d - 2 * RAY_START_M]);
      if (intersector.any()) continue;
      const density = d2 / (emitters.areaM2[e] * cosE);
      const w = nits / (density + lobe.density[0]);
      const [vr, vg, vb] = lobe.value;
      const surface = surfaceOf[emitters.primitive[e]];
      add(recordOf[surface], gained(emitters.layer[e], br * vr * w, bg * vg * w, bb * vb * w));
    }
    [ray[3], ray[4], ray[5], events, first, through, isBlurred] = was;
  };

  /** One step of the path in hand; false at its end. */
  const step = (): boolean => {
    ray[6] = RAY_START_M;
    ray[7] = Number.POSITIVE_INFINITY;
    if (!intersector.closest()) return false;
    const medium = inside.medium();
    if (medium >= 0) {
      const o = medium * VOLUME.strideWords + VOLUME.offset.ar;
      br *= Math.exp(-(volumes[o] + volumes[o + 3]) * hit[0]);
      bg *= Math.exp(-(volumes[o + 1] + volumes[o + 4]) * hit[0]);
      bb *= Math.exp(-(volumes[o + 2] + volumes[o + 5]) * hit[0]);
    }
    intersector.normalAtHit();
    const t = hit[0];
    const nx = hit[1];
    const ny = hit[2];
    const nz = hit[3];
    const primitive = hitIndex[0];
    const surface = surfaceOf[primitive];
    const record = recordOf[surface];
    const [dx, dy, dz] = [ray[3], ray[4], ray[5]];
    const toward = dx * nx + dy * ny + dz * nz;
    const front = toward < 0;
    const [x, y, z] = [ray[0] + t * dx, ray[1] + t * dy, ray[2] + t * dz];
    const e = emitterOf[primitive];
    if (e >= 0 && front && events > 0) {
      emitters.leaving.set([-dx, -dy, -dz]);
      const nits = emitters.axialNits[e] * emitters.relative(e, -toward);
      let weight = 1;
      if (lobeDensity > 0) {
        const d2 = (x - last[0]) ** 2 + (y - last[1]) ** 2 + (z - last[2]) ** 2;
        weight = lobeDensity / (lobeDensity + d2 / (emitters.areaM2[e] * -toward));
      }
      add(record, gained(emitters.layer[e], br * nits * weight, bg * nits * weight, bb * nits * weight));
    }
    if (events >= mostEvents) return false;
    sampler.next();
    const finish = scattering.shade(primitive, finishOf[primitive], x, y, z, pair[0]);
    const kind = scattering.kind[finish];

    if (kind === FinishKind.clear || kind === FinishKind.frosted) {
      const from = front ? frontVolume[primitive] : backVolume[primitive];
      const to = front ? backVolume[primitive] : frontVolume[primitive];
      const beyond = inside.mediumAfter(from, to);
      const eta = indexOf(beyond) / indexOf(medium);
      if (beyond === medium || eta === 1) {
        ray.set([x, y, z]);
        inside.cross(from, to);
        lobeDensity = 0;
        return true;
      }
      // A ground surface scatters: no image goes through it.
      if (kind === FinishKind.frosted) return false;
      lobeDensity = 0;
      const reflectance = dielectricReflectance(Math.abs(toward), eta);
      const most = Math.max(br, bg, bb) * eta2;
      const saved = [br, bg, bb, events, first, through];
      let reflects = false;
      if (splits < MAX_SPLITS && Math.min(reflectance, 1 - reflectance) * most >= leastShare) {
        splits++;
        turn(record, false);
        reflectRay(ray, x, y, z, toward, nx, ny, nz);
        br *= reflectance;
        bg *= reflectance;
        bb *= reflectance;
        putBy();
        [br, bg, bb, events, first, through] = saved;
        ray[3] = dx;
        ray[4] = dy;
        ray[5] = dz;
        br *= 1 - reflectance;
        bg *= 1 - reflectance;
        bb *= 1 - reflectance;
      } else {
        // The fainter way carries too little to follow, unless the splits are used up.
        sampler.next();
        reflects = splits < MAX_SPLITS ? reflectance > 0.5 : pair[0] < reflectance;
        const share = splits < MAX_SPLITS ? (reflects ? reflectance : 1 - reflectance) : 1;
        br *= share;
        bg *= share;
        bb *= share;
      }
      turn(record, !reflects);
      if (reflects) reflectRay(ray, x, y, z, toward, nx, ny, nz);
      else {
        refractRay(ray, x, y, z, toward, nx, ny, nz, eta);
        br /= eta * eta;
        bg /= eta * eta;
        bb /= eta * eta;
        eta2 *= eta * eta;
        inside.cross(from, to);
      }
      return survives();
    }

    const side = front ? 1 : -1;
    const o = finish * FINISH.strideWords;
    if (kind === FinishKind.mirror) {
      turn(record, false);
      br *= finishes[o + 1];
      bg *= finishes[o + 2];
      bb *= finishes[o + 3];
      reflectRay(ray, x, y, z, toward, nx, ny, nz);
      lobeDensity = 0;
      return survives();
    }
    if (kind === FinishKind.gloss || kind === FinishKind.metal) {
      scattering.normal.set([nx * side, ny * side, nz * side]);
      scattering.out.set([-dx, -dy, -dz]);
      const coat = scattering.coatReflectance(finish);
      if (coat > 0) {
        turn(record, false);
        br *= coat;
        bg *= coat;
        bb *= coat;
        reflectRay(ray, x, y, z, toward, nx, ny, nz);
        lobeDensity = 0;
        return survives();
      }
      facets.at(finish, scattering.normal, scattering.out, scattering.tint);
      connect(facets, record, x, y, z);
      sampler.next();
      if (!facets.sample(pair[0], pair[1])) return false;
      turn(record, false);
      isBlurred = 1;
      // Past so rough a surface only what it shows itself is an image: a sheen.
      if (finishes[o + FINISH.offset.roughness] > MIRROR_LIKE_ROUGHNESS) namedEvents = Math.min(namedEvents, events);
      br *= facets.value[0] / facets.density[0];
      bg *= facets.value[1] / facets.density[0];
      bb *= facets.value[2] / facets.density[0];
      ray.set([x, y, z, ...facets.into]);
      last.set([x, y, z]);
      lobeDensity = facets.density[0];
      return survives();
    }
    if (isSheet[surface] && kind !== FinishKind.black && events > 0) {
      const back = 1e-5;
      const share = wr * br + wg * bg + wb * bb;
      const chance = Math.min(1, Math.max(0.05, (share * eta2) / SHEET_SHARE));
      sampler.next();
      if (chance < 1 && pair[0] >= chance) {
        addSheet(record, 0, share);
        return false;
      }
      sheets.traceRay(x - back * dx, y - back * dy, z - back * dz, dx, dy, dz, pixel, stream++);
      let nits = 0;
      for (let layer = 0; layer < world.layerIds.length; layer++) {
        const s = layer * 3;
        const [r, g, b] = [sheets.sample[s], sheets.sample[s + 1], sheets.sample[s + 2]];
        if (r + g + b > 0) nits += gained(layer, br * r, bg * g, bb * b);
      }
      addSheet(record, nits / chance, share);
    }
    return false;
  };

  /** No path is drawn by lot: that would keep the mean luminance, but thin the area that shows an image. */
  const survives = (): boolean => Math.max(br, bg, bb) * eta2 >= leastShare;

  const aim = (px: number, py: number): void => {
    const sx = ((2 * px) / widthPx - 1) * view.tanHalfWidth;
    const sy = (1 - (2 * py) / heightPx) * view.tanHalfHeight;
    const { right, up, forward, originM } = view;
    for (let k = 0; k < 3; k++) {
      ray[k] = originM[k];
      ray[3 + k] = forward[k] + sx * right[k] + sy * up[k];
    }
    unitDirection(ray);
  };

  for (let py = 0; py < heightPx; py++) {
    for (let px = 0; px < widthPx; px++) {
      pixel = py * widthPx + px;
      aim(px + 0.5, py + 0.5);
      ray[6] = RAY_START_M;
      ray[7] = Number.POSITIVE_INFINITY;
      if (intersector.closest()) {
        intersector.normalAtHit();
        const towards = ray[3] * hit[1] + ray[4] * hit[2] + ray[5] * hit[3];
        const e = emitterOf[hitIndex[0]];
        if (e >= 0 && towards < 0 && gained(emitters.layer[e], 1, 1, 1) > 0) isLamp[pixel] = 1;
        firstId[pixel] = recordIds[recordOf[surfaceOf[hitIndex[0]]]];
      }
      stream = 0;
      for (let s = 0; s < samples; s++) {
        sampleNow = s;
        sampler.start(py * 65536 + px, seed, s);
        sampler.next();
        aim(px + pair[0], py + pair[1]);
        [br, bg, bb, eta2, events, splits, first, through, lobeDensity] = [1, 1, 1, 1, 0, 0, -1, 0, 0];
        isBlurred = 0;
        namedEvents = mostEvents;
        inside.clear();
        branchCount = 0;
        while (true) {
          while (step());
          if (branchCount === 0) break;
          takeUp();
        }
      }
      shareOutSheets();
    }
  }
  return {
    widthPx,
    heightPx,
    samples,
    isLamp,
    firstId,
    images: [...images].map(([key, { nits, blurredNits, sampleAt, sampleNits }]) => {
      const pairKey = Math.floor(key / 4);
      return {
        sourceId: recordIds[Math.floor(pairKey / recordIds.length)],
        firstId: recordIds[pairKey % recordIds.length],
        transmitted: (key & TRANSMITTED) !== 0,
        direct: (key & DIRECT) !== 0,
        nits,
        blurredNits,
        sampleAt,
        sampleNits,
      };
    }),
  };
}
