import { whiteBalanceMatrix } from '../core/color/adapt.ts';
import { deltaE2000, labFromXyz } from '../core/color/difference.ts';
import { luminanceFromRec2020, XYZ_FROM_REC2020 } from '../core/color/spaces.ts';
import { applyMatrix3 } from '../core/matrix3.ts';
import { miredFromKelvin } from '../core/units.ts';
import { scale, type Vec3 } from '../core/vec3.ts';
import { gelledSource } from '../fixtures/gain.ts';
import type { Finding, Grade } from './contracts.ts';
import type { FrameStudy } from './frameStudy.ts';
import { pointInFrame } from './places/inFrame.ts';
import { solveSameColour } from './solvers/matchColour.ts';
import { nameOfRecord, percentWords, surfaceWords } from './words.ts';

/** A light that gives less than this part of what a place gets does not colour it. */
export const COLOURS_SHARE = 0.05;
/** Reflectance of the card on which colours are compared: 18 % grey. */
const CARD = 0.18;

/** Two lights on one place and how far they differ. */
export interface MixedPair {
  readonly placeName: string;
  readonly pointM: Vec3;
  readonly key: LightColour;
  readonly other: LightColour;
  readonly mired: number;
  /** On a grey card, each light alone at the same luminance, as the camera is balanced. */
  readonly deltaE: number;
}

export interface LightColour {
  readonly fixtureId: string;
  readonly share: number;
  readonly cctK: number;
  readonly duv: number;
}

/**
 * Do lights of different colour fall on one place? For subject and background the strongest light and the one that differs
 * most from it, in mired and in CIEDE2000 on a grey card under the camera's balance.
 */
export function checkColourMix(
  study: FrameStudy,
  { remedies = true }: { readonly remedies?: boolean } = {},
): { findings: Finding[]; figures: Record<string, unknown> } {
  const { limits, scene, view } = study.input;
  const pairs = mixedPairs(study);
  const findings = pairs.map((pair): Finding => {
    const grade: Grade = pair.mired >= limits.mixCareMired ? 'care' : pair.mired >= limits.mixNoteMired ? 'note' : 'ok';
    const [key, other] = [pair.key, pair.other].map(({ fixtureId }) => nameOfRecord(scene, fixtureId));
    const side = miredFromKelvin(pair.other.cctK) > miredFromKelvin(pair.key.cctK) ? 'warmer' : 'cooler';
    return {
      id: `colourMix:${pair.placeName}`,
      check: 'colourMix',
      grade,
      subject: pair.other.fixtureId,
      value: pair.mired,
      unit: 'mired apart',
      limit: grade === 'care' ? limits.mixCareMired : limits.mixNoteMired,
      summary:
        grade === 'ok'
          ? `The lights on the ${pair.placeName} are of one colour, within ${Math.round(pair.mired)} mired.`
          : `On the ${pair.placeName} ${other} (${Math.round(pair.other.cctK)} K, ${percentWords(pair.other.share)} of the light) is ` +
            `${Math.round(pair.mired)} mired ${side} than ${key} (${Math.round(pair.key.cctK)} K), dE2000 ${pair.deltaE.toFixed(1)}.`,
      where: { pointM: pair.pointM, ...pointInFrame(view, pair.pointM) },
      remedies: remedies && grade !== 'ok' ? solveSameColour(study, pair.key.fixtureId, pair.other.fixtureId) : [],
    };
  });
  return {
    findings,
    figures: {
      places: pairs.map(({ placeName, key, other, mired, deltaE }) => ({
        name: placeName,
        key: nameOfRecord(scene, key.fixtureId),
        keyK: key.cctK,
        other: nameOfRecord(scene, other.fixtureId),
        otherK: other.cctK,
        otherShare: other.share,
        apartMired: mired,
        deltaE2000: deltaE,
      })),
    },
  };
}

/** For each place that two lights or more colour, the strongest and the one farthest from it in mired. */
export function mixedPairs(study: FrameStudy): MixedPair[] {
  const { scene } = study.input;
  const background = study.background();
  const places: { name: string; pointM: Vec3; layerLux: Float64Array }[] = [
    { name: 'subject', pointM: scene.subject.meterPointM, layerLux: study.meter().dome.layerLux },
  ];
  if (background) {
    const { cells, recordId } = background.place;
    places.push({
      name: surfaceWords(scene, recordId),
      pointM: cells[cells.length >> 1].pointM,
      layerLux: background.meanLayerLux,
    });
  }
  return places.flatMap(({ name, pointM, layerLux }) => {
    const lights = coloursOf(study, layerLux);
    if (lights.length < 2) return [];
    const [key, ...rest] = lights;
    const miredOf = ({ cctK }: LightColour): number => Math.abs(miredFromKelvin(cctK) - miredFromKelvin(key.cctK));
    const other = rest.reduce((farthest, light) => (miredOf(light) > miredOf(farthest) ? light : farthest));
    const deltaE = deltaE2000(cardLab(study, key.fixtureId), cardLab(study, other.fixtureId));
    return [{ placeName: name, pointM, key, other, mired: miredOf(other), deltaE }];
  });
}

/** The lights that colour a place, strongest first. */
function coloursOf(study: FrameStudy, layerLux: Float64Array): LightColour[] {
  const total = layerLux.reduce((sum, lux) => sum + lux, 0);
  return study.light.layerFixtureIds
    .flatMap((fixtureId, layer): LightColour[] => {
      const fixture = study.input.scene.fixtures.find(({ id }) => id === fixtureId);
      const share = total > 0 ? layerLux[layer] / total : 0;
      return fixture && share >= COLOURS_SHARE ? [{ fixtureId, share, ...gelledSource(fixture) }] : [];
    })
    .sort((a, b) => b.share - a.share || (a.fixtureId < b.fixtureId ? -1 : 1));
}

/** L*a*b* of a grey card under one light alone, brought to the luminance of a card in white light, as the camera balances. */
function cardLab(study: FrameStudy, fixtureId: string): Vec3 {
  const { layerGains, set, scene } = study.input;
  const at = set.layerFixtureIds.indexOf(fixtureId) * 3;
  const rgb: Vec3 = [layerGains[at], layerGains[at + 1], layerGains[at + 2]];
  const balanced = applyMatrix3(whiteBalanceMatrix(scene.camera.whiteBalanceK), rgb);
  const luminance = luminanceFromRec2020(balanced);
  return labFromXyz(applyMatrix3(XYZ_FROM_REC2020, scale(balanced, luminance > 0 ? CARD / luminance : 0)));
}
