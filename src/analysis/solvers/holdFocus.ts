import { airyDiameterM } from '../../camera/depthOfField.ts';
import { cameraExposure } from '../../camera/exposure.ts';
import type { Camera } from '../../camera/records.ts';
import { THIRD_STOPS } from '../../camera/stops.ts';
import type { RecordChange, Remedy } from '../contracts.ts';
import { blurCircles, circleM, type RecordSharpness } from '../sharpness/recordSharpness.ts';
import type { FrameStudy } from '../study.ts';

/** Stopping down past this many circles of diffraction trades one softness for another. */
const MOST_DIFFRACTION = 1.5;
/** A focus that betters the worst part by less is not worth the move. */
const LEAST_GAIN = 0.95;
const ROUND_M = 0.001;
const CAMERA_ID = 'camera';

/**
 * Focus where the front and the back of the subject are equally soft, and the widest stop at which they then hold. Both are
 * worked out anew with the blur of the changed camera.
 *
 * Equal blur at depths n and d: seen from the entrance pupil, f (1/P - 1) off the principal plane, |u' - u| / u' is the same
 * for both, so s = (n d' + d n') / (n' + d') with the primed depths from the pupil.
 */
export function solveSharpness(study: FrameStudy, record: RecordSharpness): Remedy[] {
  const { scene, limits, frameId } = study.input;
  const { camera } = scene;
  const cocM = circleM(camera, limits.circleOfConfusionDivisor);
  const worst = (changed: Camera): number =>
    Math.max(blurCircles(changed, record.nearM, cocM), blurCircles(changed, record.farM, cocM));
  const best: Camera = { ...camera, focusDistanceM: bestFocusM(camera, record) };
  const change = (patch: Partial<Camera>): RecordChange[] => [
    { op: 'update', collection: 'camera', id: frameId ?? CAMERA_ID, patch },
  ];
  const now = worst(camera);
  const focused = worst(best);
  const moves = focused < now * LEAST_GAIN;
  const focusWords = `Focus at ${best.focusDistanceM.toFixed(3)} m`;
  const remedies: Remedy[] = [];
  if (moves)
    remedies.push({
      label: `${focusWords}: worst part ${focused.toFixed(1)} circles soft`,
      changes: change({ focusDistanceM: best.focusDistanceM }),
    });
  if (focused < limits.blurCareCircles) return remedies;
  const from = moves ? best : camera;
  for (const { marked, fNumber } of THIRD_STOPS) {
    if (fNumber <= camera.apertureFNumber * 1.01) continue;
    const stopped: Camera = { ...from, apertureFNumber: Number(marked) };
    if (worst(stopped) >= limits.blurCareCircles) continue;
    if (airyDiameterM(cameraExposure(stopped).effectiveFNumber) > MOST_DIFFRACTION * cocM) break;
    const loss = (2 * Math.log2(stopped.apertureFNumber / camera.apertureFNumber)).toFixed(1);
    const focus = moves ? `${focusWords} and stop` : 'Stop';
    remedies.push({
      label: `${focus} down to f/${marked}: ${worst(stopped).toFixed(1)} circles soft, ${loss} stops less light`,
      changes: change({
        ...(moves ? { focusDistanceM: best.focusDistanceM } : {}),
        apertureFNumber: stopped.apertureFNumber,
      }),
    });
    break;
  }
  return remedies;
}

function bestFocusM({ focalLengthMm, pupilRatio }: Camera, { nearM, farM }: RecordSharpness): number {
  const offsetM = (focalLengthMm / 1000) * (1 / pupilRatio - 1);
  const [nearP, farP] = [nearM + offsetM, farM + offsetM];
  const focusM = (nearM * farP + farM * nearP) / (nearP + farP);
  return Math.round(focusM / ROUND_M) * ROUND_M;
}
