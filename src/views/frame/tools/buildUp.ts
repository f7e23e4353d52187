import type { Fixture } from '../../../fixtures/records.ts';

/** The lights of a build-up, in the order of the desk: those that burn. */
export const buildUpLights = (fixtures: readonly Fixture[]): readonly Fixture[] => fixtures.filter(({ on }) => on);

/** Ids that are soloed at a step: the first lights up to it, or that one light alone. */
export function soloAtStep(lights: readonly Fixture[], step: number, alone: boolean): readonly string[] {
  const last = Math.min(lights.length - 1, Math.max(0, step));
  return lights.slice(alone ? last : 0, last + 1).map(({ id }) => id);
}

/** The step that a solo stands for; null when it is none of this build-up. */
export function stepOfSolo(lights: readonly Fixture[], soloIds: readonly string[], alone: boolean): number | null {
  for (let step = 0; step < lights.length; step++) {
    const ids = soloAtStep(lights, step, alone);
    if (ids.length === soloIds.length && ids.every((id, i) => id === soloIds[i])) return step;
  }
  return null;
}
