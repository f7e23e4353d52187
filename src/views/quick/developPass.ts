import {
  GLSL3,
  Matrix3,
  Mesh,
  OrthographicCamera,
  PlaneGeometry,
  Scene,
  ShaderMaterial,
  type Texture,
  Vector3,
  type WebGLRenderer,
} from 'three';
import { developGlsl } from '../../camera/develop.ts';
import type { DevelopParams } from '../../camera/developParams.ts';
import { bandOfStops, STOPS_BANDS } from '../../camera/stopsView.ts';
import { LUMINANCE_WEIGHTS_REC2020, REC709_FROM_REC2020 } from '../../core/color/spaces.ts';
import type { PictureMode } from '../session/index.ts';

const MODES: Readonly<Record<PictureMode, number>> = { picture: 0, linear: 1, stops: 2 };

const vertexGlsl = `
void main() {
  gl_Position = vec4(position.xy, 0.0, 1.0);
}
`;

const fragmentGlsl = `
precision highp float;
${developGlsl}
uniform sampler2D kgPicture;
uniform int kgSamples;
uniform vec2 kgPerPixel;
uniform mat3 kgSensor;
uniform mat3 kgDisplay;
uniform float kgPerMiddle;
uniform int kgMode;
uniform vec3 kgBands[${STOPS_BANDS.length}];
layout(location = 0) out vec4 kgColour;

vec3 kgShow(vec3 light) {
  if (kgMode == 0) return keyglassDevelop(light, kgSensor);
  vec3 sensor = kgSensor * light;
  if (kgMode == 1) return keyglassEncodeSrgb(clamp(kgDisplay * sensor, 0.0, 1.0));
  if (max(sensor.r, max(sensor.g, sensor.b)) >= 1.0) return kgBands[${STOPS_BANDS.length - 1}];
  float y = dot(light, vec3(${LUMINANCE_WEIGHTS_REC2020.map((w) => w.toFixed(9)).join(', ')})) * kgPerMiddle;
  float band = floor(log2(max(y, 1e-9)) + 0.5) + ${bandOfStops(0).toFixed(1)};
  return kgBands[int(clamp(band, 0.0, ${(STOPS_BANDS.length - 2).toFixed(1)}))];
}

void main() {
  // Each sample is developed before the mean is taken, so that edges of clipped light stay even.
  vec3 sum = vec3(0.0);
  vec2 corner = floor(gl_FragCoord.xy) * kgPerPixel;
  for (int j = 0; j < kgSamples; j++) {
    for (int i = 0; i < kgSamples; i++) {
      vec2 uv = corner + (vec2(i, j) + 0.5) / float(kgSamples) * kgPerPixel;
      sum += kgShow(textureLod(kgPicture, uv, 0.0).rgb);
    }
  }
  kgColour = vec4(sum / float(kgSamples * kgSamples), 1.0);
}
`;

const copyGlsl = `
precision highp float;
uniform sampler2D kgPicture;
uniform vec2 kgPerPixel;
layout(location = 0) out vec4 kgColour;
void main() {
  kgColour = textureLod(kgPicture, gl_FragCoord.xy * kgPerPixel, 0.0);
}
`;

/** Passes over the whole picture: a plain copy, and the development of light into what the screen shows. */
export class PicturePasses {
  readonly #uniforms = {
    kgPicture: { value: null as Texture | null },
    kgSamples: { value: 1 },
    /** Texture coordinates per pixel of the target. */
    kgPerPixel: { value: { x: 1, y: 1 } },
    kgSensor: { value: new Matrix3() },
    kgDisplay: { value: new Matrix3().fromArray(columns(REC709_FROM_REC2020)) },
    kgPerMiddle: { value: 1 },
    kgMode: { value: 0 },
    kgBands: { value: STOPS_BANDS.map(({ rgb }) => new Vector3(rgb[0] / 255, rgb[1] / 255, rgb[2] / 255)) },
  };
  readonly #develop = passMaterial(fragmentGlsl, this.#uniforms);
  readonly #copy = passMaterial(copyGlsl, this.#uniforms);
  readonly #geometry = new PlaneGeometry(2, 2);
  readonly #mesh = new Mesh(this.#geometry, this.#copy);
  readonly #scene = new Scene();
  readonly #camera = new OrthographicCamera();

  constructor() {
    this.#mesh.frustumCulled = false;
    this.#scene.add(this.#mesh);
  }

  /** Light in the picture is sensor exposure before white balance: cd/m2 times `params.scale`. */
  setDevelopment(params: DevelopParams, mode: PictureMode): void {
    const uniforms = this.#uniforms;
    uniforms.kgSensor.value.fromArray(columns(params.whiteBalance));
    uniforms.kgPerMiddle.value = 1 / (params.middleLuminanceNits * params.scale);
    uniforms.kgMode.value = MODES[mode];
  }

  copy(renderer: WebGLRenderer, picture: Texture, widthPx: number, heightPx: number): void {
    this.#run(renderer, this.#copy, picture, widthPx, heightPx);
  }

  /** @param samples per side and pixel of the present target. */
  develop(renderer: WebGLRenderer, picture: Texture, widthPx: number, heightPx: number, samples: number): void {
    this.#uniforms.kgSamples.value = samples;
    this.#run(renderer, this.#develop, picture, widthPx, heightPx);
  }

  dispose(): void {
    this.#develop.dispose();
    this.#copy.dispose();
    this.#geometry.dispose();
  }

  #run(renderer: WebGLRenderer, material: ShaderMaterial, picture: Texture, widthPx: number, heightPx: number): void {
    this.#uniforms.kgPicture.value = picture;
    this.#uniforms.kgPerPixel.value = { x: 1 / widthPx, y: 1 / heightPx };
    this.#mesh.material = material;
    renderer.render(this.#scene, this.#camera);
  }
}

function passMaterial(fragmentShader: string, uniforms: ShaderMaterial['uniforms']): ShaderMaterial {
  const material = new ShaderMaterial({
    glslVersion: GLSL3,
    vertexShader: vertexGlsl,
    fragmentShader,
    depthTest: false,
    depthWrite: false,
    toneMapped: false,
  });
  material.uniforms = uniforms;
  return material;
}

/** GLSL matrices run column by column. */
const columns = (m: readonly number[]): number[] => [0, 3, 6, 1, 4, 7, 2, 5, 8].map((i) => m[i]);
