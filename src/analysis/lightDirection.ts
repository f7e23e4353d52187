import { degFromRad } from '../core/units.ts';
import { addScaled, type Vec3 } from '../core/vec3.ts';
import type { Finding, Grade, Remedy } from './contracts.ts';
import { type LitPlace, litPlaces, widestPair } from './direction/litPlaces.ts';
import type { LightAt } from './light/lightVector.ts';
import { pointInFrame } from './places/inFrame.ts';
import { solveFartherSun } from './solvers/fartherSun.ts';
import type { FrameStudy } from './study.ts';
import { directionOnTable, nameOfRecord } from './words.ts';

/** Lights seen larger than this wrap round things: their direction is not read off a shadow. Common practice, no source. */
const SOFT_DEG = 25;
/** A light that gives less of what arrives does not set the direction by itself. */
const DOMINANT_SHARE = 0.5;

/**
 * Does it look like one sun, one window? Direction of the strongest light at the subject, on the table and on the background,
 * and the widest angle between them.
 */
export function checkLightDirection(
  study: FrameStudy,
  { remedies = true }: { readonly remedies?: boolean } = {},
): { findings: Finding[]; figures: Record<string, unknown> } {
  const { limits, scene, view } = study.input;
  const places = litPlaces(study);
  const widest = widestPair(places);
  const figures = {
    places: places.map(({ name, light: { lights, vector, dominance } }) => ({
      name,
      light: nameOfRecord(scene, lights[0].caster.id),
      from: directionOnTable(view, lights[0].direction),
      elevationDeg: elevationDeg(lights[0].direction),
      sizeDeg: degFromRad(lights[0].sizeRad),
      dominantShare: dominance,
      vectorElevationDeg: elevationDeg(vector),
    })),
    widestAngleDeg: widest ? degFromRad(widest.angleRad) : null,
  };
  if (!widest) return { findings: [], figures };
  const { a, b } = widest;
  const value = degFromRad(widest.angleRad);
  const isHard = [a, b].every(({ light }) => isReadable(light));
  const grade: Grade = value < limits.lightDirectionCareDeg ? 'ok' : isHard ? 'care' : 'note';
  const [first, second] = [a, b].map(({ light }) => light.lights[0]);
  const same = first.caster.id === second.caster.id;
  const from = ({ words, light }: LitPlace): string =>
    `the ${words} from ${directionOnTable(view, light.lights[0].direction).replace('to the ', '')}`;
  const found: Remedy[] = remedies && grade === 'care' && same ? solveFartherSun(study, first.caster.id) : [];
  const finding: Finding = {
    id: 'lightDirection:agreement',
    check: 'lightDirection',
    grade,
    subject: second.caster.id,
    value,
    unit: 'degrees apart',
    limit: limits.lightDirectionCareDeg,
    summary:
      grade === 'ok'
        ? `The light on ${places.map(({ words }) => `the ${words}`).join(', ')} comes from one side, within ${Math.round(value)} degrees.`
        : `${same ? `${first.caster.name} lights` : `${first.caster.name} and ${second.caster.name} light`} ${from(a)} and ` +
          `${from(b)}, ${Math.round(value)} degrees apart${isHard ? ': it looks like two suns' : '; both or one are soft'}.`,
    where: {
      pointM: b.light.pointM,
      ...pointInFrame(view, b.light.pointM),
      raysM: [a, b].map(({ light }): Vec3[] => [
        light.pointM,
        addScaled(light.pointM, light.lights[0].direction, RAY_M),
      ]),
    },
    remedies: found,
  };
  return { findings: [finding], figures };
}

const RAY_M = 0.5;

/** Hard enough to throw a shadow, and strong enough for that shadow to be the one that is seen. */
const isReadable = ({ lights, dominance }: LightAt): boolean =>
  degFromRad(lights[0].sizeRad) <= SOFT_DEG && dominance >= DOMINANT_SHARE;

const elevationDeg = (direction: Vec3): number => degFromRad(Math.asin(Math.min(1, Math.max(-1, direction[1]))));
