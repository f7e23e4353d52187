import {
  Camera,
  DoubleSide,
  GLSL3,
  HalfFloatType,
  LinearFilter,
  LinearMipmapLinearFilter,
  type Material,
  type Matrix4,
  Scene,
  ShaderMaterial,
  Vector2,
  Vector4,
  type WebGLRenderer,
  WebGLRenderTarget,
} from 'three';
import type { DevelopParams } from '../../camera/developParams.ts';
import type { CameraView } from '../../camera/view.ts';
import { dot, lerp } from '../../core/vec3.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import type { FrameScene, SetModel } from '../../scene/setModel.ts';
import { backdropsOfSet } from '../resources/light/backdrops.ts';
import { cloudLuminance } from '../resources/light/cloudLuminance.ts';
import { type FieldDetail, type LightField, lightField } from '../resources/light/lightField.ts';
import {
  createLightUniforms,
  createRecordNumbers,
  disposeLightUniforms,
  setLightUniforms,
} from '../resources/light/lightTextures.ts';
import { SetObjects } from '../resources/SetObjects.ts';
import { createGlassMaterial, createViewUniforms, GlassUniforms } from '../resources/shading/glassMaterial.ts';
import { glassProfileModel } from '../resources/shading/glassProfile.ts';
import { setEmission } from '../resources/shading/setEmission.ts';
import { depthFragmentGlsl, sceneOutputGlsl, surfaceVertexGlsl } from '../resources/shading/surfaceGlsl.ts';
import { createSharedUniforms, EVERYWHERE, SurfaceMaterial } from '../resources/shading/surfaceMaterial.ts';
import type { PictureMode } from '../session/index.ts';
import { cameraMatrices, mirrorMatrix } from './cameraMatrices.ts';
import { chooseMirror, type MirrorPlane } from './chooseMirror.ts';
import { PicturePasses } from './developPass.ts';

/** How much work a picture may be. */
export interface QuickQuality extends FieldDetail {
  /** Cells per side of a panel where its light is summed. */
  readonly cells: number;
  /** Samples per side of a pixel. */
  readonly samples: number;
  /** The picture is worked out at most this wide and scaled up to its place. */
  readonly mostWidthPx: number;
  /** Likewise while something is in the hand. */
  readonly mostWidthHeldPx: number;
}

export const HARDWARE_QUALITY: QuickQuality = {
  cells: 4,
  patches: 56,
  secondHandShadows: true,
  samples: 2,
  mostWidthPx: 1600,
  mostWidthHeldPx: 1600,
};
export const SOFTWARE_QUALITY: QuickQuality = {
  cells: 2,
  patches: 40,
  secondHandShadows: false,
  samples: 1,
  mostWidthPx: 420,
  mostWidthHeldPx: 280,
};

const OPAQUE_LAYER = 0;
const GLASS_LAYER = 1;
/** Things this close to the mirror are the mirror. */
const MIRROR_SKIN_M = 2e-4;
const OUTSIDE_OF_GLASS = /^(underside|foot edge|foot|stem|outer wall|rim)$/;

/** What the picture is of. */
export interface QuickInput {
  readonly scene: FrameScene;
  readonly set: SetModel;
  readonly view: CameraView;
  readonly layerGains: Float32Array;
  readonly params: DevelopParams;
  readonly mode: PictureMode;
  /** True while something is in the hand: the picture must follow it. */
  readonly held: boolean;
}

/**
 * The stand-in for the traced picture: direct light with soft shadows, one further bounce off broad surfaces, the
 * picture in the largest gloss, glass by refraction, the same exposure and tone curve. One frame takes milliseconds on a
 * graphics card.
 */
export class QuickPicture {
  readonly #quality: QuickQuality;
  readonly #light;
  readonly #shared;
  readonly #viewUniforms = createViewUniforms();
  readonly #numberOf = createRecordNumbers();
  readonly #objects: SetObjects<Material>;
  readonly #glass = new Map<string, GlassUniforms>();
  readonly #scene = new Scene();
  readonly #camera = new Camera();
  readonly #passes = new PicturePasses();
  readonly #depth: ShaderMaterial;
  #targets: Targets | null = null;
  #mirror: MirrorPlane | null = null;
  #last: QuickInput | null = null;

