import { describeFittings, describeFixture, describeGrip } from '../../fixtures/describe.ts';
import type { FrameSet } from '../frameSet.ts';
import { type CableNeed, cableNeeds } from '../kit/cableNeeds.ts';
import { SANDBAG_KG } from '../kit/moments.ts';
import { COUNTER_ARM_M, mostOfNeeds, type SupportNeed, supportNeeds } from '../kit/supportNeeds.ts';
import { TYPICAL_MASS_NOTE } from '../kit/typicalMass.ts';
import { isUpright } from '../pieceRoles.ts';
import { recordMarks } from '../plan/recordMarks.ts';
import type { PlaceOptions } from '../plan/standPlaces.ts';
import type { Cell, Table } from './table.ts';

export type KitOptions = PlaceOptions;

/** Everything to hire for all the frames together, with quantities. */
export function kitList(frames: readonly FrameSet[], options: KitOptions = {}): Table {
  const needs = kitNeeds(frames, options);
  const rows = [
    ...lightRows(frames),
    ...supportRows(needs.supports),
    ...gripRows(frames),
    ...weightRows(needs.supports),
    ...backdropRows(frames),
    ...cableRows(needs.cables),
    ...cameraRows(frames),
  ];
  return {
    id: 'kit-list',
    title: 'Kit list',
    lead: leadOf(frames),
    columns: [
      { title: 'Group', share: 14 },
      { title: 'Quantity', share: 7 },
      { title: 'What', share: 44 },
      { title: 'For', share: 20 },
    ],
    rows,
    groupedColumns: 1,
    notes: [
      TYPICAL_MASS_NOTE,
      'Stands, arms, bags and cable lengths follow simple rules of moment and path from the plan: a proposal for the gaffer and the rigger, who decide.',
      ...(needs.floorAssumed ? ['The table is taken to be 750 mm high, as the setup does not tell.'] : []),
    ],
  };
}

/** What carries and feeds every light and sheet, at the most that any frame asks for. */
export function kitNeeds(
  frames: readonly FrameSet[],
  { tableHeightM }: KitOptions = {},
): { readonly supports: SupportNeed[]; readonly cables: CableNeed[]; readonly floorAssumed: boolean } {
  const found = frames.map((frame) => supportNeeds(frame, tableHeightM));
  const cables = new Map<string, CableNeed>();
  for (const need of frames.flatMap((frame) => cableNeeds(frame, tableHeightM))) {
    const known = cables.get(need.recordId);
    if (!known || known.pathM < need.pathM) cables.set(need.recordId, need);
  }
  return {
    supports: mostOfNeeds(found.map(({ needs }) => needs)),
    cables: [...cables.values()],
    floorAssumed: found.some(({ floorAssumed }) => floorAssumed),
  };
}

/** Equal things on one line with their marks. */
function countRows(group: string, things: readonly { readonly what: string; readonly mark: string }[]): Cell[][] {
  const byWhat = new Map<string, string[]>();
  for (const { what, mark } of things) byWhat.set(what, [...(byWhat.get(what) ?? []), mark]);
  return [...byWhat].map(([what, marks]): Cell[] => [
    group,
    marks.length,
    what,
    [...new Set(marks)].filter((mark) => mark !== '').join(', '),
  ]);
}

function lightRows(frames: readonly FrameSet[]): Cell[][] {
  const { setup } = frames[0];
  const marks = recordMarks(setup);
  const lights = distinct(frames.flatMap(({ scene }) => scene.fixtures));
  return [
    ...countRows(
      'Lights',
      lights.map((f) => ({ what: describeFixture(f), mark: marks.get(f.id) ?? '' })),
    ),
    ...countRows(
      'On the lights',
      lights.flatMap((f) =>
        describeFittings(f).map((fitting) => ({
          what: `${capital(fitting.split(',')[0])} for ${describeFixture(f)}`,
          mark: marks.get(f.id) ?? '',
        })),
      ),
    ),
  ];
}

function gripRows(frames: readonly FrameSet[]): Cell[][] {
  const marks = recordMarks(frames[0].setup);
  const items = distinct(frames.flatMap(({ scene }) => scene.grip));
  return countRows(
    'Flags, cards, cloths',
    items.map((g) => ({ what: describeGrip(g), mark: marks.get(g.id) ?? '' })),
  );
}

