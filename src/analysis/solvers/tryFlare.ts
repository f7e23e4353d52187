import type { Vec3 } from '../../core/vec3.ts';
import { changeInput } from '../checkInput.ts';
import type { CheckInput, RecordChange } from '../contracts.ts';
import { frontElementPoints, measureLensLight } from '../flareGeometry.ts';
import { measureIlluminance } from '../illuminance.ts';
import { createFrameLight, type FrameLight } from '../light/frameLight.ts';
import type { FrameStudy } from '../study.ts';
import { applyChanges } from './applyChanges.ts';

const ELEMENT_POINTS = 24;
/** A remedy may not take more than this part of any light from the subject. */
const SUBJECT_LOSS = 0.02;

/** The changed frame, opened for measuring. */
export interface FlareTrial {
  readonly input: CheckInput;
  readonly light: FrameLight;
}

export function openTrial(study: FrameStudy, changes: readonly RecordChange[]): FlareTrial {
  const input = changeInput(study.input, applyChanges(study.input.scene, changes));
  return { input, light: createFrameLight(input) };
}

/** Part of the front element that a fixture lights from outside the frame, 0..1. */
export function lensShare({ input, light }: FlareTrial, fixtureId: string): number {
  const elementM = frontElementPoints(input.view, input.scene.camera.frontElementDiameterM, ELEMENT_POINTS);
  const sources = light.sources.filter((source) => source.emitter.fixtureId === fixtureId);
  return measureLensLight(light, input.view, sources, elementM).share;
}

/** Does every fixture still light the meter point as before? */
export function keepsSubjectLit(study: FrameStudy, trial: FlareTrial): boolean {
  const pointM = study.input.scene.subject.meterPointM;
  const read = ({ input, light }: FlareTrial): Float64Array => {
    const heroId = input.scene.subject.pieceId;
    const ignore = (surface: number): boolean => input.set.surfaces[surface].recordId === heroId;
    const axis: Vec3 = [0, 1, 0];
    return measureIlluminance(light, pointM, { type: 'dome', axis }, { ignore, tolerance: 0.02 }).layerLux;
  };
  const before = read({ input: study.input, light: study.light });
  const after = read(trial);
  return before.every((lux, i) => after[i] >= lux * (1 - SUBJECT_LOSS));
}
