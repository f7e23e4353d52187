import { defaultDrink, defaultGlassProfile, defaultIce, GLASS_SHAPES } from '../../scene/pieceDefaults.ts';
import type { Drink, GlassProfile, Ice, Piece } from '../../scene/records.ts';
import { updateRecord } from '../session/index.ts';
import {
  centimetres,
  choice,
  degrees,
  type Field,
  type FieldGroup,
  millimetres,
  number,
  point,
  type RecordSheet,
  toggle,
} from './fields.ts';
import { finishFields } from './finishFields.ts';
import { percent } from './percent.ts';
import { KIND_WORDS, SHAPE_WORDS } from './pieceWords.ts';

/** A thing on the set as it is edited. */
export function pieceSheet(piece: Piece): RecordSheet {
  return {
    recordId: piece.id,
    collection: 'pieces',
    title: piece.name,
    kindWords: KIND_WORDS[piece.kind],
    change: (patch) => updateRecord('pieces', piece.id, patch),
    rename: (name) => updateRecord('pieces', piece.id, { name }),
    groups: [
      ...shapeGroups(piece),
      {
        title: 'Place',
        fields: [
          point('positionM', 'Stands at', piece.positionM, (positionM) => ({ positionM })),
          degrees('headingDeg', 'Turned by', piece.headingDeg, -180, 180),
        ],
      },
      ...('finish' in piece ? [{ title: 'Surface', fields: finishFields(piece.finish) }] : []),
    ],
  };
}

const cm = (key: string, label: string, valueM: number) =>
  centimetres(key, label, valueM, (value) => ({ [key]: value }));
const mm = (key: string, label: string, valueM: number) =>
  millimetres(key, label, valueM, (value) => ({ [key]: value }));

function shapeGroups(piece: Piece): FieldGroup[] {
  const size = (...fields: Field[]): FieldGroup[] => [{ title: 'Size', fields }];
  switch (piece.kind) {
    case 'glass':
      return [
        { title: 'Glass', fields: [...glassFields(piece.profile), indexField('glassIndex', piece.glassIndex)] },
        { title: 'Drink', fields: drinkFields(piece.drink) },
        { title: 'Ice', fields: iceFields(piece.ice) },
      ];
    case 'tabletop':
      return size(cm('widthM', 'Width', piece.widthM), cm('depthM', 'Depth', piece.depthM));
    case 'sheet':
      return size(
        cm('widthM', 'Width', piece.widthM),
        cm('depthM', 'Depth', piece.depthM),
        mm('thicknessM', 'Thickness', piece.thicknessM),
      );
    case 'sweep':
      return size(
        cm('widthM', 'Width', piece.widthM),
        cm('floorDepthM', 'Flat part', piece.floorDepthM),
        cm('coveRadiusM', 'Cove radius', piece.coveRadiusM),
        cm('heightM', 'Height', piece.heightM),
      );
    case 'plinthBox':
      return size(
        cm('widthM', 'Width', piece.widthM),
        cm('depthM', 'Depth', piece.depthM),
        cm('heightM', 'Height', piece.heightM),
      );
    case 'plinthCylinder':
      return size(
        cm('diameterM', 'Diameter', piece.diameterM),
        cm('heightM', 'Height', piece.heightM),
        mm('edgeRadiusM', 'Edge radius', piece.edgeRadiusM),
      );
    case 'wall':
      return size(cm('widthM', 'Width', piece.widthM), cm('heightM', 'Height', piece.heightM));
  }
}

const indexField = (key: string, index: number): Field =>
  number(key, 'Index', index, { min: 1, max: 2, step: 0.001, decimals: 3 });

