import { currentA, layOnCircuits } from '../../analysis/rigging/circuits.ts';

/** Electrical load of a set, as a planning aid. Local codes and licensed people decide. */

/** A circuit that a location may offer. */
export interface Supply {
  readonly volts: number;
  readonly breakerA: number;
}

export const COMMON_SUPPLIES: readonly Supply[] = [
  { volts: 120, breakerA: 15 },
  { volts: 120, breakerA: 20 },
  { volts: 230, breakerA: 10 },
  { volts: 230, breakerA: 13 },
  { volts: 230, breakerA: 16 },
];

/**
 * Share of a circuit's rating that a load running for three hours or more may take: the breaker must be at least 125 % of
 * it, and 1 / 1.25 = 80 %. Source: NEC 210.20(A); "continuous" is Article 100. Other countries have their own rules.
 */
export const CONTINUOUS_SHARE = 0.8;

/** Power factor taken for LED supplies whose maker states none. Common practice, no source. */
export const ASSUMED_POWER_FACTOR = 0.9;

/** I = P / (V x power factor), as the check of power reckons. */
export const ampsFromWatts = (watts: number, volts: number, powerFactor = ASSUMED_POWER_FACTOR): number =>
  currentA(watts, volts, powerFactor);

/** Current that a circuit may carry continuously, A. */
export const continuousAmps = ({ breakerA }: Supply): number => breakerA * CONTINUOUS_SHARE;

/** Power that a circuit may carry continuously at power factor 1, W. */
export const continuousWatts = (supply: Supply): number => supply.volts * continuousAmps(supply);

export interface Load {
  readonly id: string;
  readonly watts: number;
}

export interface CircuitPlan {
  /** Ids of the loads on each circuit. */
  readonly circuits: readonly (readonly string[])[];
  /** Loads that one circuit can't carry. */
  readonly tooLarge: readonly string[];
}

/** Spreads loads over as few circuits as first-fit decreasing finds, as the check of power does, each within its continuous current. */
export function planCircuits(loads: readonly Load[], supply: Supply, powerFactor = ASSUMED_POWER_FACTOR): CircuitPlan {
  const mostA = continuousAmps(supply) + 1e-9;
  const drawn = loads.map(({ id, watts }) => ({
    id,
    powerW: watts,
    currentA: ampsFromWatts(watts, supply.volts, powerFactor),
  }));
  const circuits = layOnCircuits(
    drawn.filter((load) => load.currentA <= mostA),
    supply.breakerA,
    CONTINUOUS_SHARE,
  );
  const tooLarge = drawn.filter((load) => load.currentA > mostA).sort((a, b) => b.powerW - a.powerW);
  return {
    circuits: circuits.map(({ loads: own }) => own.map(({ id }) => id)),
    tooLarge: tooLarge.map(({ id }) => id),
  };
}
