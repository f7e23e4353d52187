import { projectPoint } from '../camera/projection.ts';
import { degFromRad } from '../core/units.ts';
import { add, scale, type Vec3 } from '../core/vec3.ts';
import type { Finding, Grade, Remedy } from './contracts.ts';
import { angleFromAxisRad, frontElementPoints, type LensLight, measureLensLight } from './flareGeometry.ts';
import type { LightSource } from './light/frameLight.ts';
import { LAMP_IN_FRAME_STOP_STOPS, VEIL_NEGLIGIBLE_STOPS, VEIL_STOP_STOPS, VEILING_GLARE_INDEX } from './limits.ts';
import { solveTopFlag } from './solvers/extendTopFlag.ts';
import { solveFlag } from './solvers/placeFlag.ts';
import type { FrameStudy } from './study.ts';
import { clippingWords, gradeAbove, nameOfRecord, percentWords, stopsWords } from './words.ts';

export interface FlareOptions {
  /** Look for a flag or a longer top flag that cuts each graded spill; true when left out. */
  readonly remedies?: boolean;
}

export const ELEMENT_POINTS = 24;
const MAX_RAYS = 3;

/**
 * Which lamps stand in the frame, and which ones outside it still light the front element, with an estimate of the veil
 * that they lay over the picture: L = VGI x E / pi (after ISO 9358, see docs/checks/flare.md).
 */
export function checkFlare(
  study: FrameStudy,
  { remedies = true }: FlareOptions = {},
): { findings: Finding[]; figures: Record<string, unknown> } {
  const { scene, view } = study.input;
  const elementM = frontElementPoints(view, scene.camera.frontElementDiameterM, ELEMENT_POINTS);
  const meanNits = meanFrameNits(study);
  const findings: Finding[] = [];
  const frontElementLux: Record<string, number> = {};
  let veilTotal = 0;
  for (const [fixtureId, sources] of sourcesByFixture(study)) {
    const lensLight = measureLensLight(study.light, view, sources, elementM);
    if (lensLight.inFrameNits > 0) findings.push(lampInFrame(study, fixtureId, lensLight));
    if (lensLight.outsideLux > 0) {
      frontElementLux[fixtureId] = lensLight.outsideLux;
      veilTotal += veilNits(lensLight);
      const finding = spillOnLens(study, fixtureId, lensLight, meanNits, remedies);
      if (finding) findings.push(finding);
    }
  }
  return {
    findings,
    figures: {
      frontElementLux,
      veilNits: veilTotal,
      veilOverBlackStops: Math.log2(1 + veilTotal / study.blackNits),
      frameMeanNits: meanNits,
      veilingGlareIndex: VEILING_GLARE_INDEX,
    },
  };
}

/** Even luminance that light on the front element lays over the frame, cd/m2. */
export const veilNits = (lensLight: Pick<LensLight, 'outsideLux'>): number =>
  (VEILING_GLARE_INDEX * lensLight.outsideLux) / Math.PI;

export function sourcesByFixture(study: FrameStudy): Map<string, LightSource[]> {
  const byFixture = new Map<string, LightSource[]>();
  for (const source of study.light.sources) {
    const list = byFixture.get(source.emitter.fixtureId);
    if (list) list.push(source);
    else byFixture.set(source.emitter.fixtureId, [source]);
  }
  return byFixture;
}

function lampInFrame(study: FrameStudy, fixtureId: string, lensLight: LensLight): Finding {
  const { scene, view } = study.input;
  const over = Math.log2(lensLight.inFrameNits / study.clippingNits);
  const kind = scene.fixtures.find((fixture) => fixture.id === fixtureId)?.kind;
  const isPractical = kind === 'bulb' || kind === 'lantern';
  const graded = over >= LAMP_IN_FRAME_STOP_STOPS ? 'stop' : over > 0 ? 'care' : 'note';
  const grade: Grade = graded === 'stop' && isPractical ? 'care' : graded;
  return {
    id: `flare:${fixtureId}:in-frame`,
    check: 'flare',
    grade,
    subject: fixtureId,
    value: over,
    unit: 'stops over clipping',
    limit: isPractical || grade !== 'stop' ? 0 : LAMP_IN_FRAME_STOP_STOPS,
    summary: `${nameOfRecord(scene, fixtureId)} stands in the frame, ${clippingWords(over)}.`,
    where: { frame: frameBox(study, lensLight.inFramePointsM), ...raysTo(view.originM, lensLight.inFramePointsM) },
    remedies: [],
  };
}