function glassFields(profile: GlassProfile): Field[] {
  const part = (key: string, label: string, valueM: number) =>
    millimetres(key, label, valueM, (value) => ({ profile: { [key]: value } }));
  const shape = choice(
    'shape',
    'Shape',
    profile.shape,
    Object.fromEntries(GLASS_SHAPES.map((value) => [SHAPE_WORDS[value], value])),
    (value) => {
      const next = GLASS_SHAPES.find((known) => known === value) ?? profile.shape;
      // Measures that the new shape does not have must go; null takes a field away in a merge patch.
      const gone = Object.fromEntries(Object.keys(profile).map((key) => [key, null]));
      return { profile: { ...gone, ...defaultGlassProfile(next) } };
    },
  );
  const common = [shape, part('heightM', 'Height', profile.heightM)];
  const walls = [part('wallM', 'Wall', profile.wallM), part('baseThicknessM', 'Base', profile.baseThicknessM)];
  switch (profile.shape) {
    case 'highball':
    case 'tumbler':
      return [
        ...common,
        part('rimDiameterM', 'Rim diameter', profile.rimDiameterM),
        part('baseDiameterM', 'Foot diameter', profile.baseDiameterM),
        ...walls,
      ];
    case 'bottle':
      return [
        ...common,
        part('bodyDiameterM', 'Body diameter', profile.bodyDiameterM),
        part('shoulderHeightM', 'Shoulder at', profile.shoulderHeightM),
        part('neckDiameterM', 'Neck diameter', profile.neckDiameterM),
        part('neckHeightM', 'Neck length', profile.neckHeightM),
        ...walls,
      ];
    default:
      return [
        ...common,
        part('rimDiameterM', 'Rim diameter', profile.rimDiameterM),
        part('bowlHeightM', 'Bowl height', profile.bowlHeightM),
        part('stemDiameterM', 'Stem', profile.stemDiameterM),
        part('footDiameterM', 'Foot diameter', profile.footDiameterM),
        ...walls,
      ];
  }
}

function drinkFields(drink: Drink | undefined): Field[] {
  const filled = toggle('hasDrink', 'Filled', drink !== undefined, (on) => ({ drink: on ? defaultDrink() : null }));
  if (!drink) return [filled];
  return [
    filled,
    {
      type: 'text',
      key: 'drinkName',
      label: 'Called',
      value: drink.name,
      patch: (value) => ({ drink: { name: value.trim().slice(0, 120) || drink.name } }),
      actsOnFilm: true,
    },
    percent('fillFraction', 'Filled to', drink.fillFraction, (share) => ({
      drink: { fillFraction: Math.max(0.01, share) },
    })),
    number('drinkIndex', 'Index', drink.index, {
      min: 1,
      max: 2,
      step: 0.001,
      decimals: 3,
      patch: (index) => ({ drink: { index } }),
    }),
    ...absorptionFields(drink.absorptionPerM),
  ];
}

/** How deep the drink is coloured: light lost per centimetre in each third of the spectrum, percent. */
function absorptionFields(absorptionPerM: Drink['absorptionPerM']): Field[] {
  const labels = ['Red lost per cm', 'Green lost per cm', 'Blue lost per cm'];
  return labels.map((label, channel) =>
    percent(`absorption${channel}`, label, 1 - Math.exp(-absorptionPerM[channel] / 100), (share) => ({
      drink: {
        absorptionPerM: absorptionPerM.map((value, i) =>
          i === channel ? Number((-100 * Math.log(1 - Math.min(0.9999, share))).toFixed(4)) : value,
        ),
      },
    })),
  );
}

function iceFields(ice: Ice | undefined): Field[] {
  const present = toggle('hasIce', 'In the glass', ice !== undefined, (on) => ({ ice: on ? defaultIce() : null }));
  if (!ice) return [present];
  return [
    present,
    number('iceCount', 'Pieces', ice.count, {
      min: 0,
      max: 40,
      step: 1,
      patch: (v) => ({ ice: { count: Math.round(v) } }),
    }),
    millimetres('iceEdgeM', 'Edge', ice.edgeM, (edgeM) => ({ ice: { edgeM } }), { minM: 0.004, maxM: 0.12 }),
    number('iceSeed', 'Fall', ice.seed, {
      min: 0,
      max: 9999,
      step: 1,
      patch: (v) => ({ ice: { seed: Math.round(v) } }),
    }),
  ];
}
