import type { MeasuredOpening } from '../../fixtures/measuredRecords.ts';
import { type Fixture, type FixtureOutput, fixtureSchema } from '../../fixtures/records.ts';
import { updateRecord } from '../session/index.ts';
import { centimetres, choice, degrees, type Field, number, point, type RecordSheet, toggle } from './fields.ts';
import { shaperGroups } from './fixtureShapers.ts';
import { percent } from './percent.ts';
import { withTheRest } from './withTheRest.ts';

const KIND_WORDS: Readonly<Record<Fixture['kind'], string>> = {
  panel: 'LED panel',
  spot: 'Fresnel spot',
  bulb: 'Bulb',
  tube: 'Tube',
  softbox: 'Softbox',
  lantern: 'Lantern',
  measured: 'Measured light',
};

const OUTPUT_WORDS: Readonly<Record<string, FixtureOutput['unit']>> = {
  lumens: 'lumens',
  'peak candela': 'peakCandela',
  'lux at a distance': 'luxAtDistance',
};

/** What a light is fitted with has groups of its own, also while it is off. */
const FITTED = ['gridCutoffDeg'];

const OPEN_OR_CLOSED = { open: 'open', closed: 'closed' };

/** A light as it is edited, in the units of the trade. */
export function fixtureSheet(fixture: Fixture): RecordSheet {
  return {
    recordId: fixture.id,
    collection: 'fixtures',
    title: fixture.name,
    kindWords: KIND_WORDS[fixture.kind],
    change: (patch) => updateRecord('fixtures', fixture.id, patch),
    rename: (name) => updateRecord('fixtures', fixture.id, { name }),
    groups: withTheRest(
      fixtureSchema,
      fixture,
      'Housing and mains',
      [
        { title: 'Light', fields: lightFields(fixture) },
        {
          title: 'Place',
          fields: [
            point('positionM', 'Stands at', fixture.positionM, (positionM) => ({ positionM })),
            point('aimM', 'Looks at', fixture.aimM, (aimM) => ({ aimM })),
            degrees('rollDeg', 'Roll', fixture.rollDeg, -180, 180),
          ],
        },
        { title: 'Face', fields: faceFields(fixture) },
        ...shaperGroups(fixture),
      ],
      FITTED,
    ),
  };
}

function lightFields(fixture: Fixture): Field[] {
  const { output } = fixture;
  const unitWords: Readonly<Record<FixtureOutput['unit'], string>> = {
    lumens: 'lm',
    peakCandela: 'cd',
    luxAtDistance: 'lx',
  };
  return [
    toggle('on', 'On', fixture.on, (on) => ({ on }), true),
    number('dimStops', 'Dimmer', fixture.dimStops, {
      unit: 'stops',
      min: -12,
      max: 0,
      step: 0.1,
      decimals: 1,
      slider: true,
      actsOnFilm: true,
    }),
    number('cctK', 'Colour', fixture.cctK, {
      unit: 'K',
      min: 1500,
      max: 20000,
      step: 50,
      slider: true,
      actsOnFilm: true,
    }),
    number('duv', 'Tint', fixture.duv * 1000, {
      unit: 'Duv ×1000',
      min: -30,
      max: 30,
      step: 1,
      decimals: 1,
      slider: true,
      actsOnFilm: true,
      patch: (value) => ({ duv: Number((value / 1000).toFixed(6)) }),
    }),
    choice('outputUnit', 'Output as', output.unit, OUTPUT_WORDS, (unit) => ({
      output: { unit, distanceM: unit === 'luxAtDistance' ? 1 : null },
    })),
    {
      type: 'number',
      key: 'outputValue',
      label: 'At full',
      unit: unitWords[output.unit],
      value: output.value,
      min: 1,
      step: 10,
      decimals: 0,
      patch: (value) => ({ output: { value } }),
    },
    ...(output.unit === 'luxAtDistance'
      ? [centimetres('outputDistanceM', 'Measured at', output.distanceM, (distanceM) => ({ output: { distanceM } }))]
      : []),
  ];
}

function faceFields(fixture: Fixture): Field[] {
  const width = (valueM: number) => centimetres('widthM', 'Width', valueM, (widthM) => ({ widthM }));
  const height = (valueM: number) => centimetres('heightM', 'Height', valueM, (heightM) => ({ heightM }));
  const diameter = (valueM: number) => centimetres('diameterM', 'Diameter', valueM, (diameterM) => ({ diameterM }));
  switch (fixture.kind) {
    case 'panel':
      return [
        width(fixture.widthM),
        height(fixture.heightM),
        degrees('beamAngleDeg', 'Beam', fixture.beamAngleDeg, 5, 120),
      ];
    case 'spot':
      return [
        degrees('beamAngleDeg', 'Beam', fixture.beamAngleDeg, 4, 100),
        centimetres('lensDiameterM', 'Lens', fixture.lensDiameterM, (lensDiameterM) => ({ lensDiameterM })),
      ];
    case 'bulb':
      return [diameter(fixture.diameterM)];
    case 'tube':
      return [
        centimetres('lengthM', 'Length', fixture.lengthM, (lengthM) => ({ lengthM })),
        diameter(fixture.diameterM),
      ];
    case 'softbox':
      return [
        width(fixture.widthM),
        height(fixture.heightM),
        percent('edgeFalloff', 'Edge darker by', fixture.edgeFalloff),
      ];
    case 'lantern':
      return [
        choice('shape', 'Shade', fixture.shape, { cylinder: 'cylinder', sphere: 'sphere' }),
        diameter(fixture.diameterM),
        height(fixture.heightM),
        choice('top', 'Top', fixture.top, OPEN_OR_CLOSED),
        choice('bottom', 'Bottom', fixture.bottom, OPEN_OR_CLOSED),
        percent('transmittance', 'Lets through', fixture.transmittance),
        percent('reflectance', 'Throws back', fixture.reflectance),
        {
          type: 'colour',
          key: 'tintRgb',
          label: 'Cloth',
          value: fixture.tintRgb,
          patch: (tintRgb) => ({ tintRgb }),
        },
      ];
    case 'measured':
      return openingFields(fixture.opening);
  }
}

function openingFields(opening: MeasuredOpening): Field[] {
  const part = (key: string, label: string, valueM: number) =>
    centimetres(key, label, valueM, (value) => ({ opening: { [key]: value } }));
  return opening.shape === 'rectangle'
    ? [part('widthM', 'Width', opening.widthM), part('heightM', 'Height', opening.heightM)]
    : [part('diameterM', 'Diameter', opening.diameterM)];
}
