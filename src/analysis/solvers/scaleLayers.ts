import type { CheckInput } from '../contracts.ts';

/** The gains of a run, each film layer scaled by a factor for its fixture. */
export function scaleLayers(
  { layerGains, set }: Pick<CheckInput, 'layerGains' | 'set'>,
  factorOf: (fixtureId: string) => number,
): Float32Array {
  const gains = layerGains.slice();
  set.layerFixtureIds.forEach((id, layer) => {
    const factor = factorOf(id);
    for (let k = 0; k < 3; k++) gains[layer * 3 + k] *= factor;
  });
  return gains;
}
