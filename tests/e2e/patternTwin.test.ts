import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type PatternNumbers, patternNumbers, patternSchema } from '../../src/materials/pattern.ts';
import { PATTERN_PARAMETERS, PatternKind, patternMixAt } from '../../src/materials/patterns/patternMixAt.ts';
import { patternCall, patternGlsl } from '../../src/views/resources/shading/patternGlsl.ts';
import { launchBrowser } from '../../tools/browser.mjs';

/*
 * The patterns of the quick picture, on the graphics card in 32-bit floats, against the functions that the tracer runs, point
 * by point. The tracer's functions are tested against closed forms in tests/materials.
 */

const SIDE = 48;
const PATTERNS = Object.keys(PatternKind)
  .filter((type) => type !== 'none')
  .map((type) => ({ type, numbers: patternNumbers(patternSchema.parse({ type, secondRgb: [1, 1, 1], seed: 5 })) }));

/** Points on a slanting plane some 40 cells wide, in metres, as 32-bit floats hold them. */
function pointsFor({ params }: PatternNumbers): Float32Array {
  const cellM = 1 / params[0];
  return Float32Array.from({ length: SIDE * SIDE * 4 }, (_, i) => {
    const [a, b] = [(i >> 2) % SIDE, Math.floor((i >> 2) / SIDE)];
    return [(a - 11.3) * 0.83 * cellM, (0.21 * a + 0.13 * b - 3.7) * cellM, (b - 17.9) * 0.79 * cellM, 0][i & 3];
  });
}

/** Shares of the second colour at points, worked out by a fragment shader. */
function mixOnCard(page: Page, numbers: PatternNumbers, points: Float32Array): Promise<number[]> {
  const fragment = `#version 300 es
precision highp float;
precision highp int;
uniform highp sampler2D places;
uniform float q[${PATTERN_PARAMETERS}];
out vec4 colour;
${patternGlsl([numbers.kind])}
void main() { colour = vec4(${patternCall(numbers.kind)}(texelFetch(places, ivec2(gl_FragCoord.xy), 0).xyz, q)); }`;
  return page.evaluate(
    ({ side, source, q, places }) => {
      const canvas = document.createElement('canvas');
      const gl = canvas.getContext('webgl2');
      if (!gl?.getExtension('EXT_color_buffer_float')) throw new Error('no float targets');
      const program = gl.createProgram();
      const add = (type: number, text: string): void => {
        const shader = gl.createShader(type);
        if (!shader) throw new Error('no shader');
        gl.shaderSource(shader, text);
        gl.compileShader(shader);
        if (!gl.getShaderParameter(shader, gl.COMPILE_STATUS)) throw new Error(gl.getShaderInfoLog(shader) ?? 'shader');
        gl.attachShader(program, shader);
      };
      const corners = 'vec2[3](vec2(-1, -1), vec2(3, -1), vec2(-1, 3))[gl_VertexID]';
      add(gl.VERTEX_SHADER, `#version 300 es\nvoid main() { gl_Position = vec4(${corners}, 0, 1); }`);
      add(gl.FRAGMENT_SHADER, source);
      gl.linkProgram(program);
      gl.useProgram(program);
      const texture = (data: Float32Array | null): WebGLTexture => {
        const made = gl.createTexture();
        gl.bindTexture(gl.TEXTURE_2D, made);
        gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGBA32F, side, side, 0, gl.RGBA, gl.FLOAT, data);
        gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.NEAREST);
        gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.NEAREST);
        return made;
      };
      const target = texture(null);
      texture(Float32Array.from(places));
      gl.bindFramebuffer(gl.FRAMEBUFFER, gl.createFramebuffer());
      gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.TEXTURE_2D, target, 0);
      gl.uniform1fv(gl.getUniformLocation(program, 'q'), q);
      gl.viewport(0, 0, side, side);
      gl.drawArrays(gl.TRIANGLES, 0, 3);
      const out = new Float32Array(side * side * 4);
      gl.readPixels(0, 0, side, side, gl.RGBA, gl.FLOAT, out);
      return Array.from({ length: side * side }, (_, i) => out[4 * i]);
    },
    { side: SIDE, source: fragment, q: [...numbers.params], places: Array.from(points) },
  );
}

describe('patterns on the graphics card', () => {
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    browser = await launchBrowser();
    page = await browser.newPage();
  });
  afterAll(() => browser.close());

  it.each(PATTERNS)('$type mixes as the tracer does: 99 % of 2304 points within 0.01', async ({ type, numbers }) => {
    const points = pointsFor(numbers);
    const shares = await mixOnCard(page, numbers, points);
    const params = Float64Array.from(numbers.params);
    const wanted = shares.map((_, i) => {
      const [x, y, z] = points.subarray(4 * i, 4 * i + 3);
      return patternMixAt(numbers.kind, params, 0, x, y, z);
    });
    // The pattern is there at all; scratches are thin and may miss most points.
    const spread = Math.max(...wanted) - Math.min(...wanted);
    expect(spread).toBeGreaterThan(type === 'scratches' ? 0 : 0.3);
    const near = shares.filter((share, i) => Math.abs(share - wanted[i]) < 0.01).length;
    expect(near / shares.length).toBeGreaterThan(0.99);
  });
});
