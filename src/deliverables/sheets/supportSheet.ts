import type { FrameSet } from '../frameSet.ts';
import { LEG_RADIUS_M, SANDBAG_KG, SIDE_PUSH_N } from '../kit/moments.ts';
import { COUNTER_ARM_M } from '../kit/supportNeeds.ts';
import { TYPICAL_MASS_NOTE } from '../kit/typicalMass.ts';
import { type KitOptions, kitNeeds, leadOf } from './kitList.ts';
import type { Cell, Table } from './table.ts';

/** How each light and sheet is held: load, reach, counterweight and bags by the moment rule. */
export function supportSheet(frames: readonly FrameSet[], options: KitOptions = {}): Table {
  return {
    id: 'stands-and-weights',
    title: 'Stands and weights',
    lead: leadOf(frames),
    columns: [
      { title: 'Mark', share: 6 },
      { title: 'Holds', share: 20 },
      { title: 'By', share: 14 },
      { title: 'Over floor', unit: 'mm', isLength: true, share: 9 },
      { title: 'Reach', unit: 'mm', isLength: true, share: 8 },
      { title: 'Load', unit: 'kg', digits: 1, share: 8 },
      { title: 'Counterweight', unit: 'kg', digits: 1, share: 11 },
      { title: 'On the stand', unit: 'kg', digits: 1, share: 9 },
      { title: 'Stand class', unit: 'kg', share: 9 },
      { title: `Bags of ${SANDBAG_KG} kg`, share: 9 },
    ],
    rows: kitNeeds(frames, options).supports.map((need): Cell[] => {
      const stands = need.support !== 'on the table';
      return [
        need.mark,
        need.name,
        need.support,
        need.heightOverFloorM * 1000,
        stands ? need.reachM * 1000 : null,
        need.loadKg,
        need.counterweightKg > 0 ? need.counterweightKg : null,
        stands ? need.standLoadKg : null,
        stands ? need.standClassKg : null,
        need.sandbags,
      ];
    }),
    notes: [
      `Counterweight: load x load arm + pole x its middle = counterweight x ${COUNTER_ARM_M * 1000} mm. Check the balance by hand before the hand comes off, and bond everything that hangs.`,
      `Bags: a side push of ${SIDE_PUSH_N} N at the top, and what hangs out on an arm, must not tip a stand whose legs reach ${LEG_RADIUS_M * 1000} mm. Common practice, no source; stability on the day is the rigger's decision.`,
      'Reach: to the plumb line of the thing from where a stand can stand: 100 mm clear of the table and out of the frame.',
      TYPICAL_MASS_NOTE,
    ],
  };
}