  constructor(quality: QuickQuality) {
    this.#quality = quality;
    this.#light = createLightUniforms(quality.cells);
    this.#shared = createSharedUniforms(this.#light);
    this.#depth = new ShaderMaterial({
      glslVersion: GLSL3,
      vertexShader: surfaceVertexGlsl,
      fragmentShader: depthFragmentGlsl,
      side: DoubleSide,
      colorWrite: false,
    });
    this.#depth.uniforms = { kgClip: this.#shared.kgClip };
    this.#objects = new SetObjects<Material>({
      make: (surface) => this.#makeMaterial(surface),
      update: (material, surface) => {
        if (material instanceof SurfaceMaterial) material.dress(surface, this.#numberOf);
      },
    });
    this.#scene.add(this.#objects.group);
    this.#scene.matrixWorldAutoUpdate = true;
    this.#camera.matrixAutoUpdate = false;
    this.#camera.matrixWorldAutoUpdate = false;
  }

  /** Takes over what the picture is of. Cheap where it is the same as before. */
  update(input: QuickInput): void {
    const last = this.#last;
    const { scene, set, view, layerGains, params, mode } = input;
    if (last?.set !== set) {
      this.#setGlass(set, scene);
      this.#objects.sync(set.surfaces);
      this.#objects.each((mesh, { finish }) => {
        mesh.layers.set(finish.type === 'clear' ? GLASS_LAYER : OPAQUE_LAYER);
      });
    }
    if (last?.set !== set || last.layerGains !== layerGains || last.params.scale !== params.scale) {
      const field = lightField(scene, set, layerGains, this.#quality);
      const backdrops = backdropsOfSet(set, field);
      const profileRows = setLightUniforms(this.#light, field, backdrops, this.#numberOf, params.scale);
      this.#setClouds(field, set, params.scale);
      setEmission(this.#objects, scene, set, layerGains, params.scale, profileRows);
    }
    if (last?.set !== set || last.view !== view) {
      this.#mirror = chooseMirror(set.surfaces, view);
      this.#objects.each((_, surface, material) => {
        if (material instanceof SurfaceMaterial)
          material.own.kgMirrored.value = surface === this.#mirror?.surface ? 1 : 0;
      });
    }
    this.#passes.setDevelopment(params, mode);
    this.#last = input;
  }

  /** Draws on the renderer's canvas. */
  render(renderer: WebGLRenderer): void {
    const input = this.#last;
    if (!input) return;
    const canvas = renderer.getDrawingBufferSize(new Vector2());
    const { samples, mostWidthPx, mostWidthHeldPx } = this.#quality;
    const shrink = Math.min(1, (input.held ? mostWidthHeldPx : mostWidthPx) / canvas.x);
    const widthPx = Math.max(1, Math.round(canvas.x * shrink)) * samples;
    const heightPx = Math.max(1, Math.round(canvas.y * shrink)) * samples;
    const targets = this.#targetsOf(widthPx, heightPx, (this.#mirror?.roughness ?? 0) > 0);
    const { viewFromWorld, clipFromView } = cameraMatrices(input.view);

    const autoClear = renderer.autoClear;
    renderer.autoClear = false;
    // A target must not be read while it is drawn.
    this.#shared.kgMirror.value = null;
    if (this.#mirror) {
      const { normal, pointM } = this.#mirror;
      const clip = new Vector4(...normal, -dot(normal, pointM) - MIRROR_SKIN_M);
      const mirrored = viewFromWorld.clone().multiply(mirrorMatrix(normal, pointM));
      this.#draw(renderer, targets.mirror, targets.mirrorBehind, mirrored, clipFromView, clip);
    }
    this.#shared.kgMirror.value = targets.mirror.texture;
    this.#draw(renderer, targets.picture, targets.behind, viewFromWorld, clipFromView, EVERYWHERE);
    renderer.setRenderTarget(null);
    this.#passes.develop(renderer, targets.picture.texture, canvas.x, canvas.y, samples);
    renderer.autoClear = autoClear;
  }

  /** Frees everything; a later `update` starts afresh. */
  dispose(): void {
    this.#last = null;
    this.#objects.dispose();
    for (const glass of this.#glass.values()) glass.dispose();
    disposeLightUniforms(this.#light);
    this.#passes.dispose();
    this.#depth.dispose();
    disposeTargets(this.#targets);
    this.#targets = null;
  }

  /** Opaque things, then a copy of them, then glass that looks through to the copy. */
  #draw(
    renderer: WebGLRenderer,
    target: WebGLRenderTarget,
    behind: WebGLRenderTarget,
    viewFromWorld: Matrix4,
    clipFromView: Matrix4,
    clip: Vector4,
  ): void {
    const camera = this.#camera;
    camera.matrixWorldInverse.copy(viewFromWorld);
    camera.matrixWorld.copy(viewFromWorld).invert();
    camera.projectionMatrix.copy(clipFromView);
    camera.projectionMatrixInverse.copy(clipFromView).invert();
    this.#shared.kgClip.value.copy(clip);
    this.#shared.kgViewport.value.set(target.width, target.height);
    this.#viewUniforms.kgViewProjection.value.multiplyMatrices(clipFromView, viewFromWorld);

    renderer.setRenderTarget(target);
    renderer.setClearColor(0x000000, 1);
    renderer.clear(true, true, false);
    camera.layers.set(OPAQUE_LAYER);
    this.#scene.overrideMaterial = this.#depth;
    renderer.render(this.#scene, camera);
    this.#scene.overrideMaterial = null;
    renderer.render(this.#scene, camera);
    if (this.#glass.size === 0) return;
    renderer.setRenderTarget(behind);
    this.#passes.copy(renderer, target.texture, behind.width, behind.height);
    this.#viewUniforms.kgBehind.value = behind.texture;
    renderer.setRenderTarget(target);
    camera.layers.set(GLASS_LAYER);
    renderer.render(this.#scene, camera);
  }

  #makeMaterial(surface: OpticalSurface): Material | null {
    if (surface.finish.type === 'clear') {
      const glass = this.#glass.get(surface.recordId);
      if (!glass || !OUTSIDE_OF_GLASS.test(surface.role)) return null;
      return createGlassMaterial(this.#shared, this.#viewUniforms, glass);
    }
    const material = new SurfaceMaterial(this.#shared, sceneOutputGlsl);
    material.dress(surface, this.#numberOf);
    return material;
  }

  #setGlass(set: SetModel, scene: FrameScene): void {
    const byRecord = new Map<string, OpticalSurface[]>();
    for (const surface of set.surfaces) {
      if (surface.finish.type !== 'clear') continue;
      const known = byRecord.get(surface.recordId);
      if (known) known.push(surface);
      else byRecord.set(surface.recordId, [surface]);
    }
    for (const [recordId, glass] of this.#glass) {
      if (byRecord.has(recordId)) continue;
      glass.dispose();
      this.#glass.delete(recordId);
    }
    for (const [recordId, surfaces] of byRecord) {
      const piece = scene.pieces.find(({ id }) => id === recordId);
      const model = glassProfileModel(
        surfaces,
        set.volumes.filter((volume) => volume.recordId === recordId),
        piece?.kind === 'glass' ? piece.cut : undefined,
      );
      if (!model) continue;
      const glass = this.#glass.get(recordId) ?? new GlassUniforms();
      glass.set(model);
      this.#glass.set(recordId, glass);
    }
  }

  #setClouds(field: LightField, set: SetModel, unit: number): void {
    for (const [recordId, { values }] of this.#glass) {
      const bounds = set.boundsByRecord.get(recordId);
      if (!bounds || values.kgScattering.value.lengthSq() === 0) continue;
      const { minM, maxM } = bounds;
      const centreM = lerp(minM, maxM, 0.5);
      const cloud = cloudLuminance(field, recordId, centreM, (maxM[0] - minM[0]) / 2);
      values.kgCloud.value.set(...cloud).multiplyScalar(unit);
    }
  }

  #targetsOf(widthPx: number, heightPx: number, blurred: boolean): Targets {
    const now = this.#targets;
    if (now && now.picture.width === widthPx && now.picture.height === heightPx && now.blurred === blurred) return now;
    disposeTargets(now);
    const [halfWidthPx, halfHeightPx] = [Math.ceil(widthPx / 2), Math.ceil(heightPx / 2)];
    this.#targets = {
      picture: makeTarget(widthPx, heightPx, true),
      behind: makeTarget(widthPx, heightPx, false),
      mirror: makeTarget(halfWidthPx, halfHeightPx, true, blurred),
      mirrorBehind: makeTarget(halfWidthPx, halfHeightPx, false),
      blurred,
    };
    return this.#targets;
  }
}

interface Targets {
  readonly picture: WebGLRenderTarget;
  readonly behind: WebGLRenderTarget;
  readonly mirror: WebGLRenderTarget;
  readonly mirrorBehind: WebGLRenderTarget;
  /** The mirror image has smaller copies of itself, for surfaces that are not quite smooth. */
  readonly blurred: boolean;
}

const makeTarget = (widthPx: number, heightPx: number, depthBuffer: boolean, blurred = false): WebGLRenderTarget =>
  new WebGLRenderTarget(widthPx, heightPx, {
    type: HalfFloatType,
    depthBuffer,
    magFilter: LinearFilter,
    minFilter: blurred ? LinearMipmapLinearFilter : LinearFilter,
    generateMipmaps: blurred,
  });

function disposeTargets(targets: Targets | null): void {
  if (!targets) return;
  for (const target of [targets.picture, targets.behind, targets.mirror, targets.mirrorBehind]) target.dispose();
}