function supportRows(needs: readonly SupportNeed[]): Cell[][] {
  const standing = needs.filter(({ support }) => support !== 'on the table');
  const stands = standing.map((need) => ({
    what: `Stand, carries ${need.standClassKg} kg, to ${heightWords(need.heightOverFloorM)}`,
    mark: need.mark,
  }));
  const arms = standing
    .filter(({ support }) => support === 'stand and arm')
    .map(({ mark }) => ({ what: 'Grip head and 1 m arm', mark }));
  const booms = standing
    .filter(({ support }) => support === 'boom')
    .map((need) => ({
      what: `Boom, ${boomWords(need.reachM)} from pivot to load, with safety bond`,
      mark: need.mark,
    }));
  const clamps = needs
    .filter(({ kind }) => kind === 'grip')
    .map(({ support, mark }) => ({
      what: support === 'on the table' ? 'Small clamp with foot, to stand a sheet on the table' : 'Sheet clamp',
      mark,
    }));
  return [...countRows('Stands and arms', [...stands, ...booms, ...arms]), ...countRows('Clamps', clamps)];
}

function weightRows(needs: readonly SupportNeed[]): Cell[][] {
  const bags = needs.flatMap(({ sandbags, mark }) => Array.from({ length: sandbags }, () => mark));
  const counterweights = needs
    .filter(({ counterweightKg }) => counterweightKg > 0)
    .map(({ counterweightKg, mark }) => ({
      what: `Counterweight ${counterweightKg.toFixed(1)} kg at ${COUNTER_ARM_M * 1000} mm behind the pivot`,
      mark,
    }));
  return [
    ...countRows(
      'Weight',
      bags.map((mark) => ({ what: `Sandbag ${SANDBAG_KG} kg`, mark })),
    ),
    ...countRows('Weight', counterweights),
  ];
}

function backdropRows(frames: readonly FrameSet[]): Cell[][] {
  const pieces = distinct(frames.flatMap(({ scene }) => scene.pieces));
  const sweeps = pieces.filter(({ kind }) => kind === 'sweep');
  const uprights = pieces.filter(isUpright);
  const glasses = pieces.filter(({ kind }) => kind === 'glass');
  return [
    ...sweeps.flatMap((sweep): Cell[][] => [
      ['Set', 1, 'Background support: two stands and a cross bar', sweep.name],
      ['Set', 4, 'Spring clamp', sweep.name],
    ]),
    ...uprights.map(({ name }): Cell[] => ['Set', 2, 'Brace and weight for an upright panel', name]),
    ...countRows(
      'Set',
      pieces.filter(({ kind }) => kind !== 'glass').map(({ name }) => ({ what: name, mark: '' })),
    ),
    ...glasses.map(({ name }): Cell[] => ['Set', 3, `${name}: hero, stand-in and spare`, '']),
    ...(frames.some(({ scene }) => scene.turntable)
      ? [['Set', 1, 'Turntable, with a dial gauge to centre it', ''] satisfies Cell[]]
      : []),
  ];
}

const cableRows = (cables: readonly CableNeed[]): Cell[][] => [
  ...countRows(
    'Power',
    cables.map(({ lengthM, mark }) => ({ what: `Mains cable ${lengthM} m`, mark })),
  ),
  ...(cables.length > 0
    ? [['Power', 1, 'Distribution with residual-current protection (RCD or GFCI)', ''] satisfies Cell[]]
    : []),
];

function cameraRows(frames: readonly FrameSet[]): Cell[][] {
  const lenses = frames.map(({ scene, frame }) => ({
    what: `Lens ${Number(scene.camera.focalLengthMm.toFixed(1))} mm`,
    mark: frame.name,
  }));
  const boxes = frames
    .filter(({ scene }) => scene.camera.matteBox)
    .map(({ frame }) => ({ what: 'Matte box', mark: frame.name }));
  const once = [...new Map([...lenses, ...boxes].map((thing) => [thing.what, thing])).values()];
  const framesFor = (what: string): string =>
    [...lenses, ...boxes]
      .filter((thing) => thing.what === what)
      .map(({ mark }) => mark)
      .join(', ');
  return [
    ...once.map(({ what }): Cell[] => ['Camera', 1, what, framesFor(what)]),
    ['Camera', 1, 'Tripod or camera stand', ''],
    ['Camera', 1, 'Incident meter with dome and flat cell, tape, angle finder, level', ''],
  ];
}

/** Heights that stands are hired by, m. Common practice, no source. */
const STAND_HEIGHTS_M = [1.2, 1.8, 2.4, 3, 4, 5];
const heightWords = (heightM: number): string =>
  `${(STAND_HEIGHTS_M.find((most) => heightM <= most) ?? Math.ceil(heightM)).toFixed(1)} m`;
const boomWords = (reachM: number): string => `${(Math.ceil(reachM * 10) / 10).toFixed(1)} m`;
const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** The first of every record with the same id: a frame may override some of its fields. */
const distinct = <T extends { readonly id: string }>(records: readonly T[]): T[] =>
  [...new Map([...records].reverse().map((record) => [record.id, record])).values()].reverse();

export const leadOf = (frames: readonly FrameSet[]): string =>
  frames.length === 1
    ? `${frames[0].setup.title}: ${frames[0].frame.name}`
    : `${frames[0].setup.title}: ${frames.length === 2 ? 'both' : `all ${frames.length}`} frames`;
