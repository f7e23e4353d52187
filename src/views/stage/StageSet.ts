import { type BufferGeometry, EdgesGeometry, LineBasicMaterial, LineSegments, type Material, type Mesh } from 'three';
import type { DevelopParams } from '../../camera/developParams.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import { isFineDetail } from '../../scene/roles.ts';
import type { FrameScene, SetModel } from '../../scene/setModel.ts';
import { cameraParts } from '../resources/cameraBody.ts';
import { backdropsOfSet } from '../resources/light/backdrops.ts';
import { type FieldDetail, lightField } from '../resources/light/lightField.ts';
import {
  createLightUniforms,
  createRecordNumbers,
  disposeLightUniforms,
  setLightUniforms,
} from '../resources/light/lightTextures.ts';
import { SetObjects } from '../resources/SetObjects.ts';
import { setEmission } from '../resources/shading/setEmission.ts';
import { createSharedUniforms } from '../resources/shading/surfaceMaterial.ts';
import { createDetailMerger } from './mergeDetail.ts';
import { StageMaterials } from './stageMaterials.ts';

/** Edges between faces that meet at less than this are inside a smooth body. */
const CREASE_DEG = 28;
const PAPER = '#f0e6d6';
const ACCENT = '#e2a356';

export interface StageInput {
  readonly scene: FrameScene;
  readonly set: SetModel;
  readonly layerGains: Float32Array;
  readonly params: DevelopParams;
}

/** The set as one can walk round it: bodies under their actual light, with their edges drawn. */
export class StageSet {
  readonly #light;
  readonly #shared;
  readonly #numberOf = createRecordNumbers();
  readonly #materials: StageMaterials;
  readonly #objects: SetObjects<Material>;
  readonly #detail: FieldDetail;
  readonly #mergeDetail = createDetailMerger();
  readonly #edges = {
    plain: new LineBasicMaterial({ color: PAPER, transparent: true, opacity: 0.2, depthWrite: false }),
    hovered: new LineBasicMaterial({ color: PAPER, transparent: true, opacity: 0.7, depthWrite: false }),
    selected: new LineBasicMaterial({ color: ACCENT, transparent: true, opacity: 0.95, depthWrite: false }),
  };
  readonly #edgeGeometries = new Map<BufferGeometry, EdgesGeometry>();
  #last: StageInput | null = null;

  constructor(detail: FieldDetail & { readonly cells: number }) {
    this.#detail = detail;
    this.#light = createLightUniforms(detail.cells);
    this.#shared = createSharedUniforms(this.#light);
    this.#materials = new StageMaterials(this.#shared, this.#numberOf);
    this.#objects = new SetObjects(this.#materials);
  }

  get group() {
    return this.#objects.group;
  }

  update(input: StageInput): void {
    const { scene, set, layerGains, params } = input;
    const last = this.#last;
    if (last?.set !== set || last.scene.camera !== scene.camera) {
      this.#materials.setVolumes(set.volumes);
      this.#objects.sync([...this.#mergeDetail(set.surfaces), ...cameraSurfaces(scene)]);
      this.#drawEdges();
    }
    if (last?.set !== set || last.layerGains !== layerGains || last.params.scale !== params.scale) {
      const field = lightField(scene, set, layerGains, this.#detail);
      const rows = setLightUniforms(this.#light, field, backdropsOfSet(set, field), this.#numberOf, params.scale);
      setEmission(this.#objects, scene, set, layerGains, params.scale, rows);
    }
    this.#materials.setDevelopment(params);
    this.#last = input;
  }

  /** Draws the edges of what is selected and of what the pointer is over more strongly. */
  emphasise(selectedIds: readonly string[], hoveredId: string | null): void {
    this.#objects.each((mesh, { recordId }) => {
      const edges = edgesOf(mesh);
      if (!edges) return;
      const { plain, hovered, selected } = this.#edges;
      edges.material = selectedIds.includes(recordId) ? selected : recordId === hoveredId ? hovered : plain;
      edges.renderOrder = selectedIds.includes(recordId) ? 2 : 1;
    });
  }

  /** Frees everything; a later `update` starts afresh. */
  dispose(): void {
    this.#last = null;
    this.#objects.dispose();
    disposeLightUniforms(this.#light);
    for (const edges of this.#edgeGeometries.values()) edges.dispose();
    this.#edgeGeometries.clear();
    for (const material of Object.values(this.#edges)) material.dispose();
  }

  #drawEdges(): void {
    const used = new Set<BufferGeometry>();
    this.#objects.each((mesh, surface) => {
      if (!hasDrawnEdges(surface)) return;
      used.add(mesh.geometry);
      let geometry = this.#edgeGeometries.get(mesh.geometry);
      if (!geometry) {
        geometry = new EdgesGeometry(mesh.geometry, CREASE_DEG);
        this.#edgeGeometries.set(mesh.geometry, geometry);
      }
      const edges = edgesOf(mesh);
      if (edges) {
        edges.geometry = geometry;
        return;
      }
      const lines = new LineSegments(geometry, this.#edges.plain);
      lines.raycast = () => {};
      mesh.add(lines);
    });
    for (const [geometry, edges] of this.#edgeGeometries) {
      if (used.has(geometry)) continue;
      edges.dispose();
      this.#edgeGeometries.delete(geometry);
    }
  }
}

const edgesOf = (mesh: Mesh): LineSegments | undefined =>
  mesh.children.find((child): child is LineSegments => child instanceof LineSegments);

/** The cells of a graded cloth and the rounded edges of boxes would be a web of lines. */
const hasDrawnEdges = ({ role, emission, shape }: OpticalSurface): boolean =>
  !isFineDetail(role) && !/(^|ice \d+ )(edge|corner)$/.test(role) && !(emission && shape.type === 'quad');

function cameraSurfaces(scene: FrameScene): OpticalSurface[] {
  return cameraParts(scene.camera).map(({ role, shape, worldFromLocal }) => ({
    recordId: 'camera',
    role: `camera ${role}`,
    shape,
    worldFromLocal,
    finish: { type: 'matte', reflectanceRgb: [0.07, 0.066, 0.06] },
  }));
}
