import type { RecordChange, Remedy } from '../contracts.ts';
import { createFrameStudy } from '../frameStudy.ts';
import { castHeroShadows, type HeroShadow } from '../shadows/castShadow.ts';
import { groupShadows } from '../shadows/groupShadows.ts';
import type { FrameStudy } from '../study.ts';
import { scaleLayers } from './scaleLayers.ts';

/** Dimmers are set in steps of a third of a stop; dimming further than this would leave nothing of the light. */
const STEP_STOPS = 1 / 3;
const MOST_STOPS = 4;
const LOWEST_DIM_STOPS = -12;

/**
 * Dims the fixtures behind the shadows that are too many until those no longer count, and tries it out by casting all
 * shadows again. Light adds up, so only gains change.
 */
export function solveShadowCount(study: FrameStudy, groups: readonly (readonly HeroShadow[])[]): Remedy[] {
  const { scene, limits } = study.input;
  const hero = study.hero();
  if (!hero) return [];
  const extraIds = new Set(groups.slice(limits.shadowCount).flatMap((group) => group.map(({ caster }) => caster.id)));
  const fixtures = scene.fixtures.filter(({ id }) => extraIds.has(id));
  // A card or cloth has no dimmer of its own.
  if (fixtures.length < extraIds.size) return [];
  for (let stops = STEP_STOPS; stops <= MOST_STOPS + 1e-9; stops += STEP_STOPS) {
    if (fixtures.some(({ dimStops }) => dimStops - stops < LOWEST_DIM_STOPS)) break;
    const gains = scaleLayers(study.input, (id) => (extraIds.has(id) ? 2 ** -stops : 1));
    const trial = createFrameStudy({ ...study.input, layerGains: gains });
    if (groupShadows(castHeroShadows(trial, hero), limits).length > limits.shadowCount) continue;
    const changes = fixtures.map(
      ({ id, dimStops }): RecordChange => ({
        op: 'update',
        collection: 'fixtures',
        id,
        patch: { dimStops: Math.round((dimStops - stops) * 100) / 100 },
      }),
    );
    const names = fixtures.map(({ name }) => name).join(' and ');
    const shadows = limits.shadowCount === 1 ? 'one shadow is' : `${limits.shadowCount} shadows are`;
    return [{ label: `Dim ${names} by ${stops.toFixed(1)} stops: ${shadows} left`, changes }];
  }
  return [];
}
