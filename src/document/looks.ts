import { cctAndDuvFromXy, rgbFromCct } from '../core/color/source.ts';
import { XYZ_FROM_REC2020, xyFromXyz } from '../core/color/spaces.ts';
import { applyMatrix3 } from '../core/matrix3.ts';
import { ratioFromStops, stopsFromRatio } from '../core/units.ts';
import { add, scale } from '../core/vec3.ts';
import type { Fixture } from '../fixtures/records.ts';
import type { FixtureState, Look } from './frameRecords.ts';

type Dimmable = Pick<Fixture, 'id' | 'on' | 'dimStops' | 'cctK' | 'duv'>;

/** Dimmest that a dimmer goes; what a blend puts under it is off. */
const LOWEST_STOPS = -12;
const CCT_RANGE_K = [1500, 20000] as const;
const MOST_DUV = 0.03;

/** Switch, dimmer and colour of the lights as they stand. */
export const lookOf = (name: string, fixtures: readonly Dimmable[]): Look => ({
  name,
  states: fixtures.map(({ id, on, dimStops, cctK, duv }) => ({ fixtureId: id, on, dimStops, cctK, duv })),
});

/** The states of a look for the lights that are there; a light that it does not know stays as it is. */
export const statesOfLook = (look: Look, fixtures: readonly Dimmable[]): readonly FixtureState[] =>
  fixtures.flatMap(({ id }) => look.states.find(({ fixtureId }) => fixtureId === id) ?? []);

/**
 * Two looks mixed in light: at share s each light gives (1 - s) of what it gives in A and s of what it gives in B, colour
 * included, as if both were lit at once behind two dimmers. Exact for lights without gels; the mixed colour is said as
 * the nearest colour temperature and duv.
 */
export function blendLooks(a: Look, b: Look, share: number, fixtures: readonly Dimmable[]): readonly FixtureState[] {
  if (share <= 0) return statesOfLook(a, fixtures);
  if (share >= 1) return statesOfLook(b, fixtures);
  return fixtures.flatMap((fixture): FixtureState[] => {
    const inA = a.states.find(({ fixtureId }) => fixtureId === fixture.id);
    const inB = b.states.find(({ fixtureId }) => fixtureId === fixture.id);
    if (!inA && !inB) return [];
    return [blendStates(inA ?? stateOf(fixture), inB ?? stateOf(fixture), share)];
  });
}

const stateOf = ({ id, on, dimStops, cctK, duv }: Dimmable): FixtureState => ({
  fixtureId: id,
  on,
  dimStops,
  cctK,
  duv,
});

const factorOf = ({ on, dimStops }: FixtureState): number => (on ? ratioFromStops(dimStops) : 0);

function blendStates(a: FixtureState, b: FixtureState, share: number): FixtureState {
  const ofA = factorOf(a) * (1 - share);
  const ofB = factorOf(b) * share;
  const dimStops = roundTo(stopsFromRatio(ofA + ofB), 1e4);
  if (!(dimStops >= LOWEST_STOPS)) return { ...(share < 0.5 ? a : b), on: false };
  const colour = ofB === 0 || (a.cctK === b.cctK && a.duv === b.duv) ? a : ofA === 0 ? b : mixColours(a, ofA, b, ofB);
  return { fixtureId: a.fixtureId, on: true, dimStops: Math.min(0, dimStops), cctK: colour.cctK, duv: colour.duv };
}

function mixColours(a: FixtureState, ofA: number, b: FixtureState, ofB: number): { cctK: number; duv: number } {
  const rgb = add(scale(rgbFromCct(a.cctK, a.duv), ofA), scale(rgbFromCct(b.cctK, b.duv), ofB));
  const { cctK, duv } = cctAndDuvFromXy(xyFromXyz(applyMatrix3(XYZ_FROM_REC2020, rgb)));
  return {
    cctK: Math.round(Math.min(CCT_RANGE_K[1], Math.max(CCT_RANGE_K[0], cctK))),
    duv: roundTo(Math.min(MOST_DUV, Math.max(-MOST_DUV, duv)), 1e5),
  };
}

/** Do the lights stand as these states say? Dimmers are compared to a hundredth of a stop. */
export const standsAt = (states: readonly FixtureState[], fixtures: readonly Dimmable[]): boolean =>
  states.every((state) => {
    const fixture = fixtures.find(({ id }) => id === state.fixtureId);
    if (!fixture || fixture.on !== state.on) return false;
    if (!fixture.on) return true;
    return (
      Math.abs(fixture.dimStops - state.dimStops) < 0.01 &&
      fixture.cctK === state.cctK &&
      Math.abs(fixture.duv - state.duv) < 1e-5
    );
  });

const roundTo = (value: number, perUnit: number): number => Math.round(value * perUnit) / perUnit + 0;
