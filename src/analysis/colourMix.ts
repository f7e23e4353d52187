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
import { solveSameColour, solveSameTint } from './solvers/matchColour.ts';
import { nameOfRecord, percentWords, surfaceWords } from './words.ts';

/** A light that gives less than this part of what a place gets does not colour it. */
export const COLOURS_SHARE = 0.05;
/** Reflectance of the card on which colours are compared: 18 % grey. */
const CARD = 0.18;
/** Lights nearer than this are called one colour, whatever the frame allows: about an eighth-strength gel. */
const ONE_COLOUR_MIRED = 20;

/** Two lights on one place and how far they differ. */
export interface MixedPair {
  readonly placeName: string;
  readonly pointM: Vec3;
  readonly key: LightColour;
  readonly other: LightColour;
  readonly mired: number;
  /** On a grey card, each light alone at the same luminance, as the camera is balanced. */
  readonly deltaE: number;
  /** The light that differs most from the key toward green (+) or magenta (-), and by how much. */
  readonly tinted: LightColour;
  readonly tintDuv: number;
}

export interface LightColour {
  readonly fixtureId: string;
  readonly share: number;
  readonly cctK: number;
  readonly duv: number;
}

/**
 * Do lights of different colour fall on one place? For subject and background the strongest light and the one that differs
 * most from it, in mired and in CIEDE2000 on a grey card under the camera's balance; and the one that differs most from it toward
 * green or magenta, in Duv.
 */
export function checkColourMix(
  study: FrameStudy,
  { remedies = true }: { readonly remedies?: boolean } = {},
): { findings: Finding[]; figures: Record<string, unknown> } {
  const { limits, scene, view } = study.input;
  const pairs = mixedPairs(study);
  const mired = pairs.map((pair): Finding => {
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
          ? pair.mired < ONE_COLOUR_MIRED
            ? `The lights on the ${pair.placeName} are of one colour, within ${Math.round(pair.mired)} mired.`
            : `The lights on the ${pair.placeName} lie ${Math.round(pair.mired)} mired apart, within the ${Math.round(limits.mixNoteMired)} that this frame allows.`
          : `On the ${pair.placeName} ${other} (${Math.round(pair.other.cctK)} K, ${percentWords(pair.other.share)} of the light) is ` +
            `${Math.round(pair.mired)} mired ${side} than ${key} (${Math.round(pair.key.cctK)} K), dE2000 ${pair.deltaE.toFixed(1)}.`,
      where: { pointM: pair.pointM, ...pointInFrame(view, pair.pointM) },
      remedies: remedies && grade !== 'ok' ? solveSameColour(study, pair.key.fixtureId, pair.other.fixtureId) : [],
    };
  });
  const tint = pairs.flatMap((pair): Finding[] => {
    const value = Math.abs(pair.tintDuv);
    if (value < limits.tintNoteDuv) return [];
    const grade: Grade = value >= limits.tintCareDuv ? 'care' : 'note';
    const [key, other] = [pair.key, pair.tinted].map(({ fixtureId }) => nameOfRecord(scene, fixtureId));
    return [
      {
        id: `colourMix:${pair.placeName}:tint`,
        check: 'colourMix',
        grade,
        subject: pair.tinted.fixtureId,
        value,
        unit: 'Duv apart',
        limit: grade === 'care' ? limits.tintCareDuv : limits.tintNoteDuv,
        summary:
          `On the ${pair.placeName} ${other} (${percentWords(pair.tinted.share)} of the light) is ${value.toFixed(3)} Duv ` +
          `${pair.tintDuv > 0 ? 'greener' : 'pinker'} than ${key}.`,
        where: { pointM: pair.pointM, ...pointInFrame(view, pair.pointM) },
        remedies: remedies ? solveSameTint(study, pair.key.fixtureId, pair.tinted.fixtureId) : [],
      },
    ];
  });
  return {
    findings: [...mired, ...tint],
    figures: {
      places: pairs.map(({ placeName, key, other, mired: apartMired, deltaE, tintDuv }) => ({
        name: placeName,
        key: nameOfRecord(scene, key.fixtureId),
        keyK: key.cctK,
        other: nameOfRecord(scene, other.fixtureId),
        otherK: other.cctK,
        otherShare: other.share,
        apartMired,
        deltaE2000: deltaE,
        tintDuv,
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
    const tintOf = ({ duv }: LightColour): number => duv - key.duv;
    const tinted = rest.reduce((most, light) => (Math.abs(tintOf(light)) > Math.abs(tintOf(most)) ? light : most));
    return [{ placeName: name, pointM, key, other, mired: miredOf(other), deltaE, tinted, tintDuv: tintOf(tinted) }];
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
