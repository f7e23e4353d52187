import { LUMINANCE_WEIGHTS_REC2020 } from '../../core/color/spaces.ts';
import type { Vec3 } from '../../core/vec3.ts';
import { type KeptPlace, SHEEN_WORDS } from '../keep/keptPlaces.ts';
import type { RayStore } from '../keep/keptRays.ts';
import { brightestNitsOf, type FrameLight } from '../light/frameLight.ts';
import type { ScatteredLight } from '../light/scatteredLight.ts';
import type { SeenPoint } from '../light/seenPoint.ts';
import { type ChainRecord, endOfWay, FLAG, pointsToWay, SIGHT, SIGHT_WORDS } from './chainRecord.ts';
import { SurfaceKind, type SurfaceTable } from './surfaceTable.ts';
import { createChainTracer, DEPTH_END } from './traceChains.ts';

/** A light, bounce card or cloth met at the end of a chain of mirror-like events. */
export interface Arrival {
  /** Surface that shines. */
  readonly sourceSurface: number;
  /** First mirror-like or clear surface of the chain. */
  readonly firstSurface: number;
  /** Did the chain go through that first surface, or bounce off it? */
  readonly transmitted: boolean;
  /** Surface that mirrored the light last on the way from the lens, -1 when it only went through things. */
  readonly mirrorSurface: number;
  /** Mirror-like events in the chain; 1 with `transmitted` false is a plain mirror image. */
  readonly events: number;
  /** Luminance that it adds to the ray, cd/m2 under the gains. */
  readonly luminanceNits: number;
}

export type OnArrival = (arrival: Arrival, chainM: () => readonly Vec3[]) => void;

/** Ray walk through every reflection and refraction. One ray at a time; registers are overwritten by the next. */
export interface SpecularTree {
  /** Luminance of the ray in working RGB, cd/m2: scattered light, lamps in view, and every chain. */
  readonly totalRgb: Float64Array;
  /** Surface of a lamp that the ray meets with no event on the way, or -1. */
  readonly lampInView: { surfaceIndex: number };
  /** First thing met: surface, or -1 for nothing. */
  readonly firstHit: { surfaceIndex: number };
  /** Ways between boundaries that the ray split into. */
  readonly ways: { count: number };
  /**
   * @param onArrival called once per arrival. `chainM` gives the points from the lens to the source, valid in the call.
   * @param mostEvents chains of more mirror-like events than this are not followed
   */
  follow(originM: Vec3, direction: Vec3, onArrival: OnArrival, mostEvents?: number): void;
}

export interface SpecularTreeOptions {
  /** Chains that could add less than this much luminance are dropped; 0, or nothing, follows all. */
  readonly endNits?: number;
  /** Where rays are kept for the next time that they are asked for. */
  readonly rays?: RayStore;
  /** Leaves out the light of matte surfaces, bounce cards, cloths and shades excepted: for outlines. */
  readonly outlinesOnly?: boolean;
}

/** Chains end when less than this is left of them. */
const THROUGHPUT_END = 1e-4;
const LARGEST_THROUGHPUT_END = 0.01;

/**
 * Follows rays by exact Fresnel, total reflection and Beer-Lambert absorption, and lights what they meet. Rough coats and
 * metals show each lamp and sheet blurred.
 */
