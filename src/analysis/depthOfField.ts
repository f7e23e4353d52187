import { cameraSharpness } from '../camera/depthOfField.ts';
import { cameraExposure } from '../camera/exposure.ts';
import { nearestStop } from '../camera/stops.ts';
import { addScaled, type Vec3 } from '../core/vec3.ts';
import type { Finding, Grade } from './contracts.ts';
import { outlineInFrame, pointInFrame } from './places/inFrame.ts';
import { circleM, type RecordSharpness, sharpnessOf } from './sharpness/recordSharpness.ts';
import { solveSharpness } from './solvers/holdFocus.ts';
import type { FrameStudy } from './study.ts';
import { gradeAbove, nameOfRecord } from './words.ts';

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

const cornersOf = ({ minM, maxM }: { minM: Vec3; maxM: Vec3 }): Vec3[] =>
  [0, 1, 2, 3, 4, 5, 6, 7].map((k) => [
    k & 1 ? maxM[0] : minM[0],
    k & 2 ? maxM[1] : minM[1],
    k & 4 ? maxM[2] : minM[2],
  ]);

const finiteOrNull = (value: number | undefined): number | null =>
  value !== undefined && Number.isFinite(value) ? value : null;
