import { compose, type RigidTransform, translation } from '../../core/rigid.ts';
import type { MeshShape } from '../../core/shape.ts';
import { type Built, leftOut } from '../built.ts';
import { BOARD_LIFT_M } from '../clearances.ts';
import type { DressingOf } from '../dressingRecords.ts';
import { buildSolid } from '../pieces/solid.ts';
import { cannotMake } from '../problems.ts';
import { creasedMesh } from './creasedMesh.ts';
import { countOpenEdges } from './meshWorth.ts';
import { type MeshData, readStoredMesh } from './storedMesh.ts';

const LIFT = translation([0, BOARD_LIFT_M, 0]);

/** A body from a file, as it is or as one clear solid; a clear one has to be closed. */
export function buildOwnShape(piece: DressingOf<'ownShape'>, placement: RigidTransform): Built {
  const read = readStoredMesh(piece.mesh);
  if (!read.ok) {
    const { field, message } = read.error;
    return leftOut([cannotMake(piece.id, 'own-shape-unreadable', `mesh.${field}`, undefined, message)]);
  }
  const open = piece.finish.type === 'clear' ? openEdgesOf(read.value) : 0;
  if (open > 0) {
    const message = `${piece.name} is open along ${open} edges, so nothing can fill it: close it where it was drawn, or give it a finish other than clear.`;
    return leftOut([cannotMake(piece.id, 'own-shape-open', 'finish', piece.finish.type, message)]);
  }
  const shape = shapeOf(read.value, piece.creaseDeg);
  return buildSolid(piece.id, [{ role: 'body', shape, worldFromLocal: compose(placement, LIFT) }], piece);
}

/** Both take a while for a fine body and depend on nothing that moves. */
const openEdges = new WeakMap<MeshData, number>();
const shapes = new WeakMap<MeshData, Map<number, MeshShape>>();

function openEdgesOf(mesh: MeshData): number {
  const open = openEdges.get(mesh) ?? countOpenEdges(mesh);
  openEdges.set(mesh, open);
  return open;
}

function shapeOf(mesh: MeshData, creaseDeg: number): MeshShape {
  const known = shapes.get(mesh) ?? new Map<number, MeshShape>();
  shapes.set(mesh, known);
  const shape = known.get(creaseDeg) ?? creasedMesh(mesh, creaseDeg);
  known.clear();
  known.set(creaseDeg, shape);
  return shape;
}
