import type { Remedy } from '../contracts.ts';
import { createFrameStudy } from '../frameStudy.ts';
import { measurePractical, type PracticalLight } from '../practicals/measurePractical.ts';
import type { FrameStudy } from '../study.ts';
import { scaleLayers } from './scaleLayers.ts';

const LOWEST_DIM_STOPS = -12;
/** Dimmers are set to a tenth of a stop. */
const STEP_STOPS = 0.1;
const MOST_TRIES = 6;

/**
 * The dimmer setting at which a practical just holds. What other lights throw on its shade stays when it is dimmed, so the
 * setting is tried on the new gains and lowered until the brightest part holds.
 */
export function solvePracticalDimmer(study: FrameStudy, practical: PracticalLight): Remedy[] {
  const { fixture } = practical;
  const wanted = study.input.limits.practicalCareStops;
  let stops = Math.ceil((practical.overClippingStops - wanted + STEP_STOPS / 2) / STEP_STOPS) * STEP_STOPS;
  for (let i = 0; i < MOST_TRIES && stops > 0; i++) {
    const dimStops = Math.round((fixture.dimStops - stops) * 10) / 10;
    if (dimStops < LOWEST_DIM_STOPS) return [];
    const gains = scaleLayers(study.input, (id) => (id === fixture.id ? 2 ** (dimStops - fixture.dimStops) : 1));
    const after = measurePractical(createFrameStudy({ ...study.input, layerGains: gains }), fixture);
    if (after && after.overClippingStops < wanted) {
      return [
        {
          label: `Dim ${fixture.name} by ${(fixture.dimStops - dimStops).toFixed(1)} stops: it holds`,
          changes: [{ op: 'update', collection: 'fixtures', id: fixture.id, patch: { dimStops } }],
        },
      ];
    }
    stops += after ? Math.max(STEP_STOPS, after.overClippingStops - wanted + STEP_STOPS) : 1;
  }
  return [];
}
