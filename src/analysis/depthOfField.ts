import { blurCircleM, cameraSharpness } from '../camera/depthOfField.ts';
import { cameraExposure } from '../camera/exposure.ts';
import type { Camera } from '../camera/records.ts';
import { nearestStop } from '../camera/stops.ts';
import { addScaled, type Vec3 } from '../core/vec3.ts';
import type { Finding, Grade } from './contracts.ts';
import type { FrameStudy } from './frameStudy.ts';
import { boxInFrame } from './places/heroCells.ts';
import { boundsIn, viewFromWorld } from './places/heroPlace.ts';
import { outlineInFrame, pointInFrame } from './places/inFrame.ts';
import { solveSharpness } from './solvers/holdFocus.ts';
import { gradeAbove, nameOfRecord } from './words.ts';

/** Depth of one piece along the lens axis and its blur on the sensor. */
export interface RecordSharpness {
  readonly id: string;
  readonly name: string;
  readonly nearM: number;
  readonly farM: number;
  /** Blur of its nearest and its farthest part, in circles of confusion. */
  readonly nearBlurCircles: number;
  readonly farBlurCircles: number;
  readonly focus: 'sharp' | 'partly sharp' | 'soft';
}

/** Diffraction coarser than this many circles of confusion is worth a note. */
const DIFFRACTION_NOTE = 1;

/**
 * Is it all sharp? Near and far limits with macro magnification, blur of every piece in the frame, and diffraction against
 * the circle of confusion. Graded by the subject.
 */
export function checkDepthOfField(
  study: FrameStudy,
  { remedies = true }: { readonly remedies?: boolean } = {},
): { findings: Finding[]; figures: Record<string, unknown> } {
  const { scene, view, limits } = study.input;
  const { camera } = scene;
  const cocM = circleM(camera, limits.circleOfConfusionDivisor);
  const { depthOfField, airyDiameterM } = cameraSharpness(camera, cocM);
  const exposure = cameraExposure(camera);
  const records = scene.pieces.map((piece) => sharpnessOf(study, piece.id, cocM)).filter((record) => record !== null);
  const hero = records.find(({ id }) => id === scene.subject.pieceId);
  const findings: Finding[] = [];
  if (depthOfField && hero) findings.push(heroFinding(hero, depthOfField));
  const airyCircles = airyDiameterM / cocM;
  if (airyCircles >= DIFFRACTION_NOTE) findings.push(diffractionFinding(airyCircles));
  return {
    findings,
    figures: {
      nearM: depthOfField?.nearM ?? null,
      farM: finiteOrNull(depthOfField?.farM),
      totalM: finiteOrNull(depthOfField?.totalM),
      hyperfocalM: depthOfField?.hyperfocalM ?? null,
      magnification: exposure.magnification,
      effectiveFNumber: exposure.effectiveFNumber,
      circleOfConfusionMm: cocM * 1000,
      diffractionMm: airyDiameterM * 1000,
      records,
    },
  };

  function heroFinding(record: RecordSharpness, limitsM: { readonly nearM: number; readonly farM: number }): Finding {
    const value = Math.max(record.nearBlurCircles, record.farBlurCircles);
    const grade: Grade = gradeAbove(value, limits.blurCareCircles, limits.blurStopCircles);
    const far = Number.isFinite(limitsM.farM) ? `${limitsM.farM.toFixed(3)} m` : 'infinity';
    const part = record.nearBlurCircles > record.farBlurCircles ? 'front' : 'back';
    const name = nameOfRecord(scene, record.id);
    const state =
      value <= 1
        ? `all of ${name} is sharp`
        : `${name} reaches from ${record.nearM.toFixed(3)} to ${record.farM.toFixed(3)} m, its ${part} is ` +
          `${value.toFixed(1)} circles of confusion soft`;
    const bounds = study.hero()?.bounds;
    const focusM = addScaled(view.originM, view.forward, camera.focusDistanceM);
    return {
      id: 'depthOfField:subject',
      check: 'depthOfField',
      grade: grade === 'ok' && value > 1 ? 'note' : grade,
      subject: record.id,
      value,
      unit: 'circles of confusion at the subject',
      limit: grade === 'stop' ? limits.blurStopCircles : limits.blurCareCircles,
      summary: `Sharp from ${limitsM.nearM.toFixed(3)} m to ${far} from the lens: ${state}.`,
      where: {
        ...(bounds ? outlineInFrame(view, cornersOf(bounds)) : {}),
        pointM: focusM,
        raysM: [[view.originM, focusM]],
      },
      remedies: remedies && grade !== 'ok' ? solveSharpness(study, record) : [],
    };
  }

  function diffractionFinding(value: number): Finding {
    return {
      id: 'depthOfField:diffraction',
      check: 'depthOfField',
      grade: 'note',
      subject: scene.subject.pieceId,
      value,
      unit: 'circles of confusion',
      limit: DIFFRACTION_NOTE,
      summary:
        `At f/${nearestStop(camera.apertureFNumber).marked} diffraction draws every point ` +
        `${(airyDiameterM * 1e6).toFixed(0)} um wide, ${value.toFixed(1)} times what passes as sharp: ` +
        'a smaller stop gains no more.',
      where: pointInFrame(view, scene.subject.meterPointM),
      remedies: [],
    };
  }
}

