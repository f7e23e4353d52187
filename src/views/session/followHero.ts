import { add, sub, type Vec3 } from '../../core/vec3.ts';
import type { DocumentChange } from '../../document/changes.ts';
import type { Frame, Setup } from '../../document/setup.ts';

/**
 * Adds what moves with the hero: the point where the meter is held. Left alone where the frame puts the hero somewhere
 * of its own (the meter point belongs to all frames) and where the changes set the point themselves.
 */
export function followHero(
  setup: Setup,
  frame: Frame | undefined,
  changes: readonly DocumentChange[],
): readonly DocumentChange[] {
  const { pieceId, meterPointM } = setup.subject;
  const hero = setup.pieces.find(({ id }) => id === pieceId);
  if (!hero || changes.some(({ op }) => op === 'updateSubject')) return changes;
  const ofFrame = frame?.overrides.find(({ id }) => id === pieceId);
  if (ofFrame && Object.hasOwn(ofFrame.patch, 'positionM')) return changes;
  const moved = changes.findLast(
    (change) =>
      change.op === 'update' &&
      change.collection === 'pieces' &&
      change.id === pieceId &&
      Object.hasOwn(change.patch, 'positionM'),
  );
  const toM = moved?.op === 'update' ? moved.patch.positionM : undefined;
  if (!isPoint(toM)) return changes;
  const moveM = sub(toM, hero.positionM);
  if (moveM.every((step) => step === 0)) return changes;
  return [...changes, { op: 'updateSubject', patch: { meterPointM: roundM(add(meterPointM, moveM)) } }];
}

const isPoint = (value: unknown): value is Vec3 =>
  Array.isArray(value) && value.length === 3 && value.every((part) => typeof part === 'number');

/** To a micrometre, so that a drag there and back ends where it began. */
const roundM = (p: Vec3): Vec3 => [round(p[0]), round(p[1]), round(p[2])];
const round = (value: number): number => Number(value.toFixed(6)) + 0;
