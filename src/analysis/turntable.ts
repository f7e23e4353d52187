import { dot, sub } from '../core/vec3.ts';
import type { Finding, Grade, Remedy } from './contracts.ts';
import { DEFAULT_CAPTURE, DEFAULT_ROOM } from './limits.ts';
import { outlineInFrame } from './places/inFrame.ts';
import type { FrameStudy, HeroPlace } from './study.ts';
import {
  flickerResidual,
  isLockedToMains,
  rpmForBlur,
  safeShutters,
  turningSpeedMPerS,
  turnPerFrameDeg,
} from './turn/motion.ts';
import { sweepHighlights, type TurnStep } from './turn/sweepHighlights.ts';
import { gradeAbove, lengthWords, nameOfRecord, percentWords } from './words.ts';

export interface TurntableOptions {
  readonly remedies?: boolean;
  /** Follow the highlights through the turn, which builds the set anew for each step; true when left out. */
  readonly sweep?: boolean;
}

/** Much flicker is worth care, a little of it a note. */
const FLICKER_CARE_TIMES = 5;

/**
 * Does the turn wobble, blur or flicker, and where do its highlights go? Run-out and motion blur in mm and px of the
 * delivered picture, ripple of the mains in the shutter, clipping of the subject through one turn.
 */
export function checkTurntable(
  study: FrameStudy,
  { remedies = true, sweep = true }: TurntableOptions = {},
): { findings: Finding[]; figures: Record<string, unknown> } {
  const { scene, view, limits, capture = DEFAULT_CAPTURE, room = DEFAULT_ROOM } = study.input;
  const { turntable, camera } = scene;
  const hero = study.hero();
  if (!turntable || !hero || capture.kind === 'still' || !turntable.carries.includes(hero.recordId))
    return { findings: [], figures: { turns: 'nothing in this frame' } };
  const depthM = Math.max(1e-3, dot(sub(hero.footM, view.originM), view.forward) - hero.radiusM);
  const pxPerM = capture.pictureWidthPx / (2 * view.tanHalfWidth * depthM);
  const offAxisM = Math.hypot(hero.footM[0] - turntable.centreM[0], hero.footM[2] - turntable.centreM[2]);
  const radiusM = hero.radiusM + offAxisM;
  const blurM = turningSpeedMPerS(radiusM, turntable.rpm) * camera.shutterS;
  const wobbleM = 2 * turntable.runOutM;
  const locked = isLockedToMains(capture.framesPerS, room.mainsHz);
  const residual = locked ? 0 : flickerResidual(camera.shutterS, room.mainsHz);
  const steps = sweep ? sweepHighlights(study) : [];
  const findings = [
    wobbleFinding(study, hero, wobbleM, pxPerM),
    blurFinding(study, hero, blurM, radiusM, pxPerM, remedies),
    flickerFinding(study, hero, residual, locked, remedies),
    ...sweepFindings(study, hero, steps),
  ];
  return {
    findings,
    figures: {
      rpm: turntable.rpm,
      turnPerFrameDeg: turnPerFrameDeg(turntable.rpm, capture.framesPerS),
      pxPerMm: pxPerM / 1000,
      wobbleMm: wobbleM * 1000,
      wobblePx: wobbleM * pxPerM,
      blurMm: blurM * 1000,
      blurPx: blurM * pxPerM,
      fastestRpm: rpmForBlur(limits.turnBlurCarePx, radiusM, camera.shutterS, pxPerM),
      flickerLeftShare: residual,
      safeShutterAngles: Object.fromEntries(
        [50, 60].map((hz) => [
          `${hz} Hz at ${capture.framesPerS} frames a second`,
          safeShutters(capture.framesPerS, hz).map(({ angleDeg }) => Math.round(angleDeg * 10) / 10),
        ]),
      ),
      ...(steps.length > 0
        ? {
            highlightTravelFrames: travelOf(steps),
            mostClippedShare: Math.max(...steps.map(({ clippedShare }) => clippedShare)),
          }
        : {}),
    },
  };
}

