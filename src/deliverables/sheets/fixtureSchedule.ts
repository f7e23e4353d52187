import { degFromRad } from '../../core/units.ts';
import { describeColour, describeFittings, describeOutput } from '../../fixtures/describe.ts';
import { dimmerFactor } from '../../fixtures/gain.ts';
import type { FrameSet } from '../frameSet.ts';
import { type PlaceOptions, type StandPlace, standPlaces } from '../plan/standPlaces.ts';
import { type PredictedReading, SUBJECT_DOME_ID } from './predictedReadings.ts';
import type { Cell, Column, Table } from './table.ts';

const PLACE_COLUMNS: readonly Column[] = [
  { title: 'Level from subject', unit: 'mm', isLength: true, share: 8 },
  { title: 'Right +, left \u2212', unit: 'mm', isLength: true, share: 8 },
  { title: 'Front +, back \u2212', unit: 'mm', isLength: true, share: 8 },
  { title: 'Over table', unit: 'mm', isLength: true, share: 8 },
  { title: 'Over floor', unit: 'mm', isLength: true, share: 8 },
  { title: 'Aim over table', unit: 'mm', isLength: true, share: 8 },
  { title: 'Tilt down', unit: '\u00b0', share: 7 },
];

const placeCells = (place: StandPlace): Cell[] => [
  mm(place.horizontalM),
  mm(place.rightM),
  mm(place.frontM),
  mm(place.heightM),
  place.heightOverFloorM === null ? null : mm(place.heightOverFloorM),
  mm(place.aimHeightM),
  degFromRad(place.tiltDownRad),
];
const mm = (lengthM: number): number => lengthM * 1000;

/** Every light: where it stands, what it gives, what is on it. Lux at the subject by the dome, each alone as set. */
export function fixtureSchedule(
  frameSet: FrameSet,
  readings: readonly PredictedReading[],
  options: PlaceOptions = {},
): Table {
  const { scene } = frameSet;
  const { places } = standPlaces(frameSet, options);
  const dome = readings.find(({ point }) => point.id === SUBJECT_DOME_ID);
  return {
    id: 'fixture-schedule',
    title: 'Fixture schedule',
    lead: leadOf(frameSet),
    columns: [
      { title: 'No.', share: 5 },
      { title: 'Light', share: 16 },
      { title: 'What', share: 19 },
      ...PLACE_COLUMNS,
      { title: 'Full output', share: 13 },
      { title: 'Dimmer', unit: 'stops', digits: 1, share: 9.5 },
      { title: 'Level', unit: '%', share: 7 },
      { title: 'At subject', unit: 'lx', share: 9 },
      { title: 'Colour', share: 12 },
      { title: 'On it', share: 20 },
      { title: 'Mains', unit: 'W', share: 8.5 },
    ],
    rows: scene.fixtures.flatMap((fixture, i): Cell[][] => {
      const place = places.find(({ recordId }) => recordId === fixture.id);
      if (!place) return [];
      const level = dimmerFactor(fixture);
      return [
        [
          place.mark,
          fixture.on ? fixture.name : `${fixture.name} (off)`,
          place.what,
          ...placeCells(place),
          describeOutput(fixture),
          fixture.dimStops,
          100 * level,
          dome?.fixtureLux[i] ?? null,
          describeColour(fixture),
          describeFittings(fixture).join('; ') || 'nothing',
          fixture.powerW ?? null,
        ],
      ];
    }),
    notes: [
      'Positions are of the middle of the emitting face (of the bulb or tube itself), from the plumb line through the meter point. Level is 2 to the power of the dimmer in stops.',
      'At subject: dome toward the lens, this light alone as set, hero away.',
    ],
  };
}

/** Every flag, card and cloth: where it stands. */
export function gripSchedule(frameSet: FrameSet, options: PlaceOptions = {}): Table {
  const { places } = standPlaces(frameSet, options);
  return {
    id: 'grip-schedule',
    title: 'Grip schedule',
    lead: leadOf(frameSet),
    columns: [
      { title: 'Mark', share: 6 },
      { title: 'Item', share: 22 },
      { title: 'What', share: 34 },
      ...PLACE_COLUMNS,
      { title: 'Roll', unit: '\u00b0', share: 6 },
    ],
    rows: places
      .filter(({ kind }) => kind === 'grip')
      .map((place): Cell[] => [
        place.mark,
        place.name,
        place.what,
        ...placeCells(place),
        frameSet.scene.grip.find(({ id }) => id === place.recordId)?.rollDeg ?? 0,
      ]),
    notes: ['Positions are of the middle of the sheet; it faces its aim.'],
  };
}

const leadOf = ({ setup, frame }: FrameSet): string => `${setup.title}: ${frame.name}`;
