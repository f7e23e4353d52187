import type { Vec3 } from '../../../src/core/vec3.ts';
import { BALL, BLOCK, blockFaces, CARDS, LAMP, PUCK } from './scene.ts';

/** The puck's side and edges are cut this often; its side has smooth normals. */
const PUCK_SIDES = 256;

const number = (v: number): string => String(Number(v.toFixed(7)));
const vectors = (list: readonly Vec3[]): string => list.map((v) => v.map(number).join(' ')).join('  ');
const parallelogram = ({ originM: o, edgeUM: u, edgeVM: v }: { originM: Vec3; edgeUM: Vec3; edgeVM: Vec3 }): Vec3[] =>
  [
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ].map(([s, t]) => [o[0] + s * u[0] + t * v[0], o[1] + s * u[1] + t * v[1], o[2] + s * u[2] + t * v[2]] as const);

const material = (id: string, code: string, parameters: string): string =>
  `<material id="${id}"><code>"${code}"</code><parameters>${parameters}</parameters></material>`;
const grey = (v: number): string => `${v} ${v} ${v}`;
const dielectric = (id: string, index: number, transmission: number): string =>
  material(
    id,
    'Dielectric',
    `<float name="etaOutside">1</float><float name="etaInside">${index}</float>` +
      `<float3 name="transmissionOutside">1 1 1</float3><float3 name="transmission">${grey(transmission)}</float3>`,
  );

function quads(name: string, corners: readonly Vec3[], look: string, normals: readonly Vec3[] = []): string {
  const indices = Array.from({ length: corners.length / 4 }, (_, i) => [0, 1, 2, 3].map((k) => 4 * i + k).join(' '));
  const smooth = normals.length > 0 ? `\n    <normals>${vectors(normals)}</normals>` : '';
  return `  <QuadMesh name="${name}">\n    <positions>${vectors(corners)}</positions>${smooth}\n    <indices>${indices.join('  ')}</indices>\n    ${look}\n  </QuadMesh>`;
}

function puck(): string[] {
  const look = dielectric('puck', PUCK.index, 1);
  const { centreM: c, radiusM: r, y0M, y1M } = PUCK;
  const radial = (i: number): Vec3 => {
    const a = (2 * Math.PI * i) / PUCK_SIDES;
    return [Math.cos(a), 0, Math.sin(a)];
  };
  const rim = (i: number, y: number): Vec3 => [c[0] + r * radial(i)[0], y, c[2] + r * radial(i)[2]];
  const each = Array.from({ length: PUCK_SIDES }, (_, i) => i);
  const side = each.flatMap((i) => [rim(i, y0M), rim(i + 1, y0M), rim(i + 1, y1M), rim(i, y1M)]);
  const sideNormals = each.flatMap((i) => [radial(i), radial(i + 1), radial(i + 1), radial(i)]);
  const middle = (y: number): Vec3 => [c[0], y, c[2]];
  // Two sectors of a cap make one quad.
  const cap = (y: number): Vec3[] =>
    each.filter((i) => i % 2 === 0).flatMap((i) => [middle(y), rim(i, y), rim(i + 1, y), rim(i + 2, y)]);
  return [quads('puck side', side, look, sideNormals), quads('puck ends', [...cap(y0M), ...cap(y1M)], look)];
}

/**
 * The flagged table as a scene file of Embree's tutorials. The lamp gives `gain`, 4 and 16 times `gain` of its intensity in
 * red, green and blue: the set is neutral, so each channel is an exposure of the same light.
 */
export function embreeScene(gain: number): string {
  const light = [1, 4, 16].map((k) => k * gain * LAMP.intensityCd).join(' ');
  return [
    '<?xml version="1.0"?>',
    '<scene>',
    `  <PointLight><AffineSpace translate="${LAMP.positionM.join(' ')}"></AffineSpace><I>${light}</I></PointLight>`,
    ...CARDS.map((card) =>
      quads(
        card.name,
        parallelogram(card),
        material(
          card.name,
          card.finish === 'matte' ? 'Matte' : 'Mirror',
          `<float3 name="reflectance">${grey(card.reflectance)}</float3>`,
        ),
      ),
    ),
    `  <Points type="sphere" name="ball">\n    <positions>${[...BALL.centreM, BALL.radiusM].join(' ')}</positions>\n    ${dielectric('ball', BALL.index, BALL.transmissionPerM)}\n  </Points>`,
    quads('block', blockFaces().flatMap(parallelogram), dielectric('block', BLOCK.index, 1)),
    ...puck(),
    '</scene>',
    '',
  ].join('\n');
}
