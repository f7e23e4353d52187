import { whiteBalanceMatrix } from '../../core/color/adapt.ts';
import { luminanceFromRec2020 } from '../../core/color/spaces.ts';
import { applyMatrix3 } from '../../core/matrix3.ts';
import { normalize, sub, type Vec3 } from '../../core/vec3.ts';
import type { Fixture } from '../../fixtures/records.ts';
import { cutSurface } from '../light/cutSurface.ts';
import { isPointInFrame } from '../places/inFrame.ts';
import type { FrameStudy } from '../study.ts';

/** A lamp that stands in the picture as a lamp. */
export interface PracticalLight {
  readonly fixture: Fixture;
  /** Luminance of its brightest seen part and the mean over what is seen of it, cd/m2. */
  readonly brightestNits: number;
  readonly meanNits: number;
  /** Fullest sensor channel of the brightest part over clipping, stops, after white balance. */
  readonly overClippingStops: number;
  readonly channel: 'red' | 'green' | 'blue';
  readonly brightestM: Vec3;
  readonly seenM: readonly Vec3[];
}

const ROUND = 10;
const ALONG = 4;
const CHANNELS = ['red', 'green', 'blue'] as const;
/** Kinds that stand in pictures: those that shine to all sides. */
const isPractical = ({ kind }: Fixture): boolean => kind === 'bulb' || kind === 'lantern' || kind === 'tube';

/** Every practical that is on and that the frame sees some part of. */
export function findPracticals(study: FrameStudy): PracticalLight[] {
  const { scene, set } = study.input;
  return scene.fixtures.flatMap((fixture) => {
    const layer = set.layerFixtureIds.indexOf(fixture.id);
    const isOn = study.input.layerGains.subarray(layer * 3, layer * 3 + 3).some((gain) => gain > 0);
    const light = isPractical(fixture) && isOn ? measurePractical(study, fixture) : null;
    return light ? [light] : [];
  });
}

/** Looks from the lens at points all over a lamp; null when none of them is seen in the frame. */
export function measurePractical(study: FrameStudy, fixture: Fixture): PracticalLight | null {
  const { set, view, query, scene } = study.input;
  const balance = whiteBalanceMatrix(scene.camera.whiteBalanceK);
  const { tree } = study.tracer();
  let brightest = 0;
  let fullest = 0;
  let channel: PracticalLight['channel'] = 'red';
  let brightestM: Vec3 = fixture.positionM;
  let weighted = 0;
  let area = 0;
  const seenM: Vec3[] = [];
  set.surfaces.forEach((surface, surfaceIndex) => {
    if (surface.recordId !== fixture.id || surface.finish.type === 'black') return;
    for (const patch of cutSurface(surface, ROUND, ALONG)) {
      if (!isPointInFrame(view, patch.pointM)) continue;
      const toward = sub(patch.pointM, view.originM);
      const direction = normalize(toward);
      const cos = -(direction[0] * patch.normal[0] + direction[1] * patch.normal[1] + direction[2] * patch.normal[2]);
      const hit = query.closestHit(view.originM, direction);
      const [dx, dy, dz] = hit ? sub(hit.pointM, patch.pointM) : [1, 0, 0];
      const isSame = hit !== null && hit.surfaceIndex === surfaceIndex && Math.hypot(dx, dy, dz) < SAME_M;
      if (!isSame || Math.abs(cos) < LEAST_COS) continue;
      tree.follow(view.originM, direction, () => {});
      const rgb: Vec3 = [tree.totalRgb[0], tree.totalRgb[1], tree.totalRgb[2]];
      const nits = luminanceFromRec2020(rgb);
      const sensor = applyMatrix3(balance, rgb);
      seenM.push(patch.pointM);
      weighted += nits * Math.abs(cos) * patch.areaM2;
      area += Math.abs(cos) * patch.areaM2;
      if (nits > brightest) {
        brightest = nits;
        brightestM = patch.pointM;
      }
      sensor.forEach((value, k) => {
        if (value <= fullest) return;
        fullest = value;
        channel = CHANNELS[k];
      });
    }
  });
  if (!(brightest > 0) || area === 0) return null;
  return {
    fixture,
    brightestNits: brightest,
    meanNits: weighted / area,
    overClippingStops: Math.log2(fullest / study.clippingNits),
    channel,
    brightestM,
    seenM,
  };
}

/** A ray that ends so near to where it was aimed has met it. */
const SAME_M = 0.002;
/** Parts seen more edge-on than this say nothing. */
const LEAST_COS = 0.05;
