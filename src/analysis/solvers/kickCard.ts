import { add, addScaled, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import { changeInput } from '../checkInput.ts';
import type { RecordChange, Remedy } from '../contracts.ts';
import { createFrameStudy } from '../frameStudy.ts';
import { readDrink } from '../glass/readDrink.ts';
import { findCasters, middleOf, partsOf } from '../light/casters.ts';
import { planeResponse } from '../light/gatherSource.ts';
import type { FrameStudy, HeroPlace } from '../study.ts';
import { applyChanges } from './applyChanges.ts';

/** A card behind a glass must be narrower than it, or it shows beside it. */
const WIDTH_SHARE = 0.85;
const HEIGHT_SHARE = 0.7;
const BEHIND_M = 0.03;
/** How far the card is turned from the lens toward the light, as parts of the way. */
const TURNS = [0.5, 0.3, 0.7];

/**
 * A small white card hidden behind the glass, turned between lens and light, that kicks light through the drink. Tried out on
 * the changed set.
 */
export function solveGlowCard(study: FrameStudy, hero: HeroPlace): Remedy[] {
  const { scene, limits, view } = study.input;
  const wanted = limits.glowMinStops;
  const lightM = strongestLight(study, hero);
  if (wanted === undefined || !lightM) return [];
  const middleM = scale(add(hero.footM, hero.topM), 0.5);
  const toLens = normalize(sub(view.originM, middleM));
  const level = normalize([toLens[0], 0, toLens[2]]);
  const positionM = addScaled(middleM, level, -(hero.radiusM + BEHIND_M));
  const toLight = normalize(sub(lightM, positionM));
  const ids = new Set(scene.grip.map(({ id }) => id));
  let id = 'card-behind-glass';
  for (let k = 2; ids.has(id); k++) id = `card-behind-glass-${k}`;
  for (const turn of TURNS) {
    const facing = normalize(add(scale(toLens, 1 - turn), scale(toLight, turn)));
    const record = {
      kind: 'bounceCard',
      id,
      name: 'Card behind the glass',
      positionM: rounded(positionM),
      aimM: rounded(addScaled(positionM, facing, 0.5)),
      widthM: Math.round(2 * hero.radiusM * WIDTH_SHARE * 1e3) / 1e3,
      heightM: Math.round(hero.heightM * HEIGHT_SHARE * 1e3) / 1e3,
      reflectanceRgb: [0.85, 0.85, 0.85],
    };
    const changes: RecordChange[] = [{ op: 'add', collection: 'grip', record }];
    const trial = createFrameStudy(changeInput(study.input, applyChanges(scene, changes)));
    const place = trial.hero();
    const drink = place ? readDrink(trial, place) : null;
    if (!drink) continue;
    const floor = trial.blackNits;
    const stops = Math.log2(Math.max(drink.meanNits, floor) / Math.max(drink.surroundingsNits, floor));
    if (stops < wanted) continue;
    const size = `${Math.round(record.widthM * 100)} x ${Math.round(record.heightM * 100)} cm`;
    return [
      { label: `Add a white card ${size} behind the glass: the drink stands ${stops.toFixed(1)} stops over`, changes },
    ];
  }
  return [];
}

/** Middle of the light that gives most at the hero from the lens's far side or above. */
function strongestLight(study: FrameStudy, hero: HeroPlace): Vec3 | null {
  const pointM = addScaled(hero.footM, [0, 1, 0], hero.heightM);
  const lights = findCasters(study)
    .map((caster) => middleOf(partsOf(study, caster, pointM, [0, 1, 0], planeResponse, () => 2)))
    .filter((light) => light !== null)
    .sort((a, b) => b.lux - a.lux);
  return lights[0]?.pointM ?? null;
}

const rounded = (pointM: Vec3): number[] => pointM.map((v) => Math.round(v * 1e3) / 1e3);
