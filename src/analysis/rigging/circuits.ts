/** Current of a load, I = P / (V x power factor), A. */
export const currentA = (powerW: number, mainsV: number, powerFactor = 1): number => powerW / (mainsV * powerFactor);

/** Power that a circuit may carry for three hours or more, W: the rating must be 1.25 times such a load (NEC 210.20(A)). */
export const lastingPowerW = (mainsV: number, circuitA: number, share = 0.8): number => mainsV * circuitA * share;

/** One thing that is plugged in. */
export interface Load {
  readonly id: string;
  readonly powerW: number;
  readonly currentA: number;
}

export interface Circuit {
  readonly loads: readonly Load[];
  readonly currentA: number;
}

/**
 * Loads laid on as few circuits as first-fit decreasing finds, each filled to `share` of its rating. A load that is more than
 * that by itself gets a circuit of its own.
 */
export function layOnCircuits(loads: readonly Load[], circuitA: number, share: number): Circuit[] {
  const room = circuitA * share;
  const circuits: Load[][] = [];
  const currentOf = (own: readonly Load[]): number => own.reduce((sum, load) => sum + load.currentA, 0);
  for (const load of [...loads].sort((a, b) => b.currentA - a.currentA || (a.id < b.id ? -1 : 1))) {
    const fitting = circuits.find((own) => currentOf(own) + load.currentA <= room + 1e-9);
    if (fitting) fitting.push(load);
    else circuits.push([load]);
  }
  return circuits.map((own) => ({ loads: own, currentA: currentOf(own) }));
}
