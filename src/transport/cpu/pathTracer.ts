import type { CameraView } from '../../camera/view.ts';
import { LUMINANCE_WEIGHTS_REC2020 } from '../../core/color/spaces.ts';
import { FEATURE_WORDS, type World } from '../contracts.ts';
import { reflectRay, refractRay, unitDirection } from '../kernels/boundary.ts';
import { createCausticTargets } from '../kernels/causticTargets.ts';
import { createEmitterSampler } from '../kernels/emitterSampling.ts';
import { createGuides, GUIDE_CHANCE } from '../kernels/guides.ts';
import { createInsideSet, INSIDE_WORDS } from '../kernels/insideSet.ts';
import { createIntersector, RAY_START_M } from '../kernels/intersector.ts';
import { createLightChoice } from '../kernels/lightChoice.ts';
import { createMediumKernel } from '../kernels/medium.ts';
import { dielectricReflectance } from '../kernels/microfacet.ts';
import { createPhotonMap, PHOTON, PHOTON_WORDS } from '../kernels/photonMap.ts';
import { primitiveColumn } from '../kernels/primitiveColumn.ts';
import { createPixelSampler } from '../kernels/sampler.ts';
import { createScattering } from '../kernels/scattering.ts';
import { FINISH, FinishKind } from '../layout/schema.ts';
import { createPhotonTracer } from './photonTracer.ts';

/** Bounces before a path may be ended by chance. */
const ROULETTE_FROM = 3;
/** A path straight from the lens follows both ways of this many boundaries instead of choosing one by chance. */
const MAX_SPLITS = 6;
/** But only where both ways carry at least this share. */
const SPLIT_SHARE = 0.015;
const BRANCH_WORDS = 12;
/** Scatterings in cloudy media before a path is given up; milk takes some hundreds. */
const MAX_SCATTERINGS = 4000;

export interface PathTracer {
  /** Radiance of the last sample: layers x 3, working RGB cd/m2 at each fixture's full output. */
  readonly sample: Float64Array;
  /** Luminance of the last sample under the gains given at creation. */
  readonly luminance: Float64Array;
  /** What the last sample saw first: FEATURE_WORDS numbers, see `Film.features`. */
  readonly features: Float64Array;
  /** Samples dropped because a value was not finite; tests demand none. */
  readonly dropped: Int32Array;
  /** Trace sample `index` of pixel (x, y), row 0 at the top of the frame, with a set of photons or that of its group. */
  tracePixel(x: number, y: number, index: number, photonSet?: number): void;
  /** Radiance arriving along one ray (origin, unit direction), for tests and probes. */
  traceRay(ox: number, oy: number, oz: number, dx: number, dy: number, dz: number, stream: number, index: number): void;
}

export interface PathTracerOptions {
  readonly world: World;
  readonly view: CameraView;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly seed: number;
  readonly maxDepth: number;
  readonly layerGains: Float32Array;
  /** Leave out light that only one surface has scattered on its way to the lens, and what the lens sees of lamps. */
  readonly bounceOnly?: boolean;
  /** Photons sent at the clear pieces for each group of samples; 0 leaves caustics to chance. */
  readonly photonsPerPass?: number;
}

/** First radius within which photons are gathered, as a share of the size of the smallest clear piece; it shrinks as passes go. */
const GATHER_SHARE = 0.06;
/** Passes shrink the gathering radius as pass^-1/6: bias and noise both vanish (Knaus and Zwicker, TOG 30(3), 2011, alpha 2/3). */
const GATHER_SHRINK = -1 / 6;

/** Samples share photons in growing groups: 0 | 1 | 2-3 | 4-7 | 8-15 | 16-23 | ... */
export const photonPassOfSample = (index: number): number =>
  index < 8 ? (index < 1 ? 0 : 1 + Math.floor(Math.log2(index))) : 3 + Math.floor(index / 8);