export function createSpecularTree(
  light: FrameLight,
  table: SurfaceTable,
  scattered: ScatteredLight,
  { endNits = 0, rays, outlinesOnly = false }: SpecularTreeOptions = {},
): SpecularTree {
  const { query, sourceOfSurface } = light;
  const brightestNits = light.sources.reduce(
    (most, { emitter, gainRgb }) => Math.max(most, brightestNitsOf(emitter) * Math.max(...gainRgb)),
    0,
  );
  const visible = brightestNits > 0 ? Math.min(LARGEST_THROUGHPUT_END, endNits / brightestNits) : 1;
  const throughputEnd = endNits > 0 ? Math.max(THROUGHPUT_END, visible) : THROUGHPUT_END;
  const trace = createChainTracer(query, table, throughputEnd);
  rays?.walkedTo(throughputEnd);
  const totalRgb = new Float64Array(3);
  const lampInView = { surfaceIndex: -1 };
  const firstHit = { surfaceIndex: -1 };
  const ways = { count: 0 };
  const [wr, wg, wb] = LUMINANCE_WEIGHTS_REC2020;

  const seenAt = (record: ChainRecord, at: number): SeenPoint => {
    const { sights } = record;
    return {
      surfaceIndex: sights[at + SIGHT.surface],
      front: (sights[at + SIGHT.flags] & FLAG.front) !== 0,
      pointM: endOfWay(record, sights[at + SIGHT.way]),
      normal: [sights[at + SIGHT.normal], sights[at + SIGHT.normal + 1], sights[at + SIGHT.normal + 2]],
      toViewer: [sights[at + SIGHT.toViewer], sights[at + SIGHT.toViewer + 1], sights[at + SIGHT.toViewer + 2]],
      detailM: sights[at + SIGHT.detailM],
    };
  };

  /** Light that a surface seen scatters, in `scattered.out`; gives the place that it was found for. */
  const scatter = (record: ChainRecord, sight: number): KeptPlace | null => {
    const at = sight * SIGHT_WORDS;
    const kept = record.places?.[sight];
    if (kept && scattered.holds(kept)) {
      const { sights } = record;
      const cosView =
        sights[at + SIGHT.normal] * sights[at + SIGHT.toViewer] +
        sights[at + SIGHT.normal + 1] * sights[at + SIGHT.toViewer + 1] +
        sights[at + SIGHT.normal + 2] * sights[at + SIGHT.toViewer + 2];
      scattered.show(kept, sights[at + SIGHT.surface], cosView);
      return kept;
    }
    const place = scattered.find(seenAt(record, at));
    if (record.places) record.places[sight] = place;
    return place;
  };

  /** Names the lamps and sheets whose sheen a rough surface shows; their light is counted already. */
  const nameSheen = (
    record: ChainRecord,
    at: number,
    { sheen, sheetSheens }: KeptPlace,
    [r, g, b]: Vec3,
    onArrival: OnArrival,
  ): void => {
    const { sights } = record;
    const surface = sights[at + SIGHT.surface];
    const events = sights[at + SIGHT.events];
    const name = (sourceSurface: number, luminanceNits: number, sourceM: Vec3, more: number): void => {
      if (!(luminanceNits > 0)) return;
      const arrival: Arrival = {
        sourceSurface,
        firstSurface: events > 0 ? sights[at + SIGHT.firstSurface] : surface,
        transmitted: (sights[at + SIGHT.flags] & FLAG.transmitted) !== 0,
        mirrorSurface: surface,
        events: events + more,
        luminanceNits,
      };
      onArrival(arrival, () => [...pointsToWay(record, sights[at + SIGHT.way]), sourceM]);
    };
    const nameBoth = (sourceSurface: number, nits: number, unbent: number, sourceM: Vec3): void => {
      name(sourceSurface, nits * unbent, sourceM, 1);
      // Bent by glass on the way, it is still an image where the surface shows any.
      if (table.mirrorLike[surface]) name(sourceSurface, nits * (1 - unbent), sourceM, 2);
    };
    if (sheen)
      for (const { source } of light.pictureSources) {
        const e = source.emitterIndex * SHEEN_WORDS;
        const nits = wr * r * sheen[e] + wg * g * sheen[e + 1] + wb * b * sheen[e + 2];
        nameBoth(source.emitter.surfaceIndex, nits, sheen[e + 3], source.emitter.centreM);
      }
    for (const { surfaceIndex, pointM, rgb, unbent } of sheetSheens)
      nameBoth(surfaceIndex, wr * r * rgb[0] + wg * g * rgb[1] + wb * b * rgb[2], unbent, pointM);
  };

  // One function for all arrivals, for there are many and few ask for it.
  let arrivedRecord: ChainRecord | null = null;
  let arrivedWay = 0;
  const chainNow = (): readonly Vec3[] => (arrivedRecord ? pointsToWay(arrivedRecord, arrivedWay) : []);
  const arrive = (record: ChainRecord, at: number, luminanceNits: number, onArrival: OnArrival): void => {
    const { sights } = record;
    arrivedRecord = record;
    arrivedWay = sights[at + SIGHT.way];
    onArrival(
      {
        sourceSurface: sights[at + SIGHT.surface],
        firstSurface: sights[at + SIGHT.firstSurface],
        transmitted: (sights[at + SIGHT.flags] & FLAG.transmitted) !== 0,
        mirrorSurface: sights[at + SIGHT.mirrorSurface],
        events: sights[at + SIGHT.events],
        luminanceNits,
      },
      chainNow,
    );
  };

  const { out } = scattered;
  return {
    totalRgb,
    lampInView,
    firstHit,
    ways,
    follow: (originM, direction, onArrival, mostEvents = DEPTH_END) => {
      totalRgb.fill(0);
      lampInView.surfaceIndex = -1;
      const known = rays?.find(originM, direction, mostEvents);
      const walked = known ?? trace(originM, direction, mostEvents);
      const record = known || !rays ? walked : rays.keep(walked);
      const { sights, sightCount } = record;
      firstHit.surfaceIndex = record.firstSurface;
      ways.count = record.wayCount;
      for (let sight = 0; sight < sightCount; sight++) {
        const at = sight * SIGHT_WORDS;
        const flags = sights[at + SIGHT.flags];
        const s = sights[at + SIGHT.surface];
        const events = sights[at + SIGHT.events];
        const kind = table.kind[s];
        const r = sights[at + SIGHT.through];
        const g = sights[at + SIGHT.through + 1];
        const b = sights[at + SIGHT.through + 2];

        // Does it shine?
        const isShining = (flags & FLAG.front) !== 0 && (flags & FLAG.taken) === 0 && sourceOfSurface[s] >= 0;
        if (isShining) {
          const { gainRgb, emitterIndex } = light.sources[sourceOfSurface[s]];
          const { normal, toViewer } = seenAt(record, at);
          const nits = query.emittedNits(emitterIndex, normal, toViewer);
          const [er, eg, eb] = [r * nits * gainRgb[0], g * nits * gainRgb[1], b * nits * gainRgb[2]];
          totalRgb[0] += er;
          totalRgb[1] += eg;
          totalRgb[2] += eb;
          if (events === 0) lampInView.surfaceIndex = s;
          else arrive(record, at, wr * er + wg * eg + wb * eb, onArrival);
        }

        // Light that it scatters.
        const isSheen = table.isRough[s] === 1;
        const isWanted = !outlinesOnly || table.bounces[s] === 1 || isSheen;
        if (kind !== SurfaceKind.end && kind !== SurfaceKind.mirror && isWanted) {
          const place = scatter(record, sight);
          const ratio = sights[at + SIGHT.ratio];
          if (isSheen && place && (flags & FLAG.hazed) === 0)
            nameSheen(record, at, place, [r * ratio, g * ratio, b * ratio], onArrival);
          const sr = r * ratio * out[0];
          const sg = g * ratio * out[1];
          const sb = b * ratio * out[2];
          totalRgb[0] += sr;
          totalRgb[1] += sg;
          totalRgb[2] += sb;
          if (events > 0 && table.bounces[s] && (flags & FLAG.taken) === 0)
            arrive(record, at, wr * sr + wg * sg + wb * sb, onArrival);
        }
      }
    },
  };
}
