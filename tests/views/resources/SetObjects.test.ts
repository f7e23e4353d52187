import { type Mesh, MeshBasicMaterial } from 'three';
import { expect, test } from 'vitest';
import { translation } from '../../../src/core/rigid.ts';
import type { OpticalSurface } from '../../../src/materials/surface.ts';
import { shelvedCount } from '../../../src/views/resources/geometryShelf.ts';
import { SetObjects } from '../../../src/views/resources/SetObjects.ts';

const quad = (recordId: string, xM: number, widthM = 1): OpticalSurface => ({
  recordId,
  role: 'top',
  shape: { type: 'quad', originM: [0, 0, 0], edgeUM: [widthM, 0, 0], edgeVM: [0, 0, -1] },
  worldFromLocal: translation([xM, 0, 0]),
  finish: { type: 'black' },
});

function makeObjects() {
  const disposed: string[] = [];
  const objects = new SetObjects<MeshBasicMaterial>({
    make: (surface) => {
      if (surface.recordId === 'unseen') return null;
      const material = new MeshBasicMaterial();
      material.addEventListener('dispose', () => disposed.push(surface.recordId));
      return material;
    },
    update: () => {},
  });
  return { objects, disposed };
}

test('what moves keeps its mesh and geometry and gets another matrix', () => {
  const { objects } = makeObjects();
  objects.sync([quad('a', 0)]);
  const mesh = objects.group.children[0] as Mesh;
  const { geometry } = mesh;
  objects.sync([quad('a', 0.25)]);
  expect(objects.group.children).toEqual([mesh]);
  expect(mesh.geometry).toBe(geometry);
  expect(mesh.matrix.elements[12]).toBe(0.25);
  objects.dispose();
});

test('what is reshaped gets another geometry, and the old one is let go', () => {
  const before = shelvedCount();
  const { objects } = makeObjects();
  objects.sync([quad('a', 0)]);
  const mesh = objects.group.children[0] as Mesh;
  const { geometry } = mesh;
  let disposed = false;
  geometry.addEventListener('dispose', () => {
    disposed = true;
  });
  objects.sync([quad('a', 0, 2)]);
  expect(mesh.geometry).not.toBe(geometry);
  expect(disposed).toBe(true);
  expect(shelvedCount()).toBe(before + 1);
  objects.dispose();
  expect(shelvedCount()).toBe(before);
});

test('what goes is taken out and its material disposed; what a view does not show is left out', () => {
  const { objects, disposed } = makeObjects();
  objects.sync([quad('a', 0), quad('b', 1), quad('unseen', 2)]);
  expect(objects.group.children).toHaveLength(2);
  objects.sync([quad('b', 1)]);
  expect(objects.group.children.map(({ userData }) => userData.recordId)).toEqual(['b']);
  expect(disposed).toEqual(['a']);
  objects.dispose();
  expect(objects.group.children).toHaveLength(0);
  expect(disposed).toEqual(['a', 'b']);
});
