import type { Finish } from '../materials/finish.ts';
import { findLibraryFinish } from '../materials/library/index.ts';
import { type DressingKind, type DressingPiece, dressingSchema } from './dressingRecords.ts';
import { sampleMesh } from './ownShape/sampleMesh.ts';

/** What each kind is called on set. */
export const DRESSING_WORDS: Readonly<Record<DressingKind, string>> = {
  step: 'Steps',
  arch: 'Arch block',
  sphere: 'Sphere',
  slattedWall: 'Slatted wall',
  mouldedWall: 'Moulded wall',
  reedScreen: 'Reed screen',
  slatScreen: 'Slatted screen',
  windowCutter: 'Window cutter',
  dappleCutter: 'Dapple cutter',
  lightTable: 'Light table',
  coaster: 'Coaster',
  tray: 'Tray',
  napkin: 'Napkin',
  spoon: 'Spoon',
  book: 'Book',
  branch: 'Leafy branch',
  plant: 'Potted plant',
  greyCard: 'Grey card',
  greyRamp: 'Grey ramp',
  ownShape: 'Body from a file',
};

const PLASTER: Finish = { type: 'matte', reflectanceRgb: [0.8, 0.79, 0.76] };
const BLACK: Finish = { type: 'black' };
/** Green leaf, about 550, 610 and 460 nm. Invented within what leaves of shrubs do: more green through than back. */
const LEAF: Finish = {
  type: 'translucent',
  reflectanceRgb: [0.06, 0.12, 0.035],
  transmittanceRgb: [0.05, 0.13, 0.015],
};

const fromLibrary = (id: string): Finish => findLibraryFinish(id)?.finish ?? PLASTER;

function defaultFinish(kind: DressingKind): Finish | undefined {
  switch (kind) {
    case 'step':
    case 'arch':
    case 'sphere':
    case 'ownShape':
      return PLASTER;
    case 'slattedWall':
      return { type: 'matte', reflectanceRgb: [0.42, 0.38, 0.32] };
    case 'mouldedWall':
      return { type: 'matte', reflectanceRgb: [0.3, 0.36, 0.31] };
    case 'reedScreen':
      return { type: 'matte', reflectanceRgb: [0.47, 0.35, 0.19] };
    case 'slatScreen':
      return { type: 'matte', reflectanceRgb: [0.33, 0.22, 0.13] };
    case 'windowCutter':
    case 'dappleCutter':
      return BLACK;
    case 'lightTable':
      return fromLibrary('acrylic-frosted');
    case 'coaster':
      return fromLibrary('cork');
    case 'tray':
      return fromLibrary('brass');
    case 'napkin':
      return { type: 'matte', reflectanceRgb: [0.74, 0.71, 0.64] };
    case 'spoon':
      return fromLibrary('steel-polished');
    case 'book':
      return { type: 'matte', reflectanceRgb: [0.1, 0.045, 0.03] };
    case 'branch':
    case 'plant':
      return LEAF;
    case 'greyCard':
    case 'greyRamp':
      return undefined;
  }
}

/** Where a piece is first put when that is not the middle of the table: out of the way, or behind everything. */
const START_M: Partial<Record<DressingKind, [number, number, number]>> = {
  slattedWall: [0, 0, -0.7],
  mouldedWall: [0, 0, -0.8],
  reedScreen: [0, 0, -0.45],
  slatScreen: [0, 0, -0.45],
  windowCutter: [0.9, -0.75, -0.5],
  dappleCutter: [0.9, -0.75, -0.5],
  branch: [-0.75, 0.55, -0.35],
  plant: [-0.35, 0, -0.35],
  step: [0, 0, -0.25],
  arch: [-0.2, 0, -0.3],
  sphere: [0.2, 0, -0.15],
};

/** A sensible new record of a kind; all that the schema has defaults for has those. */
export function defaultDressing(kind: DressingKind, id: string): DressingPiece {
  const finish = defaultFinish(kind);
  return dressingSchema.parse({
    kind,
    id,
    name: DRESSING_WORDS[kind],
    positionM: START_M[kind] ?? [0, 0, 0],
    ...(finish ? { finish } : {}),
    ...(kind === 'ownShape' ? { mesh: sampleMesh() } : {}),
  });
}
