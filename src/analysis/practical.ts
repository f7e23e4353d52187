import { whiteBalanceMatrix } from '../core/color/adapt.ts';
import { luminanceFromRec2020 } from '../core/color/spaces.ts';
import { applyMatrix3 } from '../core/matrix3.ts';
import { normalize, sub, type Vec3 } from '../core/vec3.ts';
import type { Fixture } from '../fixtures/records.ts';
import type { Finding } from './contracts.ts';
import type { FrameStudy } from './frameStudy.ts';
import { cutSurface } from './light/cutSurface.ts';
import { isPointInFrame, outlineInFrame } from './places/inFrame.ts';
import { solvePracticalDimmer } from './solvers/dimPractical.ts';
import { clippingWords, gradeAbove, stopsWords } from './words.ts';

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
/** A channel that clips so much before the luminance does is worth naming. */
const CHANNEL_STOPS = 0.3;

/** Kinds that stand in pictures: those that shine to all sides. */
const isPractical = ({ kind }: Fixture): boolean => kind === 'bulb' || kind === 'lantern' || kind === 'tube';

/**
 * Does a bulb or lantern in the picture burn out? Luminance of its brightest part, of bulb or shade, against the subject and
 * against the channel that clips first.
 */
export function checkPractical(
  study: FrameStudy,
  { remedies = true }: { readonly remedies?: boolean } = {},
): { findings: Finding[]; figures: Record<string, unknown> } {
  const { limits, view } = study.input;
  const practicals = findPracticals(study);
  const subjectNits = study.heroNits();
  const overSubject = (nits: number): number | null =>
    subjectNits > 0 && nits > 0 ? Math.log2(nits / subjectNits) : null;
  const findings = practicals.map((practical): Finding => {
    const { fixture, brightestNits, overClippingStops: value } = practical;
    const grade = gradeAbove(value, limits.practicalCareStops, limits.practicalStopStops);
    const over = overSubject(brightestNits);
    const lumStops = Math.log2(brightestNits / study.clippingNits);
    const early = value - lumStops > CHANNEL_STOPS ? `, ${practical.channel} first` : '';
    const against = over === null ? '' : `, ${stopsWords(over)} ${over >= 0 ? 'over' : 'under'} the subject`;
    return {
      id: `practical:${fixture.id}`,
      check: 'practical',
      grade,
      subject: fixture.id,
      value,
      unit: 'stops over clipping',
      limit: grade === 'stop' ? limits.practicalStopStops : limits.practicalCareStops,
      summary: `The brightest part of ${fixture.name} is ${clippingWords(value)}${early}${against}.`,
      where: {
        ...outlineInFrame(view, practical.seenM),
        pointM: practical.brightestM,
        raysM: [[view.originM, practical.brightestM]],
      },
      remedies: remedies && grade !== 'ok' ? solvePracticalDimmer(study, practical) : [],
    };
  });
  return {
    findings,
    figures: {
      practicals: practicals.map(({ fixture, brightestNits, meanNits, overClippingStops }) => ({
        fixtureId: fixture.id,
        brightestNits,
        meanNits,
        overClippingStops,
        overSubjectStops: overSubject(brightestNits),
        meanOverSubjectStops: overSubject(meanNits),
        dimStops: fixture.dimStops,
      })),
    },
  };
}

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
