import { addScaled, type Vec3 } from '../core/vec3.ts';
import { nearestCell } from './background/measureBackground.ts';
import type { Finding, Grade, Remedy } from './contracts.ts';
import { boxOfUvs } from './places/inFrame.ts';
import { solveEvenBackground, solveGradientPlace } from './solvers/lightBackground.ts';
import type { BackgroundLight, FrameStudy } from './study.ts';
import { gradeAbove, placeWords, stopsWords, surfaceWords } from './words.ts';

/**
 * Is the background even, or graded where the frame wants it? Illuminance and luminance over the part of it that the lens
 * sees, worst spread, fitted gradient and hot spot.
 */
export function checkBackground(
  study: FrameStudy,
  { remedies = true }: { readonly remedies?: boolean } = {},
): { findings: Finding[]; figures: Record<string, unknown> } {
  const light = study.background();
  if (!light) return { findings: [], figures: { background: 'none in the frame' } };
  const { limits, scene } = study.input;
  const { place, gradient, hotSpot, darkest } = light;
  const figures = {
    surface: surfaceWords(scene, place.recordId),
    read: limits.backgroundRead,
    frameShare: place.share,
    meanLux: light.meanLux,
    meanNits: light.meanNits,
    spreadStops: light.spreadStops,
    illuminanceSpreadStops: light.luxSpreadStops,
    gradientStops: gradient.stops,
    gradientDirectionDeg: gradient.directionDeg,
    hotSpotUv: [hotSpot.u, hotSpot.v],
    darkestUv: [darkest.u, darkest.v],
    fixtureLux: Object.fromEntries(study.light.layerFixtureIds.map((id, layer) => [id, light.meanLayerLux[layer]])),
  };
  if (!(light.meanNits > 0)) return { findings: [], figures };
  const finding =
    limits.backgroundWanted === 'graded' ? gradedFinding(study, light, remedies) : evenFinding(study, light, remedies);
  return { findings: [finding], figures };
}

function evenFinding(study: FrameStudy, light: BackgroundLight, withRemedies: boolean): Finding {
  const { limits } = study.input;
  const isWanted = limits.backgroundWanted === 'even';
  const graded = gradeAbove(light.spreadStops, limits.backgroundCareStops, limits.backgroundStopStops);
  const grade: Grade = isWanted || graded === 'ok' ? graded : 'note';
  const remedies: Remedy[] = isWanted && graded !== 'ok' && withRemedies ? solveEvenBackground(study, light) : [];
  return {
    ...findingOf(study, light, 'background:spread'),
    grade,
    value: light.spreadStops,
    unit: 'stops across the background',
    limit: grade === 'stop' ? limits.backgroundStopStops : limits.backgroundCareStops,
    summary: spreadSentence(study, light),
    remedies,
  };
}

function spreadSentence(study: FrameStudy, light: BackgroundLight): string {
  const words = readWords(study, light);
  if (light.spreadStops < 0.05) return `${words} is even to a twentieth of a stop.`;
  return (
    `${words} spreads over ${stopsWords(light.spreadStops)}: brightest ${placeWords(light.hotSpot.u, light.hotSpot.v)}, ` +
    `darkest ${placeWords(light.darkest.u, light.darkest.v)}.`
  );
}

/** What was read: 'The wall', 'The wall, its lit parts alone,', 'The wall, smoothed,'. */
function readWords({ input }: FrameStudy, { place }: BackgroundLight): string {
  const words = `The ${surfaceWords(input.scene, place.recordId)}`;
  const { backgroundRead } = input.limits;
  if (backgroundRead === 'litParts') return `${words}, its lit parts alone,`;
  return backgroundRead === 'smoothed' ? `${words}, smoothed over a tenth of the frame,` : words;
}

function gradedFinding(study: FrameStudy, light: BackgroundLight, withRemedies: boolean): Finding {
  const { limits } = study.input;
  const { hotSpot } = light;
  const missM = Math.hypot(hotSpot.u - limits.backgroundPlaceU, hotSpot.v - limits.backgroundPlaceV);
  const isFlat = light.spreadStops < limits.backgroundGradedStops;
  const isOff = missM > limits.backgroundPlaceTolerance;
  const words = readWords(study, light);
  const wanted = placeWords(limits.backgroundPlaceU, limits.backgroundPlaceV);
  const is = `${words} grades over ${stopsWords(light.spreadStops)} from ${placeWords(hotSpot.u, hotSpot.v)}`;
  return {
    ...findingOf(study, light, 'background:gradient'),
    grade: isFlat || isOff ? 'care' : 'ok',
    ...(isOff && !isFlat
      ? { value: missM, unit: 'of the frame off its place', limit: limits.backgroundPlaceTolerance }
      : { value: light.spreadStops, unit: 'stops across the background', limit: limits.backgroundGradedStops }),
    summary: isFlat
      ? `${is}; a gradient of ${stopsWords(limits.backgroundGradedStops)} is wanted.`
      : isOff
        ? `${is}; its bright end is wanted at ${wanted}.`
        : `${is}, where it is wanted.`,
    remedies: isOff && withRemedies ? solveGradientPlace(study, light) : [],
  };
}

function findingOf(study: FrameStudy, light: BackgroundLight, id: string) {
  const { cells, recordId } = light.place;
  const hot = nearestCell(light, light.hotSpot.u, light.hotSpot.v);
  const dark = nearestCell(light, light.darkest.u, light.darkest.v);
  const { originM } = study.input.view;
  const raysM: Vec3[][] = [hot, dark].map((cell) => [originM, cell.pointM, addScaled(cell.pointM, cell.normal, 0.1)]);
  return {
    id,
    check: 'background' as const,
    subject: recordId,
    where: { ...boxOfUvs(cells.map(({ u, v }) => [u, v])), pointM: hot.pointM, raysM },
  };
}