/** Circle of confusion of a camera, metres. */
export const circleM = (camera: Camera, divisor: number): number =>
  Math.hypot(camera.sensorWidthMm, camera.sensorHeightMm) / 1000 / divisor;

/** Blur on the sensor of what lies at a depth, in circles of confusion. */
export function blurCircles(camera: Camera, depthM: number, cocM: number): number {
  const { focalLengthMm, apertureFNumber, focusDistanceM, pupilRatio } = camera;
  return blurCircleM(focalLengthMm / 1000, apertureFNumber, focusDistanceM, depthM, pupilRatio) / cocM;
}

/** Null for a piece that is not in the frame, or not before the lens. */
function sharpnessOf({ input }: FrameStudy, id: string, cocM: number): RecordSharpness | null {
  const { view, scene, set } = input;
  const worldBounds = set.boundsByRecord.get(id);
  if (!worldBounds || !boxInFrame(input, worldBounds)) return null;
  const bounds = boundsIn(input, id, viewFromWorld(view.right, view.up, view.forward, view.originM));
  if (!bounds) return null;
  // What reaches behind the lens begins at it.
  const nearM = Math.max(bounds.minM[2], scene.camera.focalLengthMm / 1000);
  const farM = bounds.maxM[2];
  if (farM <= nearM) return null;
  const nearBlurCircles = blurCircles(scene.camera, nearM, cocM);
  const farBlurCircles = blurCircles(scene.camera, farM, cocM);
  const { focusDistanceM } = scene.camera;
  const crossesFocus = nearM <= focusDistanceM && farM >= focusDistanceM;
  const least = crossesFocus ? 0 : Math.min(nearBlurCircles, farBlurCircles);
  const focus = Math.max(nearBlurCircles, farBlurCircles) <= 1 ? 'sharp' : least <= 1 ? 'partly sharp' : 'soft';
  return { id, name: nameOfRecord(scene, id), nearM, farM, nearBlurCircles, farBlurCircles, focus };
}

const cornersOf = ({ minM, maxM }: { minM: Vec3; maxM: Vec3 }): Vec3[] =>
  [0, 1, 2, 3, 4, 5, 6, 7].map((k) => [
    k & 1 ? maxM[0] : minM[0],
    k & 2 ? maxM[1] : minM[1],
    k & 4 ? maxM[2] : minM[2],
  ]);

const finiteOrNull = (value: number | undefined): number | null =>
  value !== undefined && Number.isFinite(value) ? value : null;
