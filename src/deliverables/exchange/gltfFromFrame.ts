import { fromAxes } from '../../core/rigid.ts';
import { negate } from '../../core/vec3.ts';
import { fixtureFrame } from '../../fixtures/placement.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import type { FrameSet } from '../frameSet.ts';
import { clearBodies } from './clearBodies.ts';
import { lightColour, lightFromFixture } from './gltfLight.ts';
import { materialFromFinish, materialFromMedium, materialOfFace } from './gltfMaterial.ts';
import type { Gltf, GltfMaterial, GltfNode } from './gltfTypes.ts';
import { createMeshStore } from './meshStore.ts';
import { lookingAlongMinusZ, quaternionFromRotation } from './quaternion.ts';
import { meanChordM, trianglesOf } from './triangles.ts';

/** A glTF document and the bytes of its one buffer. */
export interface GltfScene {
  readonly json: Gltf;
  readonly bin: Uint8Array;
}

const NEAREST_M = 0.01;

/**
 * The set of one frame as glTF 2.0: every record a node with its mesh, lights by KHR_lights_punctual, the frame's camera.
 * Metres, y up, as here; turned bodies are cut into flat facets for the file. What glTF can't say (area lights, shared
 * surfaces of glass and drink, cloudy drinks, honeycombs) is listed in docs/deliverables.md.
 */
export function gltfFromFrame(frameSet: FrameSet): GltfScene {
  const { setup, frame, scene, set, view } = frameSet;
  const store = createMeshStore();
  const nodes: GltfNode[] = [];
  const bodies = clearBodies(set);
  const records = [...scene.pieces, ...scene.fixtures, ...scene.grip];
  const ids = [...new Set(set.surfaces.map(({ recordId }) => recordId))];
  for (const id of ids) {
    const name = records.find((record) => record.id === id)?.name ?? id;
    const fixture = scene.fixtures.find((light) => light.id === id);
    const face = fixture ? faceMaterial(fixture) : undefined;
    for (const [material, surfaces] of byMaterial(set.surfaces, id, name, face)) {
      store.add(material, trianglesOf(surfaces.map((placed) => ({ placed, flipped: false }))));
    }
    for (const { volume, roughness, triangles } of bodies.filter((body) => body.volume.recordId === id)) {
      const part = volume.id.slice(volume.id.lastIndexOf(':') + 1);
      const material = materialFromMedium(volume.medium, roughness, meanChordM(triangles), `${name}: ${part}`);
      store.add(material, triangles);
    }
    const mesh = store.close(name);
    if (mesh !== null) nodes.push({ name, mesh });
  }
  const lights = scene.fixtures.map(lightFromFixture);
  scene.fixtures.forEach((fixture, light) => {
    const pose = lookingAlongMinusZ(fixtureFrame(fixture));
    nodes.push({
      name: `${fixture.name}: light`,
      translation: pose.translationM,
      rotation: quaternionFromRotation(pose.rotation),
      extensions: { KHR_lights_punctual: { light } },
    });
  });
  const cameraPose = fromAxes(view.right, view.up, negate(view.forward), view.originM);
  nodes.push({
    name: 'Camera',
    camera: 0,
    translation: cameraPose.translationM,
    rotation: quaternionFromRotation(cameraPose.rotation),
  });
  const { meshes, materials, accessors, bufferViews, bin } = store.finish();
  const extensionsUsed = [
    ...new Set([
      ...(lights.length > 0 ? ['KHR_lights_punctual'] : []),
      ...materials.flatMap(({ extensions }) => Object.keys(extensions ?? {})),
    ]),
  ].sort();
  const { camera } = scene;
  const json: Gltf = {
    asset: { version: '2.0', generator: 'Keyglass' },
    ...(extensionsUsed.length > 0 ? { extensionsUsed } : {}),
    scene: 0,
    scenes: [{ name: `${setup.title}: ${frame.name}`, nodes: nodes.map((_, i) => i) }],
    nodes,
    ...(meshes.length > 0 ? { meshes, materials, accessors, bufferViews, buffers: [{ byteLength: bin.length }] } : {}),
    cameras: [
      {
        name: frame.name,
        type: 'perspective',
        perspective: {
          yfov: 2 * Math.atan(view.tanHalfHeight),
          aspectRatio: view.tanHalfWidth / view.tanHalfHeight,
          znear: NEAREST_M,
        },
        extras: {
          focalLengthMm: camera.focalLengthMm,
          focusDistanceM: camera.focusDistanceM,
          apertureFNumber: camera.apertureFNumber,
          shutterS: camera.shutterS,
          iso: camera.iso,
        },
      },
    ],
    ...(lights.length > 0 ? { extensions: { KHR_lights_punctual: { lights } } } : {}),
  };
  return { json, bin };
}

const faceMaterial = (fixture: Parameters<typeof lightColour>[0]): GltfMaterial => {
  const { rgb, gain } = lightColour(fixture);
  return materialOfFace(rgb, gain > 0, `${fixture.name}: face`);
};

/** Surfaces of one record that are not the skin of a clear body, by the material that they get. */
function byMaterial(
  surfaces: readonly OpticalSurface[],
  recordId: string,
  name: string,
  face: GltfMaterial | undefined,
): [GltfMaterial, OpticalSurface[]][] {
  const groups = new Map<string, [GltfMaterial, OpticalSurface[]]>();
  for (const surface of surfaces) {
    const { finish } = surface;
    if (surface.recordId !== recordId || finish.type === 'clear') continue;
    const material = surface.emission && face ? face : materialFromFinish(finish, `${name}: ${finish.type}`);
    const key = JSON.stringify(material);
    const group = groups.get(key);
    if (group) group[1].push(surface);
    else groups.set(key, [material, [surface]]);
  }
  return [...groups.values()];
}
