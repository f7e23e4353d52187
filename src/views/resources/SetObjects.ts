import { Group, type Material, Matrix4, Mesh } from 'three';
import type { RigidTransform } from '../../core/rigid.ts';
import type { Shape } from '../../core/shape.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import { holdGeometry, releaseGeometry, shapeKey } from './geometryShelf.ts';

/** What a view shows of a surface: its own material, made once and then kept up to date. */
export interface SurfaceDresser<M extends Material> {
  /** Null for surfaces that the view does not show. */
  make(surface: OpticalSurface): M | null;
  /** Sets what a material says to another surface of the same record and role. */
  update(material: M, surface: OpticalSurface): void;
}

interface Shown<M extends Material> {
  readonly mesh: Mesh;
  readonly material: M;
  surface: OpticalSurface;
  shape: Shape;
  key: string;
}

/**
 * The surfaces of a set as meshes under one group. `sync` takes over a new set at the least cost: a surface that moved
 * gets another matrix, one that was reshaped another geometry, and only what is new is made.
 */
export class SetObjects<M extends Material> {
  readonly group = new Group();
  readonly #dresser: SurfaceDresser<M>;
  readonly #shown = new Map<string, Shown<M>>();

  constructor(dresser: SurfaceDresser<M>) {
    this.#dresser = dresser;
    this.group.matrixAutoUpdate = false;
  }

  sync(surfaces: readonly OpticalSurface[]): void {
    const gone = new Set(this.#shown.keys());
    const counts = new Map<string, number>();
    for (const surface of surfaces) {
      const name = `${surface.recordId}\n${surface.role}\n${surface.finish.type}`;
      const count = counts.get(name) ?? 0;
      counts.set(name, count + 1);
      const id = `${name}\n${count}`;
      const shown = this.#shown.get(id);
      if (shown) {
        gone.delete(id);
        this.#update(shown, surface);
      } else {
        this.#add(id, surface);
      }
    }
    for (const id of gone) this.#remove(id);
  }

  each(visit: (mesh: Mesh, surface: OpticalSurface, material: M) => void): void {
    for (const { mesh, surface, material } of this.#shown.values()) visit(mesh, surface, material);
  }

  dispose(): void {
    for (const id of [...this.#shown.keys()]) this.#remove(id);
  }

  #add(id: string, surface: OpticalSurface): void {
    const material = this.#dresser.make(surface);
    if (!material) return;
    const mesh = new Mesh(holdGeometry(surface.shape), material);
    mesh.matrixAutoUpdate = false;
    mesh.matrix.copy(matrixFromRigid(surface.worldFromLocal));
    mesh.userData.recordId = surface.recordId;
    mesh.userData.role = surface.role;
    this.group.add(mesh);
    this.#shown.set(id, { mesh, material, surface, shape: surface.shape, key: shapeKey(surface.shape) });
  }

  #update(shown: Shown<M>, surface: OpticalSurface): void {
    if (shown.surface === surface) return;
    if (shown.surface.worldFromLocal !== surface.worldFromLocal) {
      shown.mesh.matrix.copy(matrixFromRigid(surface.worldFromLocal));
      shown.mesh.matrixWorldNeedsUpdate = true;
    }
    const key = shapeKey(surface.shape);
    if (key !== shown.key) {
      shown.mesh.geometry = holdGeometry(surface.shape);
      releaseGeometry(shown.shape);
      shown.shape = surface.shape;
      shown.key = key;
    }
    this.#dresser.update(shown.material, surface);
    shown.surface = surface;
  }

  #remove(id: string): void {
    const shown = this.#shown.get(id);
    if (!shown) return;
    this.#shown.delete(id);
    this.group.remove(shown.mesh);
    shown.material.dispose();
    releaseGeometry(shown.shape);
  }
}

export function matrixFromRigid({ rotation: r, translationM: t }: RigidTransform): Matrix4 {
  return new Matrix4(r[0], r[1], r[2], t[0], r[3], r[4], r[5], t[1], r[6], r[7], r[8], t[2], 0, 0, 0, 1);
}