const common = (study: FrameStudy, hero: HeroPlace) => ({
  check: 'turntable' as const,
  subject: hero.recordId,
  where: {
    ...outlineInFrame(study.input.view, [hero.bounds.minM, hero.bounds.maxM]),
    pointM: hero.footM,
    raysM: [[hero.footM, hero.topM]],
  },
});

function wobbleFinding(study: FrameStudy, hero: HeroPlace, wobbleM: number, pxPerM: number): Finding {
  const { limits, scene } = study.input;
  const value = wobbleM * pxPerM;
  const grade = gradeAbove(value, limits.runOutCarePx, limits.runOutCarePx * 10);
  return {
    ...common(study, hero),
    id: 'turntable:wobble',
    grade,
    value,
    unit: 'px from side to side',
    limit: limits.runOutCarePx,
    summary:
      value === 0
        ? `${nameOfRecord(scene, hero.recordId)} stands on the axis: the turn does not wobble.`
        : `The turn carries ${nameOfRecord(scene, hero.recordId)} ${lengthWords(wobbleM)} from side to side, ${value.toFixed(1)} px.`,
    // Centring is a matter of the hand on set; the turntable is in no list that a change could name.
    remedies: [],
  };
}

function blurFinding(
  study: FrameStudy,
  hero: HeroPlace,
  blurM: number,
  radiusM: number,
  pxPerM: number,
  withRemedies: boolean,
): Finding {
  const { limits, scene, frameId } = study.input;
  const value = blurM * pxPerM;
  const showsTurn = hasFeatures(study, hero);
  const graded = gradeAbove(value, limits.turnBlurCarePx, limits.turnBlurStopPx);
  const grade: Grade = showsTurn || graded === 'ok' ? graded : 'note';
  const { camera, turntable } = scene;
  const remedies: Remedy[] = [];
  if (withRemedies && (grade === 'care' || grade === 'stop')) {
    const shutterS = (camera.shutterS * limits.turnBlurCarePx * 0.99) / value;
    if (shutterS > 1 / 8000) {
      const loss = Math.log2(camera.shutterS / shutterS);
      remedies.push({
        label: `Shorten the shutter to 1/${Math.round(1 / shutterS)} s: ${loss.toFixed(1)} stops less light`,
        changes: [
          {
            op: 'update',
            collection: 'camera',
            id: frameId ?? 'camera',
            patch: { shutterS: 1 / Math.ceil(1 / shutterS) },
          },
        ],
      });
    }
  }
  const slowest = rpmForBlur(limits.turnBlurCarePx, radiusM, camera.shutterS, pxPerM);
  const plain = showsTurn ? '' : '; a plain turned glass does not show it';
  return {
    ...common(study, hero),
    id: 'turntable:blur',
    grade,
    value,
    unit: 'px of motion blur',
    limit: grade === 'stop' ? limits.turnBlurStopPx : limits.turnBlurCarePx,
    summary:
      `At ${turntable?.rpm ?? 0} rpm the front of ${nameOfRecord(scene, hero.recordId)} moves ${lengthWords(blurM)}, ` +
      `${value.toFixed(1)} px, while the shutter is open${plain}. Up to ${slowest.toFixed(1)} rpm it stays within ` +
      `${limits.turnBlurCarePx} px.`,
    remedies,
  };
}