function spillOnLens(
  study: FrameStudy,
  fixtureId: string,
  lensLight: LensLight,
  meanNits: number,
  withRemedies: boolean,
): Finding | null {
  const { scene, view, limits } = study.input;
  const graded = gradeAbove(lensLight.share, limits.flareCareShare, limits.flareStopShare);
  if (graded === 'ok') return null;
  const veil = veilNits(lensLight);
  const overBlack = Math.log2(1 + veil / study.blackNits);
  const overMean = Math.log2(1 + veil / Math.max(meanNits, study.blackNits));
  const strong = graded === 'stop' && overBlack < VEIL_STOP_STOPS ? 'care' : graded;
  const grade: Grade = overBlack < VEIL_NEGLIGIBLE_STOPS ? 'note' : strong;
  const centreM = meanPoint(lensLight.outsidePointsM);
  const angleDeg = degFromRad(angleFromAxisRad(view, centreM));
  const veilWords =
    grade === 'note'
      ? 'the veil is too weak to see'
      : `the veil lifts black by about ${stopsWords(overBlack)} and the mean by ${stopsWords(overMean)} (estimate)`;
  const remedies: Remedy[] = withRemedies && grade !== 'note' ? solveSpill(study, fixtureId) : [];
  return {
    id: `flare:${fixtureId}:on-lens`,
    check: 'flare',
    grade,
    subject: fixtureId,
    value: lensLight.share,
    unit: 'share of the front element',
    limit: grade === 'stop' ? limits.flareStopShare : limits.flareCareShare,
    summary:
      `${nameOfRecord(scene, fixtureId)}, ${Math.round(angleDeg)} degrees off the axis, lights ` +
      `${percentWords(lensLight.share)} of the front element with ${Math.round(lensLight.outsideLux)} lx: ${veilWords}.`,
    where: { ...outsideFrame(study, centreM), ...raysTo(view.originM, lensLight.outsidePointsM) },
    remedies,
  };
}

const solveSpill = (study: FrameStudy, fixtureId: string): Remedy[] => {
  const topFlag = solveTopFlag(study, fixtureId);
  const flag = solveFlag(study, fixtureId);
  return [topFlag, flag].filter((remedy) => remedy !== null);
};

/** Mean luminance of the frame, lamps in view left out, cd/m2. */
function meanFrameNits(study: FrameStudy): number {
  const { totalNits, lampSurface } = study.grid();
  let sum = 0;
  let count = 0;
  totalNits.forEach((nits, cell) => {
    if (lampSurface[cell] >= 0) return;
    sum += nits;
    count++;
  });
  return count > 0 ? sum / count : 0;
}

const raysTo = (lensM: Vec3, pointsM: readonly Vec3[]): { pointM: Vec3; raysM: readonly (readonly Vec3[])[] } => {
  const picked = [0, Math.floor(pointsM.length / 2), pointsM.length - 1].slice(0, MAX_RAYS);
  return { pointM: meanPoint(pointsM), raysM: [...new Set(picked)].map((i) => [lensM, pointsM[i]]) };
};

const meanPoint = (pointsM: readonly Vec3[]): Vec3 =>
  scale(
    pointsM.reduce((sum, point) => add(sum, point), [0, 0, 0]),
    1 / Math.max(1, pointsM.length),
  );

function frameBox(study: FrameStudy, pointsM: readonly Vec3[]) {
  const uvs = pointsM.map((point) => projectPoint(study.input.view, point)).filter((uv) => uv !== null);
  const us = uvs.map(({ u }) => u);
  const vs = uvs.map(({ v }) => v);
  const [u0, u1, v0, v1] = [Math.min(...us), Math.max(...us), Math.min(...vs), Math.max(...vs)];
  return { u: (u0 + u1) / 2, v: (v0 + v1) / 2, widthU: u1 - u0, heightV: v1 - v0 };
}

/** Place beyond the edge of the frame, for a pin on its border. */
function outsideFrame(study: FrameStudy, pointM: Vec3) {
  const at = projectPoint(study.input.view, pointM);
  return at ? { frame: { u: at.u, v: at.v, widthU: 0, heightV: 0 } } : {};
}
