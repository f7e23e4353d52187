import type { FrameSet } from '../frameSet.ts';
import { ampsFromWatts, continuousAmps, planCircuits, type Supply } from '../kit/power.ts';
import { recordMarks } from '../plan/recordMarks.ts';
import { type KitOptions, kitNeeds, leadOf } from './kitList.ts';
import { suppliesOf, supplyWords } from './powerSheet.ts';
import type { Cell, Table } from './table.ts';

/** Supplies that are laid out where the setup names no room of its own: one of each common voltage. */
const LAID_OUT: readonly Supply[] = [
  { volts: 120, breakerA: 15 },
  { volts: 230, breakerA: 10 },
];

/** What hangs on which circuit, with its cable: the lights as first-fit lays them out, largest load first. */
export function circuitSheet(frames: readonly FrameSet[], options: KitOptions = {}): Table {
  const { setup } = frames[0];
  const marks = recordMarks(setup);
  const present = new Set(frames.flatMap(({ scene }) => scene.fixtures.map(({ id }) => id)));
  const lights = setup.fixtures.filter(({ id }) => present.has(id));
  const cables = new Map(kitNeeds(frames, options).cables.map((need) => [need.recordId, need] as const));
  const supplies = setup.room ? suppliesOf(setup).slice(0, 1) : LAID_OUT;
  const rows = supplies.flatMap((supply): Cell[][] => {
    const loads = lights.flatMap(({ id, powerW }) => (powerW === undefined ? [] : [{ id, watts: powerW }]));
    const { circuits, tooLarge } = planCircuits(loads, supply);
    const mostA = continuousAmps(supply);
    const wattsOf = (id: string): number => loads.find((load) => load.id === id)?.watts ?? 0;
    const row = (circuit: string, id: string, whole: number | null): Cell[] => {
      const light = lights.find((entry) => entry.id === id);
      const watts = light?.powerW;
      return [
        supplyWords(supply),
        circuit,
        marks.get(id) ?? id,
        light?.name ?? id,
        watts ?? null,
        watts === undefined ? null : ampsFromWatts(watts, supply.volts),
        whole,
        cables.get(id)?.lengthM ?? null,
      ];
    };
    const unstated = lights.filter(({ powerW }) => powerW === undefined);
    return [
      ...circuits.flatMap((ids, i) => {
        const amps = ampsFromWatts(
          ids.reduce((sum, id) => sum + wattsOf(id), 0),
          supply.volts,
        );
        return ids.map((id, k) => row(String(i + 1), id, k === 0 ? (100 * amps) / mostA : null));
      }),
      ...tooLarge.map((id) => row('too large', id, null)),
      ...unstated.map(({ id }) => row('not stated', id, null)),
    ];
  });
  return {
    id: 'circuits',
    title: 'Power and cable by circuit',
    lead: leadOf(frames),
    columns: [
      { title: 'Supply', share: 12 },
      { title: 'Circuit', share: 10 },
      { title: 'Mark', share: 6 },
      { title: 'Light', share: 24 },
      { title: 'Mains', unit: 'W', share: 9 },
      { title: 'Draws', unit: 'A', digits: 2, share: 9 },
      { title: 'Circuit is filled', unit: '%', share: 12 },
      { title: 'Cable', unit: 'm', share: 9 },
    ],
    rows,
    groupedColumns: 2,
    notes: [
      setup.room
        ? 'The supply is that of the setup. Filled: of what the circuit may carry for hours, 80 % of its rating.'
        : 'The setup names no room, so a common circuit of each voltage is laid out. Filled: of what it may carry for hours, 80 % of its rating.',
      'Lights that are dimmed draw less; a gaffer counts them whole. A planning aid only: licensed people connect and decide.',
    ],
  };
}
