import { cameraExposure } from '../camera/exposure.ts';
import type { Finding, Grade } from './contracts.ts';
import { keyToFillStops } from './light/meterReading.ts';
import { pointInFrame } from './places/inFrame.ts';
import { solveKeyToFill, solveSubjectToBackground } from './solvers/setRatio.ts';
import type { FrameStudy } from './study.ts';
import { nameOfRecord, percentWords, stopsWords, surfaceWords } from './words.ts';

/** The brightest and the darkest part of the picture, each as this share of it. */
const END_SHARE = 0.02;

/**
 * Key to fill, subject to background, and the brightest and darkest wanted parts of the picture, in stops; each fixture's
 * part of the light on the subject and on the background. Judged only where the frame states what it wants.
 */
export function checkRatios(
  study: FrameStudy,
  { remedies = true }: { readonly remedies?: boolean } = {},
): { findings: Finding[]; figures: Record<string, unknown> } {
  const { scene, limits } = study.input;
  const { dome } = study.meter();
  const background = study.background();
  const keyToFill = keyToFillStops(study.meter());
  const overBackground =
    background && background.meanLux > 0 && dome.totalLux > 0
      ? Math.log2(dome.totalLux / background.meanLux)
      : Number.NaN;
  const heroNits = study.heroNits();
  const overBackgroundNits =
    background && background.meanNits > 0 && heroNits > 0 ? Math.log2(heroNits / background.meanNits) : Number.NaN;
  const findings: Finding[] = [];
  if (dome.totalLux > 0) findings.push(keyFinding(study, keyToFill, remedies));
  if (Number.isFinite(overBackground)) findings.push(backgroundFinding(study, overBackground, remedies));
  return {
    findings,
    figures: {
      keyToFillStops: finiteOrNull(keyToFill),
      subjectToBackgroundStops: finiteOrNull(overBackground),
      subjectToBackgroundInLuminanceStops: finiteOrNull(overBackgroundNits),
      subjectNits: heroNits,
      ...wantedRange(study),
      lightLux: Object.fromEntries(study.meter().lights.map(({ id, lux }) => [id, lux])),
      offSetLux: study.meter().offSetLux,
      shares: study.light.layerFixtureIds.map((fixtureId, layer) => ({
        fixtureId,
        name: nameOfRecord(scene, fixtureId),
        subjectShare: share(dome.layerLux[layer], dome.totalLux),
        ...(background ? { backgroundShare: share(background.meanLayerLux[layer], background.meanLux) } : {}),
      })),
    },
  };

  function keyFinding({ input }: FrameStudy, value: number, withRemedies: boolean): Finding {
    const hasFill = Number.isFinite(value);
    const key = keyId(study);
    const fillShare = hasFill ? 2 ** -value : 0;
    const { grade, limit } = judge(hasFill ? value : 99, limits.keyToFillMinStops, limits.keyToFillMaxStops);
    return {
      id: 'ratios:key-to-fill',
      check: 'ratios',
      grade,
      subject: key,
      value: hasFill ? value : 99,
      unit: 'stops key to fill',
      limit,
      summary: hasFill
        ? `${nameOfRecord(scene, key)} is the key; with fill over fill is ${stopsWords(value)} (${ratioWords(value)}), ` +
          `fill gives ${percentWords(fillShare)} of the light.`
        : `${nameOfRecord(scene, key)} is the only light at the subject: there is no fill.`,
      where: { pointM: scene.subject.meterPointM, ...pointInFrame(input.view, scene.subject.meterPointM) },
      remedies: grade !== 'ok' && withRemedies ? solveKeyToFill(study, key, limits) : [],
    };
  }

  function backgroundFinding({ input }: FrameStudy, value: number, withRemedies: boolean): Finding {
    const { grade, limit } = judge(value, limits.subjectToBackgroundMinStops, limits.subjectToBackgroundMaxStops);
    const words = background ? surfaceWords(scene, background.place.recordId) : 'background';
    const side = Math.abs(value) < 0.05 ? 'as much as' : `${stopsWords(value)} ${value > 0 ? 'more' : 'less'} than`;
    return {
      id: 'ratios:subject-to-background',
      check: 'ratios',
      grade,
      subject: background?.place.recordId ?? scene.subject.pieceId,
      value,
      unit: 'stops subject to background',
      limit,
      summary: `The dome at the subject reads ${side} the light on the ${words}.`,
      where: {
        pointM: scene.subject.meterPointM,
        ...pointInFrame(input.view, scene.subject.meterPointM),
      },
      remedies: grade !== 'ok' && withRemedies ? solveSubjectToBackground(study, limits) : [],
    };
  }
}

/** The strongest single light at the subject. */
export const keyId = (study: FrameStudy): string => study.meter().lights[0]?.id ?? study.input.scene.subject.pieceId;

/** Outside what the frame wants: care. The limit that is missed, or the nearer one. */
function judge(value: number, min?: number, max?: number): { grade: Grade; limit: number | null } {
  if (min !== undefined && value < min) return { grade: 'care', limit: min };
  if (max !== undefined && value > max) return { grade: 'care', limit: max };
  return { grade: 'ok', limit: min ?? max ?? null };
}

/** '4 : 1'. */
const ratioWords = (stops: number): string => {
  const ratio = 2 ** stops;
  return `${ratio < 10 ? Number(ratio.toFixed(1)) : Math.round(ratio)} : 1`;
};

/** Brightest and darkest 2 % of the frame, lamps in view left out, against middle grey as the camera is set. */
function wantedRange(study: FrameStudy): Record<string, number | null> {
  const { totalNits, lampSurface } = study.grid();
  let kept = 0;
  const all = new Float32Array(totalNits.length);
  for (let cell = 0; cell < all.length; cell++) if (lampSurface[cell] < 0) all[kept++] = totalNits[cell];
  const nits = all.subarray(0, kept).sort();
  if (nits.length === 0) return { brightestOverMiddleStops: null, darkestOverMiddleStops: null, rangeStops: null };
  const middle = cameraExposure(study.input.scene.camera).middleLuminanceNits;
  const count = Math.max(1, Math.round(nits.length * END_SHARE));
  const mean = (values: Float32Array): number => values.reduce((sum, v) => sum + v, 0) / values.length;
  const darkest = Math.max(mean(nits.slice(0, count)), study.blackNits);
  const brightest = Math.max(mean(nits.slice(-count)), study.blackNits);
  return {
    brightestOverMiddleStops: Math.log2(brightest / middle),
    darkestOverMiddleStops: Math.log2(darkest / middle),
    rangeStops: Math.log2(brightest / darkest),
  };
}

const share = (part: number, whole: number): number => (whole > 0 ? part / whole : 0);
const finiteOrNull = (value: number): number | null => (Number.isFinite(value) ? value : null);
