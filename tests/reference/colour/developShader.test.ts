import { expect, it } from 'vitest';
import { developColour, developGlsl, developParams } from '../../../src/camera/develop.ts';
import { createRandom } from '../../../src/core/rng.ts';
import { findBrowser, launchBrowser } from '../../../tools/browser.mjs';
import { sampleCamera } from '../../camera/sampleCamera.ts';

const SIZE = 64;

/** Runs in the browser: draws one point per texel through the shader and reads the 8-bit result. */
function drawInBrowser(input: { source: string; matrix: number[]; rgba: number[]; size: number }): number[] | string {
  const gl = document.createElement('canvas').getContext('webgl2');
  if (gl === null) return 'no WebGL 2';
  const program = gl.createProgram();
  const vertex = `#version 300 es
    void main() { gl_Position = vec4(vec2(gl_VertexID & 1, gl_VertexID >> 1) * 4.0 - 1.0, 0.0, 1.0); }`;
  for (const [type, source] of [
    [gl.VERTEX_SHADER, vertex],
    [gl.FRAGMENT_SHADER, input.source],
  ] as const) {
    const shader = gl.createShader(type);
    if (shader === null) return 'no shader';
    gl.shaderSource(shader, source);
    gl.compileShader(shader);
    if (!gl.getShaderParameter(shader, gl.COMPILE_STATUS)) return gl.getShaderInfoLog(shader) ?? 'not compiled';
    gl.attachShader(program, shader);
  }
  gl.linkProgram(program);
  gl.useProgram(program);
  const light = gl.createTexture();
  gl.bindTexture(gl.TEXTURE_2D, light);
  gl.texImage2D(
    gl.TEXTURE_2D,
    0,
    gl.RGBA32F,
    input.size,
    input.size,
    0,
    gl.RGBA,
    gl.FLOAT,
    new Float32Array(input.rgba),
  );
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.NEAREST);
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.NEAREST);
  // Row-major in, hence transposed.
  gl.uniformMatrix3fv(gl.getUniformLocation(program, 'sensorFromNits'), true, new Float32Array(input.matrix));
  const target = gl.createTexture();
  gl.activeTexture(gl.TEXTURE1);
  gl.bindTexture(gl.TEXTURE_2D, target);
  gl.texStorage2D(gl.TEXTURE_2D, 1, gl.RGBA8, input.size, input.size);
  gl.bindFramebuffer(gl.FRAMEBUFFER, gl.createFramebuffer());
  gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.TEXTURE_2D, target, 0);
  gl.viewport(0, 0, input.size, input.size);
  gl.drawArrays(gl.TRIANGLES, 0, 3);
  const pixels = new Uint8Array(input.size * input.size * 4);
  gl.readPixels(0, 0, input.size, input.size, gl.RGBA, gl.UNSIGNED_BYTE, pixels);
  return [...pixels];
}

it('develops 4096 colours in a shader within one code of the TypeScript twin', async (context) => {
  if (!findBrowser().ok) context.skip('no browser to run a shader in');
  const params = developParams(sampleCamera({ whiteBalanceK: 4300 }));
  const random = createRandom(31);
  const rgba: number[] = [];
  for (let i = 0; i < SIZE * SIZE; i++) {
    const level = params.saturationLuminanceNits * 2 ** (12 * random() - 10);
    rgba.push(...[0, 1, 2].map(() => Math.fround(level * 2 ** (6 * random() - 4))), 1);
  }
  rgba.splice(0, 8, 0, 0, 0, 1, 1e6, 1e6, 1e6, 1);
  const source = `#version 300 es
    precision highp float;
    uniform sampler2D light;
    uniform mat3 sensorFromNits;
    out vec4 colour;
    ${developGlsl}
    void main() { colour = vec4(keyglassDevelop(texelFetch(light, ivec2(gl_FragCoord.xy), 0).rgb, sensorFromNits), 1.0); }`;
  const browser = await launchBrowser();
  try {
    const page = await browser.newPage();
    const drawn = await page.evaluate(drawInBrowser, { source, matrix: [...params.sensorFromNits], rgba, size: SIZE });
    if (typeof drawn === 'string') throw new Error(drawn);
    for (let i = 0; i < SIZE * SIZE; i++) {
      const exact = developColour([rgba[4 * i], rgba[4 * i + 1], rgba[4 * i + 2]], params);
      exact.forEach((v, k) => {
        expect(Math.abs(255 * v - drawn[4 * i + k])).toBeLessThan(1);
      });
    }
  } finally {
    await browser.close();
  }
});
