import type { CameraView } from '../camera/view.ts';
import type { Vec3 } from '../core/vec3.ts';
import type { Piece } from '../scene/records.ts';
import type { FrameScene } from '../scene/setModel.ts';
import type { Grade } from './contracts.ts';

/** Name of a record as the photographer gave it. */
export const nameOfRecord = (scene: FrameScene, id: string): string =>
  [...scene.fixtures, ...scene.grip, ...scene.pieces].find((record) => record.id === id)?.name ?? id;

export const pieceOf = (scene: FrameScene, id: string): Piece | undefined =>
  scene.pieces.find((piece) => piece.id === id);

/** What a set piece is called on set, with its finish where that says more: 'gloss sheet', 'table', 'glass'. */
export function surfaceWords(scene: FrameScene, recordId: string): string {
  const piece = pieceOf(scene, recordId);
  if (!piece) return recordId === 'turntable' ? 'turntable' : nameOfRecord(scene, recordId);
  if (piece.kind === 'glass') return piece.profile.shape === 'bottle' ? 'bottle' : 'glass';
  if (!('finish' in piece)) return piece.name;
  const noun = NOUNS[piece.kind] ?? piece.kind.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  const type = 'finish' in piece ? piece.finish.type : undefined;
  return type === 'gloss' || type === 'metal' || type === 'mirror' || type === 'clear' ? `${type} ${noun}` : noun;
}

const NOUNS: Readonly<Record<Exclude<Piece['kind'], 'glass'> | 'garnish', string>> = {
  tabletop: 'table',
  sheet: 'sheet',
  sweep: 'sweep',
  plinthBox: 'plinth',
  plinthCylinder: 'plinth',
  wall: 'wall',
  garnish: 'garnish',
  step: 'steps',
  arch: 'arch',
  sphere: 'sphere',
  slattedWall: 'slatted wall',
  mouldedWall: 'moulded wall',
  reedScreen: 'reed screen',
  slatScreen: 'slatted screen',
  windowCutter: 'window cutter',
  dappleCutter: 'dapple cutter',
  lightTable: 'light table',
  coaster: 'coaster',
  tray: 'tray',
  napkin: 'napkin',
  spoon: 'spoon',
  book: 'book',
  branch: 'branch',
  plant: 'plant',
  greyCard: 'grey card',
  greyRamp: 'grey ramp',
  ownShape: 'body',
};

/** 'lower left of frame', 'centre of frame'. Thirds each way. */
export function placeWords(u: number, v: number): string {
  const column = u < 1 / 3 ? 'left' : u > 2 / 3 ? 'right' : 'centre';
  const row = v < 1 / 3 ? 'upper' : v > 2 / 3 ? 'lower' : '';
  if (!row) return column === 'centre' ? 'centre of frame' : `${column} of frame`;
  return `${row} ${column} of frame`;
}

/** '1 stop', '2.3 stops': one decimal, no sign. */
export function stopsWords(stops: number): string {
  const rounded = Math.abs(Math.round(stops * 10) / 10);
  return rounded === 1 ? '1 stop' : `${rounded.toFixed(1)} stops`;
}

/** '1.2 stops past clipping', '0.5 stops under clipping'. */
export const clippingWords = (stops: number): string =>
  stops > 0 ? `${stopsWords(stops)} past clipping` : `${stopsWords(stops)} under clipping`;

export const percentWords = (share: number): string =>
  share >= 0.0995 ? `${Math.round(share * 100)} %` : `${(share * 100).toFixed(share > 0 && share < 0.001 ? 2 : 1)} %`;

const ORDER: Readonly<Record<Grade, number>> = { stop: 0, care: 1, note: 2, ok: 3 };
/** Sort key: worst first. */
export const gradeOrder = (grade: Grade): number => ORDER[grade];

/** Grade of a figure that is worse the larger it is. */
export const gradeAbove = (value: number, care: number, stop: number): Grade =>
  value >= stop ? 'stop' : value >= care ? 'care' : 'ok';

/** '0.42 m', '3.5 cm', '4 mm': a length as people on set say it. */
export function lengthWords(lengthM: number): string {
  const size = Math.abs(lengthM);
  if (size >= 0.995) return `${lengthM.toFixed(2)} m`;
  if (size >= 0.0995) return `${Math.round(lengthM * 100)} cm`;
  if (size >= 0.00995) return `${(lengthM * 100).toFixed(1)} cm`;
  return `${(lengthM * 1000).toFixed(size < 0.001 ? 1 : 0)} mm`;
}

const OCTANTS = ['right', 'back right', 'back', 'back left', 'left', 'front left', 'front', 'front right'] as const;

/** Which way a level direction points for who stands behind the camera: 'front left' falls toward the lens and left. */
export function directionOnTable(view: Pick<CameraView, 'right' | 'forward'>, direction: Vec3): string {
  const [rx, rz] = [view.right[0], view.right[2]];
  const [fx, fz] = [view.forward[0], view.forward[2]];
  const right = direction[0] * rx + direction[2] * rz;
  const back = (direction[0] * fx + direction[2] * fz) / (Math.hypot(fx, fz) || 1);
  const octant = Math.round(Math.atan2(back, right) / (Math.PI / 4));
  return `to the ${OCTANTS[(octant + 8) % 8]}`;
}
