import { developGlsl } from '../../camera/develop.ts';
import { lightingGlsl } from '../resources/light/lightingGlsl.ts';
import { lookAlongGlsl } from '../resources/shading/surfaceGlsl.ts';

/** Surfaces straight to the screen, by the camera's own exposure and tone curve. */
export const screenOutputGlsl = `
uniform mat3 kgSensor;
${developGlsl}
void main() {
  kgColour = vec4(keyglassDevelop(kgShade(), kgSensor), 1.0);
}
`;

/** Glass, drink and ice as a thin veil: what they mirror, and a tint. */
export const veilFragmentGlsl = `
precision highp float;
${lightingGlsl}${lookAlongGlsl}
${developGlsl}
uniform mat3 kgSensor;
uniform vec3 kgAmbient;
uniform vec3 kgTint;
uniform float kgVeil;
in vec3 kgWorld;
in vec3 kgNormal;
layout(location = 0) out vec4 kgColour;
void main() {
  vec3 n = normalize(kgNormal);
  vec3 view = normalize(cameraPosition - kgWorld);
  n = dot(n, view) < 0.0 ? -n : n;
  float turned = kgFresnel(max(dot(n, view), 0.02), 1.5);
  vec3 mirrored = kgLightAlong(kgWorld, reflect(-view, n), 0.01, -1.0).rgb + kgAmbient;
  vec3 shown = keyglassDevelop(mirrored * turned + kgTint * kgAmbient * kgVeil, kgSensor);
  float cover = clamp(max(shown.r, max(shown.g, shown.b)) + kgVeil * 0.5, 0.0, 1.0);
  kgColour = vec4(shown, cover);
}
`;
