import type { FrameSet } from '../frameSet.ts';
import { COMMON_SUPPLIES, continuousWatts } from '../kit/power.ts';
import { CLOSE_M, closeToHeat, hangingOver } from '../kit/risks.ts';
import { lengthWithUnit } from '../plan/lengthWords.ts';
import { recordMarks } from '../plan/recordMarks.ts';
import { type KitOptions, kitNeeds, leadOf } from './kitList.ts';
import type { Cell, Table } from './table.ts';

/**
 * Usual cautions of a tabletop set with the figures of this one. It does not replace anyone's judgement: local codes,
 * makers' instructions and licensed people come first.
 */
export function cautions(frames: readonly FrameSet[], options: KitOptions = {}): Table {
  const rows: Cell[][] = [];
  const add = (topic: string, here: string, what: string): void => {
    rows.push([topic, here, what]);
  };
  const marks = recordMarks(frames[0].setup);
  const said = (lengthM: number): string => lengthWithUnit(lengthM, options.lengths);
  const called = (id: string, name: string): string => `${marks.get(id) ?? ''} ${name}`.trim();
  const { supports } = kitNeeds(frames, options);
  const booms = supports.filter(({ support }) => support === 'boom');
  const over = hangingOver(frames);
  const high = supports.filter(({ heightOverFloorM }) => heightOverFloorM > 2);

  add(
    'Overhead',
    over.length === 0
      ? 'Nothing hangs over the set.'
      : `Over the set: ${over.map(({ id, name }) => called(id, name)).join('; ')}.`,
    'Safety bond on everything that hangs. Nobody under it while it is rigged or moved. A qualified person checks the rig.',
  );
  for (const boom of booms) {
    add(
      'Boom',
      `${boom.mark} ${boom.name}: ${boom.loadKg.toFixed(1)} kg at ${said(boom.reachM)} needs ${boom.counterweightKg.toFixed(1)} kg behind, ${boom.standLoadKg.toFixed(1)} kg on the stand.`,
      'Weigh the load; balance before letting go; a leg of the stand under the load; bags on.',
    );
  }
  add(
    'Stands',
    high.length === 0
      ? 'No light is over 2 m.'
      : `Over 2 m: ${high.map(({ mark, name }) => `${mark} ${name}`).join('; ')}.`,
    'Bag every stand, legs wide and low, cables tied to the foot. Keep ways clear; mark legs and boom ends.',
  );
  const hot = closeToHeat(frames);
  add(
    'Heat',
    hot.length === 0
      ? `No light is nearer than ${said(CLOSE_M)} to paper, cloth or card.`
      : `Near to paper, cloth or card: ${hot
          .map(
            ({ light, other, gapM }) =>
              `${called(light.id, light.name)}, ${said(gapM)} from ${called(other.id, other.name)}`,
          )
          .join('; ')}.`,
    'Keep the distance marked on the light (IEC 60598); where none is marked, ask the maker. Let lights cool before they are touched or struck; gloves at hand; never cover vents.',
  );
  const watts = frames[0].setup.fixtures.reduce((sum, { powerW }) => sum + (powerW ?? 0), 0);
  add(
    'Power',
    `${watts} W stated in all; a circuit of 120 V, 15 A may carry ${continuousWatts(COMMON_SUPPLIES[0])} W, one of 230 V, 10 A ${continuousWatts(COMMON_SUPPLIES[2])} W continuously.`,
    'Licensed people connect and decide; local codes apply. Find out what else hangs on each circuit. Uncoil cables.',
  );
  const drinks = distinctNames(
    frames.flatMap(({ scene }) => scene.pieces.filter((p) => p.kind === 'glass' && p.drink)),
  );
  add(
    'Water and mains',
    drinks.length === 0 ? 'No drink is filled in.' : `Liquid on set: ${drinks.join(', ')}.`,
    'Residual-current protection (RCD of 30 mA or less, or GFCI) on every supply. Joints, dimmers and supplies off the wet surface and above a spill. Dry hands. Mop at once.',
  );
  const glasses = distinctNames(frames.flatMap(({ scene }) => scene.pieces.filter(({ kind }) => kind === 'glass')));
  add(
    'Glass',
    `${glasses.length} ${glasses.length === 1 ? 'glass' : 'glasses'}: ${glasses.join(', ')}.`,
    'Spares, gloves, a bin and a brush on set. No hot light or hot liquid on cold glass. Nothing that has been dressed with glue, glycerine or soap is drunk.',
  );
  const turntable = frames.find(({ scene }) => scene.turntable)?.scene.turntable;
  if (turntable) {
    add(
      'Turntable',
      `${turntable.rpm} rpm, ${said(turntable.diameterM)} across.`,
      'Cables, cloths, sleeves and hair clear of it; one person says when it turns.',
    );
  }
  return {
    id: 'cautions',
    title: 'Cautions',
    lead: leadOf(frames),
    columns: [
      { title: 'Topic', share: 14 },
      { title: 'On this set', share: 40 },
      { title: 'Take care', share: 58 },
    ],
    rows,
    groupedColumns: 1,
    notes: [
      'Usual cautions, common practice. This page checks neither rigging nor electrical load nor heat nor access.',
      "Local codes, the makers' instructions and licensed, qualified people on site come first; where they differ from this page, they are right.",
    ],
  };
}

const distinctNames = (pieces: readonly { readonly id: string; readonly name: string }[]): string[] => [
  ...new Map(pieces.map(({ id, name }) => [id, name])).values(),
];