function flickerFinding(
  study: FrameStudy,
  hero: HeroPlace,
  residual: number,
  locked: boolean,
  withRemedies: boolean,
): Finding {
  const { limits, scene, frameId, capture = DEFAULT_CAPTURE, room = DEFAULT_ROOM } = study.input;
  const { shutterS } = scene.camera;
  const grade: Grade =
    residual >= limits.flickerCareShare * FLICKER_CARE_TIMES
      ? 'care'
      : residual >= limits.flickerCareShare
        ? 'note'
        : 'ok';
  const nearest = safeShutters(capture.framesPerS, room.mainsHz).sort(
    (a, b) => Math.abs(Math.log(a.shutterS / shutterS)) - Math.abs(Math.log(b.shutterS / shutterS)),
  )[0];
  const stops = nearest ? Math.log2(nearest.shutterS / shutterS) : 0;
  const remedies: Remedy[] =
    withRemedies && grade !== 'ok' && nearest
      ? [
          {
            label:
              `Set the shutter to 1/${Number((1 / nearest.shutterS).toFixed(1))} s (${nearest.angleDeg.toFixed(1)} degrees): ` +
              `${Math.abs(stops).toFixed(1)} stops ${stops >= 0 ? 'more' : 'less'} light, no flicker`,
            changes: [
              { op: 'update', collection: 'camera', id: frameId ?? 'camera', patch: { shutterS: nearest.shutterS } },
            ],
          },
        ]
      : [];
  return {
    ...common(study, hero),
    id: 'turntable:flicker',
    grade,
    value: residual,
    unit: 'share of the ripple',
    limit: limits.flickerCareShare,
    summary: locked
      ? `${capture.framesPerS} frames a second run in step with ${room.mainsHz} Hz mains: no frame differs from the next.`
      : `${percentWords(residual)} of the ripple of a lamp on ${room.mainsHz} Hz mains is left in a frame. ` +
        'LED drivers differ: ask for theirs, or shoot a test.',
    remedies,
  };
}

function sweepFindings(study: FrameStudy, hero: HeroPlace, steps: readonly TurnStep[]): Finding[] {
  if (steps.length === 0) return [];
  const { limits, scene } = study.input;
  const name = nameOfRecord(scene, hero.recordId);
  const worst = steps.reduce((most, step) => (step.clippedShare > most.clippedShare ? step : most));
  const path = steps.flatMap(({ highlight }) => (highlight ? [[highlight.u, highlight.v] as const] : []));
  const base = common(study, hero);
  const findings: Finding[] = [
    {
      ...base,
      id: 'turntable:sweep',
      grade: worst.clippedShare > limits.turnClipCareShare ? 'care' : 'ok',
      value: worst.clippedShare,
      unit: 'share of the frame',
      limit: limits.turnClipCareShare,
      summary:
        `Through the turn the highlights on ${name} travel ${percentWords(travelOf(steps))} of the width of the frame and clip ` +
        `over ${percentWords(worst.clippedShare)} of it at most, at ${worst.turnDeg} degrees.`,
      where: { ...base.where, outlineUv: path },
      remedies: [],
    },
  ];
  const onLabel = steps.flatMap(({ labelStops, turnDeg }) => (labelStops === null ? [] : [{ labelStops, turnDeg }]));
  if (onLabel.length > 0) {
    const most = onLabel.reduce((best, step) => (step.labelStops > best.labelStops ? step : best));
    findings.push({
      ...base,
      id: 'turntable:label',
      grade: gradeAbove(most.labelStops, limits.reflectionCareStops, Number.POSITIVE_INFINITY),
      value: most.labelStops,
      unit: 'stops over the label',
      limit: limits.reflectionCareStops,
      summary: `A highlight ${most.labelStops.toFixed(1)} stops over the label of ${name} sweeps it at ${most.turnDeg} degrees.`,
      remedies: [],
    });
  }
  return findings;
}

/** Widest travel of the highlight across the frame. */
function travelOf(steps: readonly TurnStep[]): number {
  const us = steps.flatMap(({ highlight }) => (highlight ? [highlight.u] : []));
  return us.length > 0 ? Math.max(...us) - Math.min(...us) : 0;
}

/** Is there anything on it that shows that it turns: corners, label, cut, garnish, ice? */
function hasFeatures(study: FrameStudy, hero: HeroPlace): boolean {
  return study.input.set.surfaces.some(({ recordId, shape, worldFromLocal }) => {
    if (recordId !== hero.recordId) return false;
    if (shape.type === 'quad' || shape.type === 'mesh' || shape.azimuth !== undefined) return true;
    const [x, , z] = worldFromLocal.translationM;
    const isUpright = worldFromLocal.rotation[4] > UPRIGHT_COS;
    return !isUpright || Math.hypot(x - hero.footM[0], z - hero.footM[2]) > OFF_AXIS_M;
  });
}

const UPRIGHT_COS = 0.999;
const OFF_AXIS_M = 0.002;
