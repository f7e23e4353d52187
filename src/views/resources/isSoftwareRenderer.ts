import type { WebGLRenderer } from 'three';

const SOFTWARE_NAMES = /swiftshader|llvmpipe|softpipe|software|basic render/i;

/** Is WebGL drawn by the processor? Then views ask for less at a time. */
export function isSoftwareRenderer(renderer: WebGLRenderer): boolean {
  const gl = renderer.getContext();
  const name = gl.getExtension('WEBGL_debug_renderer_info');
  return name !== null && SOFTWARE_NAMES.test(String(gl.getParameter(name.UNMASKED_RENDERER_WEBGL)));
}
