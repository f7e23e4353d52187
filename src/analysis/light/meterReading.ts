import { normalize, sub } from '../../core/vec3.ts';
import type { FrameStudy } from '../frameStudy.ts';
import { type Illuminance, measureIlluminances } from '../illuminance.ts';

/** What meters read at the meter point, the hero taken away, bounce off sheets and set included. */
export interface MeterLight {
  /** Dome toward the lens, flat cell toward the lens, flat cell level. */
  readonly dome: Illuminance;
  readonly flat: Illuminance;
  readonly level: Illuminance;
}

export function readMeter(study: Pick<FrameStudy, 'input' | 'light' | 'allPatches'>): MeterLight {
  const { scene, set, view } = study.input;
  const { meterPointM, pieceId } = scene.subject;
  const ignore = (surface: number): boolean => set.surfaces[surface].recordId === pieceId;
  const towardLens = normalize(sub(view.originM, meterPointM));
  const [dome, flat, level] = measureIlluminances(
    study.light,
    meterPointM,
    [
      { type: 'dome', axis: towardLens },
      { type: 'plane', normal: towardLens },
      { type: 'plane', normal: [0, 1, 0] },
    ],
    { ignore, patches: study.allPatches() },
  );
  return { dome, flat, level };
}
