import type { FrameSet } from '../frameSet.ts';
import {
  ASSUMED_POWER_FACTOR,
  ampsFromWatts,
  COMMON_SUPPLIES,
  continuousWatts,
  type Load,
  planCircuits,
  type Supply,
} from '../kit/power.ts';
import { recordMarks } from '../plan/recordMarks.ts';
import { leadOf } from './kitList.ts';
import type { Cell, Column, Table } from './table.ts';

/** The setup's own circuits first, then those that are common. */
export function suppliesOf({ room }: FrameSet['setup']): Supply[] {
  if (!room) return [...COMMON_SUPPLIES];
  const own: Supply = { volts: room.mainsV, breakerA: room.circuitA };
  const others = COMMON_SUPPLIES.filter(({ volts, breakerA }) => volts !== own.volts || breakerA !== own.breakerA);
  return [own, ...others].slice(0, COMMON_SUPPLIES.length);
}

export const supplyWords = ({ volts, breakerA }: Supply): string => `${volts} V, ${breakerA} A`;

/** Watts and amps of every light, and on how many circuits of each kind all of them may run for hours. */
export function powerSheet(frames: readonly FrameSet[]): Table {
  const { setup } = frames[0];
  const marks = recordMarks(setup);
  const present = new Set(frames.flatMap(({ scene }) => scene.fixtures.map(({ id }) => id)));
  const lights = setup.fixtures.filter(({ id }) => present.has(id));
  const loads: Load[] = lights.flatMap(({ id, powerW }) => (powerW === undefined ? [] : [{ id, watts: powerW }]));
  const supplies = suppliesOf(setup);
  const plans = supplies.map((supply) => planCircuits(loads, supply));
  const circuitOf = (id: string, plan: (typeof plans)[number]): Cell => {
    const at = plan.circuits.findIndex((ids) => ids.includes(id));
    if (at >= 0) return String(at + 1);
    return plan.tooLarge.includes(id) ? 'too large' : null;
  };
  const total = loads.reduce((sum, { watts }) => sum + watts, 0);
  const unstated = lights.filter(({ powerW }) => powerW === undefined).map(({ id }) => marks.get(id) ?? id);
  const amps = (watts: number, volts: number): number => ampsFromWatts(watts, volts);
  const columns: Column[] = [
    { title: 'No.', share: 6 },
    { title: 'Light', share: 22 },
    { title: 'Mains', unit: 'W', share: 9 },
    { title: 'At 120 V', unit: 'A', digits: 2, share: 9 },
    { title: 'At 230 V', unit: 'A', digits: 2, share: 9 },
    ...supplies.map((supply) => ({ title: `Circuit, ${supplyWords(supply)}`, share: 11 })),
  ];
  const rows: Cell[][] = lights.map(({ id, name, powerW }) => [
    marks.get(id) ?? id,
    name,
    powerW ?? null,
    powerW === undefined ? null : amps(powerW, 120),
    powerW === undefined ? null : amps(powerW, 230),
    ...plans.map((plan) => circuitOf(id, plan)),
  ]);
  rows.push([
    '',
    'All together',
    total,
    amps(total, 120),
    amps(total, 230),
    ...plans.map(({ circuits, tooLarge }): Cell => {
      const count = `${circuits.length} ${circuits.length === 1 ? 'circuit' : 'circuits'}`;
      return tooLarge.length === 0 ? count : `${count}, ${tooLarge.length} too large`;
    }),
  ]);
  return {
    id: 'power',
    title: 'Power',
    lead: leadOf(frames),
    columns,
    rows,
    notes: [
      `Amps at power factor ${ASSUMED_POWER_FACTOR}, as LED supplies usually have; a supply without correction draws up to half as much again. Take the figure from the plate.`,
      ...(unstated.length > 0 ? [`Not stated in the setup and so not counted: ${unstated.join(', ')}.`] : []),
      `Continuous load: 80 % of a circuit (NEC 210.20(A): the breaker is at least 125 % of it). So ${supplies.map((supply) => `${supplyWords(supply)}: ${continuousWatts(supply)} W`).join('; ')}, at power factor 1, and only where nothing else hangs on the circuit.`,
      'A planning aid only. Local codes apply, and licensed people decide what is connected where.',
    ],
  };
}
