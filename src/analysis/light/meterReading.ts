import { luminanceFromRec2020 } from '../../core/color/spaces.ts';
import { normalize, sub, type Vec3 } from '../../core/vec3.ts';
import { measureIlluminances } from '../illuminance.ts';
import type { FrameStudy, MeterLight } from '../study.ts';
import { type BouncePatch, gatherPatches } from './bouncePatch.ts';
import { domeResponse } from './gatherSource.ts';

const UP: Vec3 = [0, 1, 0];
/** Less fill than this share of all light is none. */
const LEAST_FILL = 1e-6;

export function readMeter(
  study: Pick<FrameStudy, 'input' | 'light' | 'patches' | 'allPatches' | 'places'>,
): MeterLight {
  const { scene, set, view } = study.input;
  const { meterPointM, pieceId } = scene.subject;
  const ignore = (surface: number): boolean => set.surfaces[surface].recordId === pieceId;
  const towardLens = normalize(sub(view.originM, meterPointM));
  const store = study.places(`meter ${pieceId}`);
  store.setPatches(study.allPatches());
  const axes = [towardLens, towardLens, UP] as const;
  const [dome, flat, level] = measureIlluminances(
    study.light,
    meterPointM,
    [
      { type: 'dome', axis: towardLens },
      { type: 'plane', normal: towardLens },
      { type: 'plane', normal: UP },
    ],
    {
      ignore,
      patches: study.allPatches(),
      kept: axes.map((axis, i) => store.at(i, meterPointM, axis).front),
    },
  );
  const sheets = new Map<string, number>();
  for (const [id, patches] of groupByRecord(study)) {
    const rgb = new Float64Array(3);
    gatherPatches(study.light, patches, meterPointM, towardLens, domeResponse, rgb, { ignore });
    sheets.set(id, luminanceFromRec2020([rgb[0], rgb[1], rgb[2]]));
  }
  const sheetLux = [...sheets.values()].reduce((sum, lux) => sum + lux, 0);
  study.light.layerFixtureIds.forEach((id, layer) => {
    // A lantern is its bulb and its shade.
    sheets.set(id, (sheets.get(id) ?? 0) + dome.directLayerLux[layer]);
  });
  return {
    dome,
    flat,
    level,
    lights: [...sheets]
      .map(([id, lux]) => ({ id, lux }))
      .filter(({ lux }) => lux > 0)
      .sort((a, b) => b.lux - a.lux || (a.id < b.id ? -1 : 1)),
    offSetLux: Math.max(0, dome.bounceLux - sheetLux),
  };
}

function groupByRecord({ input, patches }: Pick<FrameStudy, 'input' | 'patches'>): Map<string, BouncePatch[]> {
  const byRecord = new Map<string, BouncePatch[]>();
  for (const patch of patches()) {
    const { recordId } = input.set.surfaces[patch.surfaceIndex];
    const own = byRecord.get(recordId);
    if (own) own.push(patch);
    else byRecord.set(recordId, [patch]);
  }
  return byRecord;
}

/**
 * Lighting ratio (key + fill) : fill in stops. The key is the strongest single light; everything else fills, cards and bounce
 * off the set too. Infinite without any fill, NaN in the dark.
 */
export const keyToFillStops = ({ dome, lights }: Pick<MeterLight, 'dome' | 'lights'>): number => {
  const key = lights[0]?.lux ?? 0;
  const fill = dome.totalLux - key;
  return fill > dome.totalLux * LEAST_FILL
    ? Math.log2(dome.totalLux / fill)
    : dome.totalLux > 0
      ? Infinity
      : Number.NaN;
};