/**
 * Unidirectional path tracing over a compiled World: at every scattering surface one connection to a light (multiple
 * importance sampling against the chance of meeting it, balance heuristic: E. Veach, thesis, 1997, ch. 9), exact
 * dielectric boundaries chosen by their reflectance, Beer-Lambert absorption, and light from each fixture kept apart.
 *
 * Caustics. A path that scatters, then crosses glass on its way to a lamp is rare from this end and common from the other, so
 * photons are sent the other way and gathered where the path scatters. Both ways count, each with the weight that its
 * density deserves (balance heuristic over chance hits and gathered photons, as in Georgiev et al., "Light Transport
 * Simulation with Vertex Connection and Merging", TOG 31(6), 2012). For a chain of mirror-like turns the ratio of the two
 * densities has a closed form, since etendue is kept: photons x area of the disc x density of the start over the cosine at
 * the lamp x n^2 cos / density of the direction on the gathering side.
 *
 * Radiance crossing a boundary scales with n^2; the factor cancels for a path that leaves what it entered, and is kept for
 * one that ends inside.
 */
export function createPathTracer(options: PathTracerOptions): PathTracer {
  const { world, view, widthPx, heightPx, seed, maxDepth } = options;
  const layerCount = world.layerIds.length;
  const gains = options.layerGains;
  const luminanceGain = Float64Array.from({ length: layerCount * 3 }, (_, i) => {
    const g = i < gains.length ? gains[i] : 1;
    return g * LUMINANCE_WEIGHTS_REC2020[i % 3];
  });
  const intersector = createIntersector(world);
  const { ray, hit, hitIndex } = intersector;
  const emitters = createEmitterSampler(world);
  const { leaving } = emitters;
  const lights = createLightChoice(world, emitters, gains);
  const guides = createGuides(world);
  const scattering = createScattering(world);
  const inside = createInsideSet(world);
  const sampler = createPixelSampler();
  const pair = sampler.pair;

  const finishOf = primitiveColumn(world, 'finish');
  const frontVolume = primitiveColumn(world, 'frontVolume');
  const backVolume = primitiveColumn(world, 'backVolume');
  const emitterOf = primitiveColumn(world, 'emitter');
  const finishes = Float64Array.from(world.finishWords);
  const media = createMediumKernel(world);
  const indexOf = media.index;
  const surround = world.surroundRgb;
  const surroundLayer = surround[0] + surround[1] + surround[2] > 0 ? layerCount - 1 : -1;

  const sample = new Float64Array(layerCount * 3);
  const luminance = new Float64Array(1);
  const features = new Float64Array(FEATURE_WORDS);
  // Seen so far by the sample in hand: 0 nothing, 1 a first surface, 2 one that scatters too.
  const seen = new Int32Array(1);
  const dropped = new Int32Array(1);
  const bounceOnly = options.bounceOnly === true;
  // Scatterings of the path in hand; single-direction turns do not count.
  const bounces = new Int32Array(1);
  const { normal, out, into, value } = scattering;
  // Where the last scattering happened, for the density of having chosen the light by connection instead.
  const last = new Float64Array(3);

  const targets = createCausticTargets(world, emitters, gains);
  const photonCount = targets.any ? (options.photonsPerPass ?? 0) : 0;
  const photons = createPhotonMap(Math.max(1, photonCount * 2));
  const photonTracer = createPhotonTracer(world, emitters, targets, seed);
  const firstRadiusM = Math.min(0.006, Math.max(0.0005, targets.scaleM * GATHER_SHARE));
  // Photons x gathering area, and x gathering volume.
  const mergeScale = new Float64Array(2);
  const pass = Int32Array.of(-1);

  const beginSample = (pixel: number, index: number, photonSet?: number): void => {
    if (photonCount > 0) {
      const wanted = photonSet ?? photonPassOfSample(index);
      if (wanted !== pass[0]) {
        pass[0] = wanted;
        const r = firstRadiusM * (wanted + 1) ** GATHER_SHRINK;
        photons.clear(r);
        photonTracer.trace(photons, wanted, photonCount);
        mergeScale[0] = photonCount * Math.PI * r * r;
        mergeScale[1] = (photonCount * 4 * Math.PI * r * r * r) / 3;
      }
    }
    sampler.start(pixel, seed, index);
  };

  // Branches put by at a split: ray, throughput, eta scale, depth, splits so far; and what each is inside of.
  const branches = new Float64Array(MAX_SPLITS * BRANCH_WORDS);
  const branchInside = new Int32Array(MAX_SPLITS * INSIDE_WORDS);
  const branchCount = new Int32Array(1);

  /** Traces on from the ray in the registers, then every branch put by on the way. */
  const follow = (): void => {
    sample.fill(0);
    inside.clear();
    branchCount[0] = 0;
    bounces[0] = 0;
    features.fill(0);
    seen[0] = 0;
    followBranch(1, 1, 1, 1, 0, 0);
    while (branchCount[0] > 0) {
      const b = --branchCount[0];
      const o = b * BRANCH_WORDS;
      // A branch is put by before the first scattering.
      bounces[0] = 0;
      for (let k = 0; k < 6; k++) ray[k] = branches[o + k];
      inside.restore(branchInside, b * INSIDE_WORDS);
      followBranch(
        branches[o + 6],
        branches[o + 7],
        branches[o + 8],
        branches[o + 9],
        branches[o + 10],
        branches[o + 11],
      );
    }
  };

  /** Puts the ray in the registers by, to be followed later. */
  const putBy = (br: number, bg: number, bb: number, etaScale: number, depth: number, splits: number): void => {
    const o = branchCount[0] * BRANCH_WORDS;
    for (let k = 0; k < 6; k++) branches[o + k] = ray[k];
    branches[o + 6] = br;
    branches[o + 7] = bg;
    branches[o + 8] = bb;
    branches[o + 9] = etaScale;
    branches[o + 10] = depth;
    branches[o + 11] = splits;
    inside.save(branchInside, branchCount[0] * INSIDE_WORDS);
    branchCount[0]++;
  };

  const followBranch = (
    startR: number,
    startG: number,
    startB: number,
    startEtaScale: number,
    startDepth: number,
    startSplits: number,
  ): void => {
    let br = startR;
    let bg = startG;
    let bb = startB;
    let etaScale = startEtaScale;
    let depth = startDepth;
    let splits = startSplits;
    // Density of the last scattered direction; 0 after a single-direction bounce, where no connection competes.
    let lastDensity = 0;
    // Merge scale x n^2 cos / density where the path last scattered: what a photon's density there is multiplied with.
    let mergeKey = 0;
    // Has the path met glass since it last scattered?
    let crossed = false;
    let scatterings = 0;
    // Crossings of boundaries that do nothing are not bounces, but are bounded all the same.
    for (let step = 0; step < maxDepth + 64 + scatterings; step++) {
      ray[6] = RAY_START_M;
      ray[7] = Number.POSITIVE_INFINITY;
      if (!intersector.closest()) {
        if (surroundLayer >= 0) {
          const o = surroundLayer * 3;
          sample[o] += br * surround[0];
          sample[o + 1] += bg * surround[1];
          sample[o + 2] += bb * surround[2];
        }
        return;
      }
      const medium = inside.medium();
      if (medium >= 0) {
        const clearMedium = media.scatters[medium] === 0;
        if (!clearMedium) sampler.next();
        const collided = media.travel(medium, hit[0], br, bg, bb, pair[0], pair[1]);
        br *= media.weight[0];
        bg *= media.weight[1];
        bb *= media.weight[2];
        if (collided) {
          if (++scatterings > MAX_SCATTERINGS) return;
          bounces[0]++;
          // Cloud counts as one white surface where the light entered it: what the way leads on to is chance, and no guide.
          if (seen[0] === 1) {
            seen[0] = 2;
            features[0] = 1;
            features[1] = 1;
            features[2] = 1;
          }
          const d = media.collision[0];
          for (let k = 0; k < 3; k++) ray[k] += d * ray[3 + k];
          splits = MAX_SPLITS;
          if (photons.count > 0 && !(bounceOnly && bounces[0] < 2)) gatherInMedium(medium, br, bg, bb);
          out[0] = ray[3];
          out[1] = ray[4];
          out[2] = ray[5];
          sampler.next();
          media.scatter(medium, ray, pair[0], pair[1]);
          const n = media.index(medium);
          mergeKey =
            (mergeScale[1] * n * n * media.extinction(medium)) /
            media.phase(medium, out[0] * ray[3] + out[1] * ray[4] + out[2] * ray[5]);
          crossed = false;
          lastDensity = 0;
          const most = Math.max(br, bg, bb) * etaScale;
          if (!(most > 0)) return;
          if (scatterings > 8) {
            const survive = Math.min(0.995, most);
            sampler.next();
            if (pair[0] >= survive) return;
            br /= survive;
            bg /= survive;
            bb /= survive;
          }
          continue;
        }
      }
      intersector.normalAtHit();
      const t = hit[0];
      const primitive = hitIndex[0];
      const dx = ray[3];
      const dy = ray[4];
      const dz = ray[5];
      const nx = hit[1];
      const ny = hit[2];
      const nz = hit[3];
      const toward = dx * nx + dy * ny + dz * nz;
      const front = toward < 0;
      const x = ray[0] + t * dx;
      const y = ray[1] + t * dy;
      const z = ray[2] + t * dz;

      const emitter = emitterOf[primitive];
      if (emitter >= 0 && front) {
        leaving[0] = -dx;
        leaving[1] = -dy;
        leaving[2] = -dz;
        const nits = emitters.axialNits[emitter] * emitters.relative(emitter, -toward);
        if (nits > 0 && !(bounceOnly && bounces[0] < 2)) {
          let weight = 1;
          if (lastDensity > 0) {
            const ex = x - last[0];
            const ey = y - last[1];
            const ez = z - last[2];
            const d2 = ex * ex + ey * ey + ez * ez;
            const connect = (lights.chance(emitter) * d2) / (emitters.areaM2[emitter] * -toward);
            weight = lastDensity / (lastDensity + connect);
          } else if (crossed && mergeKey > 0) {
            weight = 1 / (1 + (mergeKey * targets.density(emitter, x, y, z, -dx, -dy, -dz)) / -toward);
          }
          const o = emitters.layer[emitter] * 3;
          const l = nits * weight;
          sample[o] += br * l;
          sample[o + 1] += bg * l;
          sample[o + 2] += bb * l;
        }
      }
      if (depth >= maxDepth) return;

      if (seen[0] < 2) {
        if (seen[0] === 0) {
          seen[0] = 1;
          features[3] = nx;
          features[4] = ny;
          features[5] = nz;
        }
        features[6] += t;
      }
      let finish = finishOf[primitive];
      let shadeU = 0;
      if (scattering.isPatterned[finish] === 1) {
        sampler.next();
        shadeU = pair[0];
      }
      finish = scattering.shade(primitive, finish, x, y, z, shadeU);
      const kind = scattering.kind[finish];
      if (seen[0] === 1 && scattering.hasLobe[finish] === 1) {
        seen[0] = 2;
        for (let k = 0; k < 3; k++) features[k] = scattering.tint[k];
      }
      if (kind === FinishKind.black) return;

      const boundary = kind === FinishKind.clear || kind === FinishKind.frosted;
      const from = front ? frontVolume[primitive] : backVolume[primitive];
      const to = front ? backVolume[primitive] : frontVolume[primitive];
      let eta = 1;
      scattering.eta[0] = 1;
      if (boundary) {
        const beyond = inside.mediumAfter(from, to);
        eta = indexOf(beyond) / indexOf(medium);
        scattering.eta[0] = eta;
        if (beyond === medium || eta === 1) {
          ray[0] = x;
          ray[1] = y;
          ray[2] = z;
          // Nothing here for light: a boundary inside something of higher priority. A connection would have stopped at it.
          inside.cross(from, to);
          lastDensity = 0;
          continue;
        }
      }

      if (kind === FinishKind.clear) {
        lastDensity = 0;
        depth++;
        const cosI = Math.abs(toward);
        const reflectance = dielectricReflectance(cosI, eta);
        const split =
          splits < MAX_SPLITS &&
          branchCount[0] < MAX_SPLITS &&
          Math.min(reflectance, 1 - reflectance) * Math.max(br, bg, bb) > SPLIT_SHARE;
        let reflects = false;
        if (split) {
          splits++;
          reflectRay(ray, x, y, z, toward, nx, ny, nz);
          putBy(br * reflectance, bg * reflectance, bb * reflectance, etaScale, depth, splits);
          ray[3] = dx;
          ray[4] = dy;
          ray[5] = dz;
          br *= 1 - reflectance;
          bg *= 1 - reflectance;
          bb *= 1 - reflectance;
        } else {
          sampler.next();
          reflects = pair[0] < reflectance;
        }
        crossed = true;
        if (reflects) reflectRay(ray, x, y, z, toward, nx, ny, nz);
        else {
          refractRay(ray, x, y, z, toward, nx, ny, nz, eta);
          const n2 = 1 / (eta * eta);
          br *= n2;
          bg *= n2;
          bb *= n2;
          etaScale *= eta * eta;
          inside.cross(from, to);
        }
      } else if (kind === FinishKind.mirror) {
        const o = finish * FINISH.strideWords;
        br *= finishes[o + 1];
        bg *= finishes[o + 2];
        bb *= finishes[o + 3];
        reflectRay(ray, x, y, z, toward, nx, ny, nz);
        lastDensity = 0;
        depth++;
      } else {
        depth++;
        const sign = front ? 1 : -1;
        normal[0] = nx * sign;
        normal[1] = ny * sign;
        normal[2] = nz * sign;
        out[0] = -dx;
        out[1] = -dy;
        out[2] = -dz;
        sampler.next();
        const choose = pair[0];
        const guideChoose = pair[1];
        // A smooth coat: its mirror direction is taken in proportion to what it and the base would send back.
        const coat = scattering.coatReflectance(finish);
        let mirrorChance = coat > 0 ? coat / (coat + scattering.lobeAlbedo(finish)) : 0;
        if (
          coat > 0 &&
          splits < MAX_SPLITS &&
          branchCount[0] < MAX_SPLITS &&
          coat * Math.max(br, bg, bb) > SPLIT_SHARE
        ) {
          splits++;
          reflectRay(ray, x, y, z, toward, nx, ny, nz);
          putBy(br * coat, bg * coat, bb * coat, etaScale, depth, splits);
          mirrorChance = 0;
        }
        if (!bounceOnly || bounces[0] > 0) {
          if (photons.count > 0) gatherOnSurface(x, y, z, finish, medium, br, bg, bb, 1 - mirrorChance);
          connect(x, y, z, finish, br, bg, bb, 1 - mirrorChance);
        }

        ray[0] = x;
        ray[1] = y;
        ray[2] = z;
        if (choose < mirrorChance) {
          const scale = coat / mirrorChance;
          br *= scale;
          bg *= scale;
          bb *= scale;
          // The connection used the ray's registers.
          ray[3] = dx;
          ray[4] = dy;
          ray[5] = dz;
          reflectRay(ray, x, y, z, toward, nx, ny, nz);
          lastDensity = 0;
        } else {
          // Past a scattering surface a path branches no more.
          splits = MAX_SPLITS;
          bounces[0]++;
          const rest = (choose - mirrorChance) / (1 - mirrorChance);
          sampler.next();
          const u = pair[0];
          const v = pair[1];
          const guideChance = guides.count > 0 ? GUIDE_CHANCE : 0;
          if (guideChoose < guideChance) guides.sample(x, y, z, guideChoose / guideChance, u, v, into);
          else if (!scattering.sample(finish, rest, u, v)) return;
          scattering.evaluate(finish);
          let density = value[3];
          if (guideChance > 0)
            density = (1 - guideChance) * density + guideChance * guides.density(x, y, z, into[0], into[1], into[2]);
          if (!(density > 0)) return;
          const scale = 1 / (density * (1 - mirrorChance));
          br *= value[0] * scale;
          bg *= value[1] * scale;
          bb *= value[2] * scale;
          ray[3] = into[0];
          ray[4] = into[1];
          ray[5] = into[2];
          lastDensity = density * (1 - mirrorChance);
          if (boundary && into[0] * normal[0] + into[1] * normal[1] + into[2] * normal[2] < 0) {
            inside.cross(from, to);
            etaScale *= eta * eta;
          }
          const n = media.index(inside.medium());
          const cos = Math.abs(into[0] * normal[0] + into[1] * normal[1] + into[2] * normal[2]);
          mergeKey = (mergeScale[0] * n * n * cos) / lastDensity;
          crossed = false;
          last[0] = x;
          last[1] = y;
          last[2] = z;
        }
      }

      const most = Math.max(br, bg, bb) * etaScale;
      if (!(most > 0)) return;
      if (depth >= ROULETTE_FROM && most < 1) {
        const survive = Math.max(0.05, Math.min(0.97, most));
        sampler.next();
        if (pair[0] >= survive) return;
        br /= survive;
        bg /= survive;
        bb /= survive;
      }
    }
  };

  /** Light of the photons that came to rest near a point of a scattering surface. */
  const gatherOnSurface = (
    x: number,
    y: number,
    z: number,
    finish: number,
    medium: number,
    br: number,
    bg: number,
    bb: number,
    lobeChance: number,
  ): void => {
    const count = photons.query(x, y, z);
    if (count === 0) return;
    const { data, layer, found, radiusM } = photons;
    const nOut = media.index(medium);
    const perArea = 1 / (Math.PI * radiusM * radiusM);
    for (let i = 0; i < count; i++) {
      const p = found[i];
      if (layer[p] < 0) continue;
      const o = p * PHOTON_WORDS;
      const along = data[o + PHOTON.nx] * normal[0] + data[o + PHOTON.ny] * normal[1] + data[o + PHOTON.nz] * normal[2];
      if (Math.abs(along) < 0.8) continue;
      into[0] = -data[o + PHOTON.dx];
      into[1] = -data[o + PHOTON.dy];
      into[2] = -data[o + PHOTON.dz];
      const side = into[0] * normal[0] + into[1] * normal[1] + into[2] * normal[2];
      const cos = Math.abs(side);
      if (cos < 1e-4) continue;
      const n = side < 0 ? nOut * scattering.eta[0] : nOut;
      scattering.evaluate(finish);
      let density = value[3];
      if (guides.count > 0)
        density = (1 - GUIDE_CHANCE) * density + GUIDE_CHANCE * guides.density(x, y, z, into[0], into[1], into[2]);
      if (!(density > 0)) continue;
      const ratio = (mergeScale[0] * data[o + PHOTON.density] * n * n * cos) / (density * lobeChance);
      const k = ((ratio / (1 + ratio)) * perArea) / cos;
      const l = layer[p] * 3;
      sample[l] += br * value[0] * data[o + PHOTON.r] * k;
      sample[l + 1] += bg * value[1] * data[o + PHOTON.g] * k;
      sample[l + 2] += bb * value[2] * data[o + PHOTON.b] * k;
    }
  };

  /** Likewise in a cloudy medium, at the collision where the ray in the registers stands. */
  const gatherInMedium = (medium: number, br: number, bg: number, bb: number): void => {
    const count = photons.query(ray[0], ray[1], ray[2]);
    if (count === 0) return;
    const { data, layer, found, radiusM } = photons;
    const n = media.index(medium);
    const perVolume = 3 / (4 * Math.PI * radiusM * radiusM * radiusM);
    const key = mergeScale[1] * n * n * media.extinction(medium);
    for (let i = 0; i < count; i++) {
      const p = found[i];
      if (layer[p] >= 0) continue;
      const o = p * PHOTON_WORDS;
      // From the light's way in to the path's way out, seen from the lens: the path runs the other way.
      const cos = data[o + PHOTON.dx] * -ray[3] + data[o + PHOTON.dy] * -ray[4] + data[o + PHOTON.dz] * -ray[5];
      const phase = media.phase(medium, cos);
      const ratio = (key * data[o + PHOTON.density]) / phase;
      const k = (ratio / (1 + ratio)) * perVolume * phase;
      const l = (-1 - layer[p]) * 3;
      sample[l] += br * media.perScattering(medium, 0) * data[o + PHOTON.r] * k;
      sample[l + 1] += bg * media.perScattering(medium, 1) * data[o + PHOTON.g] * k;
      sample[l + 2] += bb * media.perScattering(medium, 2) * data[o + PHOTON.b] * k;
    }
  };

  /** One connection from a scattering point to a light; `lobeChance` is how often the path itself goes on by the lobe. */
  const connect = (
    x: number,
    y: number,
    z: number,
    finish: number,
    br: number,
    bg: number,
    bb: number,
    lobeChance: number,
  ): void => {
    if (emitters.count === 0) return;
    const twoSided = scattering.transmits[finish] === 1;
    const sum = lights.weigh(x, y, z, normal[0], normal[1], normal[2], twoSided);
    sampler.next();
    const choose = pair[0];
    sampler.next();
    if (!(sum > 0)) return;
    const e = lights.pick(choose);
    emitters.sample(e, pair[0], pair[1]);
    const p = emitters.out;
    const dx = p[0] - x;
    const dy = p[1] - y;
    const dz = p[2] - z;
    const d2 = dx * dx + dy * dy + dz * dz;
    const d = Math.sqrt(d2);
    if (!(d > 1e-6)) return;
    into[0] = dx / d;
    into[1] = dy / d;
    into[2] = dz / d;
    const cosE = -(into[0] * p[3] + into[1] * p[4] + into[2] * p[5]);
    if (cosE <= 0) return;
    leaving[0] = -into[0];
    leaving[1] = -into[1];
    leaving[2] = -into[2];
    const nits = emitters.axialNits[e] * emitters.relative(e, cosE);
    if (nits <= 0) return;
    scattering.evaluate(finish);
    if (value[0] + value[1] + value[2] <= 0) return;
    ray[0] = x;
    ray[1] = y;
    ray[2] = z;
    ray[3] = into[0];
    ray[4] = into[1];
    ray[5] = into[2];
    ray[6] = RAY_START_M;
    ray[7] = d - 2 * RAY_START_M;
    if (intersector.any()) return;
    const connectDensity = (lights.chance(e) * d2) / (emitters.areaM2[e] * cosE);
    let density = value[3];
    if (guides.count > 0)
      density = (1 - GUIDE_CHANCE) * density + GUIDE_CHANCE * guides.density(x, y, z, into[0], into[1], into[2]);
    const weight = nits / (connectDensity + density * lobeChance);
    const o = emitters.layer[e] * 3;
    sample[o] += br * value[0] * weight;
    sample[o + 1] += bg * value[1] * weight;
    sample[o + 2] += bb * value[2] * weight;
  };

  const finishSample = (): void => {
    let sum = 0;
    for (let i = 0; i < sample.length; i++) sum += sample[i] * luminanceGain[i];
    if (!(sum >= 0 && sum < Number.POSITIVE_INFINITY)) {
      dropped[0]++;
      sample.fill(0);
      sum = 0;
    }
    luminance[0] = sum;
  };

  const tracePixel = (px: number, py: number, index: number, photonSet?: number): void => {
    beginSample(py * 65536 + px, index, photonSet);
    sampler.next();
    const sx = (2 * (px + pair[0])) / widthPx - 1;
    const sy = 1 - (2 * (py + pair[1])) / heightPx;
    const ax = sx * view.tanHalfWidth;
    const ay = sy * view.tanHalfHeight;
    const { right, up, forward, originM } = view;
    let dx = forward[0] + ax * right[0] + ay * up[0];
    let dy = forward[1] + ax * right[1] + ay * up[1];
    let dz = forward[2] + ax * right[2] + ay * up[2];
    ray[0] = originM[0];
    ray[1] = originM[1];
    ray[2] = originM[2];
    if (view.apertureRadiusM > 0) {
      sampler.next();
      const r = view.apertureRadiusM * Math.sqrt(pair[0]);
      const phi = 2 * Math.PI * pair[1];
      const lx = r * Math.cos(phi);
      const ly = r * Math.sin(phi);
      const f = view.focusDistanceM;
      const ox = lx * right[0] + ly * up[0];
      const oy = lx * right[1] + ly * up[1];
      const oz = lx * right[2] + ly * up[2];
      dx = dx * f - ox;
      dy = dy * f - oy;
      dz = dz * f - oz;
      ray[0] += ox;
      ray[1] += oy;
      ray[2] += oz;
    }
    ray[3] = dx;
    ray[4] = dy;
    ray[5] = dz;
    unitDirection(ray);
    follow();
    finishSample();
  };

  return {
    sample,
    luminance,
    features,
    dropped,
    tracePixel,
    traceRay(ox, oy, oz, dx, dy, dz, stream, index) {
      beginSample(stream, index);
      ray.set([ox, oy, oz, dx, dy, dz]);
      unitDirection(ray);
      follow();
      finishSample();
    },
  };
}
