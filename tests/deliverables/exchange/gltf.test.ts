import { validateBytes } from 'gltf-validator';
import { describe, expect, it } from 'vitest';
import { applyToDirection, fromAim } from '../../../src/core/rigid.ts';
import { normalize, sub, type Vec3 } from '../../../src/core/vec3.ts';
import { clearBodies, DRINK_OVERLAP_M } from '../../../src/deliverables/exchange/clearBodies.ts';
import { writeGlb, writeGltf } from '../../../src/deliverables/exchange/gltfFiles.ts';
import { gltfFromFrame } from '../../../src/deliverables/exchange/gltfFromFrame.ts';
import { lightFromFixture, outerConeRad } from '../../../src/deliverables/exchange/gltfLight.ts';
import { materialFromFinish, materialFromMedium } from '../../../src/deliverables/exchange/gltfMaterial.ts';
import { lookingAlongMinusZ, quaternionFromRotation } from '../../../src/deliverables/exchange/quaternion.ts';
import { meanChordM, trianglesOf } from '../../../src/deliverables/exchange/triangles.ts';
import { photometryFromFixture } from '../../../src/fixtures/photometry.ts';
import { hostileSetup } from '../helpers/hostile.ts';
import { openFrame, openFrames } from '../helpers/openFrames.ts';
import { studioSetup } from '../helpers/studioSetup.ts';

const frameSet = openFrame(studioSetup());
const scene = gltfFromFrame(frameSet);

/** Turns a vector by a unit quaternion: v + 2 w (q x v) + 2 q x (q x v). */
function turn([x, y, z, w]: readonly number[], [a, b, c]: Vec3): Vec3 {
  const u = [y * c - z * b, z * a - x * c, x * b - y * a];
  return [
    a + 2 * (w * u[0] + y * u[2] - z * u[1]),
    b + 2 * (w * u[1] + z * u[0] - x * u[2]),
    c + 2 * (w * u[2] + x * u[1] - y * u[0]),
  ];
}

describe('glTF', () => {
  it.each([
    ['GLB', writeGlb(scene)],
    ['glTF', new TextEncoder().encode(writeGltf(scene))],
  ])('passes the Khronos validator as %s without an error, a warning or an unknown extension', async (_, bytes) => {
    const report = await validateBytes(bytes, { maxIssues: 100 });
    expect(report.issues.messages.filter(({ severity }) => severity <= 1)).toEqual([]);
    expect(report.info.version).toBe('2.0');
    expect(report.info.extensionsUsed).toEqual([
      'KHR_lights_punctual',
      'KHR_materials_ior',
      'KHR_materials_specular',
      'KHR_materials_transmission',
      'KHR_materials_volume',
    ]);
    expect(report.info.totalTriangleCount).toBeGreaterThan(3000);
  });

  it('passes with hostile names too, for every frame', async () => {
    for (const frame of openFrames(hostileSetup())) {
      const report = await validateBytes(writeGlb(gltfFromFrame(frame)), { maxIssues: 100 });
      expect(report.issues.messages.filter(({ severity }) => severity <= 1)).toEqual([]);
    }
  });

  it('puts every record where it stands, in metres: extents equal the set’s to 0.2 mm', () => {
    const { json } = scene;
    for (const { name, mesh } of json.nodes) {
      const record = [...frameSet.scene.pieces, ...frameSet.scene.fixtures, ...frameSet.scene.grip].find(
        (r) => r.name === name,
      );
      if (!record || mesh === undefined) continue;
      const primitives = json.meshes?.[mesh].primitives ?? [];
      const extents = primitives.map(({ attributes }) => json.accessors?.[attributes.POSITION]);
      const bounds = frameSet.set.boundsByRecord.get(record.id);
      for (const k of [0, 1, 2] as const) {
        const low = Math.min(...extents.map((accessor) => accessor?.min?.[k] ?? 0));
        const high = Math.max(...extents.map((accessor) => accessor?.max?.[k] ?? 0));
        // Facets cut the corners of turned bodies: 64 sides miss 0.1 m radius by 0.12 mm.
        expect(low, `${name} ${k}`).toBeCloseTo(bounds?.minM[k] ?? Number.NaN, 3);
        expect(high, `${name} ${k}`).toBeCloseTo(bounds?.maxM[k] ?? Number.NaN, 3);
      }
    }
  });

  it('turns camera and lights to look along their own -z at their aim', () => {
    const node = (name: string) => scene.json.nodes.find((n) => n.name === name);
    const looks = [
      { name: 'Camera', from: frameSet.scene.camera },
      ...frameSet.scene.fixtures.map((fixture) => ({ name: `${fixture.name}: light`, from: fixture })),
    ];
    for (const { name, from } of looks) {
      const rotation = node(name)?.rotation ?? [];
      const forward = turn(rotation, [0, 0, -1]);
      const wanted = normalize(sub(from.aimM, from.positionM));
      for (const k of [0, 1, 2]) expect(forward[k], name).toBeCloseTo(wanted[k], 9);
      expect(node(name)?.translation).toEqual(from.positionM);
    }
    // Level camera: its right hand stays level.
    expect(turn(node('Camera')?.rotation ?? [], [1, 0, 0])[1]).toBeCloseTo(0, 12);
  });

  it('has the camera’s own field: 85 mm focused at 1.409 m on 36 x 24', () => {
    // Image distance 1 / (1 / 0.085 - 1 / 1.409) = 90.457 mm: yfov = 2 atan(12 / 90.457).
    const [camera] = scene.json.cameras ?? [];
    expect(camera.perspective.yfov).toBeCloseTo(2 * Math.atan(12 / 90.457), 4);
    expect(camera.perspective.aspectRatio).toBeCloseTo(1.5, 9);
  });
});

describe('lights', () => {
  it('gives candela that make the setup’s lux: spot of 9000 cd two stops down is 2250 cd, 562.5 lx at 2 m', () => {
    const light = lightFromFixture(frameSet.scene.fixtures[2]);
    // KHR_lights_punctual: colour x intensity; luminance of its Rec. 709 colour (BT.709: 0.2126, 0.7152, 0.0722).
    const [r, g, b] = light.color;
    const candela = light.intensity * (0.2126 * r + 0.7152 * g + 0.0722 * b);
    expect(candela).toBeCloseTo(2250, 0);
    expect(candela / 2 ** 2).toBeCloseTo(562.5, 0);
    expect(Math.max(r, g, b)).toBe(1);
  });

  it('agrees far off with the photometry of every fixture on its axis', () => {
    for (const fixture of frameSet.scene.fixtures) {
      const [r, g, b] = lightFromFixture(fixture).color;
      const cd = lightFromFixture(fixture).intensity * (0.2126 * r + 0.7152 * g + 0.0722 * b);
      const dimmed = photometryFromFixture(fixture).luxAtDistance(50) * 2 ** fixture.dimStops;
      // The honeycomb's profile is a table; its mean near the axis lies half a percent under the axis.
      expect(Math.abs(cd / 50 ** 2 / dimmed - 1), fixture.name).toBeLessThan(0.01);
    }
  });

  it('falls to half at half the beam angle by the extension’s own falloff, up to 65 degrees each side', () => {
    for (const beamDeg of [8, 22, 40, 60, 90]) {
      const beam = (beamDeg * Math.PI) / 180;
      const outer = outerConeRad(beam);
      const falloff = ((Math.cos(beam / 2) - Math.cos(outer)) / (1 - Math.cos(outer))) ** 2;
      expect(falloff, `${beamDeg}`).toBeCloseTo(0.5, 9);
      expect(outer).toBeLessThanOrEqual(Math.PI / 2 + 1e-12);
    }
    expect(outerConeRad((120 * Math.PI) / 180)).toBeCloseTo(Math.PI / 2, 12);
  });

  it('writes a light that is off with no intensity', () => {
    expect(lightFromFixture({ ...frameSet.scene.fixtures[0], on: false }).intensity).toBe(0);
  });
});

function numberIn(extension: object | undefined, field: string): number {
  const value: unknown = Object.entries(extension ?? {}).find(([name]) => name === field)?.[1];
  if (typeof value !== 'number') throw new Error(`${field} is ${String(value)}`);
  return value;
}

describe('materials', () => {
  it('fades tea as Beer and Lambert say: 6, 25 and 90 per metre', () => {
    const material = materialFromMedium({ index: 1.334, absorptionPerM: [6, 25, 90] }, 0, 0.03, 'tea');
    const { KHR_materials_volume: volume } = material.extensions ?? {};
    const distanceM = numberIn(volume, 'attenuationDistance');
    const colour = volume && 'attenuationColor' in volume ? volume.attenuationColor : null;
    if (!Array.isArray(colour)) throw new Error('no attenuationColor');
    // Extension: T(x) = attenuationColor ^ (x / attenuationDistance). Over 30 mm: exp(-a x 0.03).
    const over30mm = colour.map((c) => Number(c) ** (0.03 / distanceM));
    for (const [k, a] of [6, 25, 90].entries()) expect(over30mm[k]).toBeCloseTo(Math.exp(-a * 0.03), 9);
    expect(material.extensions?.KHR_materials_ior).toEqual({ ior: 1.334 });
  });

  it('writes roughness as the square root of the GGX alpha', () => {
    const gloss = {
      type: 'gloss' as const,
      reflectanceRgb: [0.1, 0.1, 0.1] as [number, number, number],
      coatIndex: 1.49,
      roughness: 0.09,
    };
    expect(materialFromFinish(gloss, 'g').pbrMetallicRoughness.roughnessFactor).toBeCloseTo(0.3, 12);
    expect(materialFromFinish(gloss, 'g').extensions?.KHR_materials_ior).toEqual({ ior: 1.49 });
  });

  it('splits cloth of reflectance 0.35 and transmittance 0.5 so that both come back out', () => {
    const cloth = materialFromFinish(
      { type: 'translucent', reflectanceRgb: [0.35, 0.35, 0.35], transmittanceRgb: [0.5, 0.5, 0.5] },
      'cloth',
    );
    const [base] = cloth.pbrMetallicRoughness.baseColorFactor;
    const transmissionFactor = numberIn(cloth.extensions?.KHR_materials_transmission, 'transmissionFactor');
    expect(base * transmissionFactor).toBeCloseTo(0.5, 12);
    expect(base * (1 - transmissionFactor)).toBeCloseTo(0.35, 12);
  });
});

describe('clear bodies', () => {
  it('closes every body outward: glass and drink enclose positive volume, and each edge is shared by two triangles', () => {
    for (const { volume, triangles } of clearBodies(frameSet.set)) {
      const { positionsM: p, indices } = triangles;
      let sixfold = 0;
      const edges = new Map<string, number>();
      const key = (i: number): string => [0, 1, 2].map((k) => Math.round(p[3 * i + k] * 1e6)).join(' ');
      for (let t = 0; t < indices.length; t += 3) {
        const corner = [0, 1, 2].map((k) => indices[t + k]);
        const [a, b, c] = corner.map((i) => [p[3 * i], p[3 * i + 1], p[3 * i + 2]]);
        sixfold +=
          a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
        for (let k = 0; k < 3; k++) {
          const [from, to] = [key(corner[k]), key(corner[(k + 1) % 3])];
          if (from === to) continue;
          edges.set(`${from}|${to}`, (edges.get(`${from}|${to}`) ?? 0) + 1);
        }
      }
      expect(sixfold, volume.id).toBeGreaterThan(0);
      // Every edge runs once each way.
      const lone = [...edges.keys()].filter((edge) => !edges.has(edge.split('|').reverse().join('|')));
      expect(lone.length, volume.id).toBe(0);
    }
  });

  it('lets the drink 0.1 mm into the glass', () => {
    const drink = clearBodies(frameSet.set).find(({ volume }) => volume.id.endsWith(':drink'));
    const widest = Math.max(...(drink?.triangles.positionsM ?? []).map((v, i) => (i % 3 === 0 ? v : 0)));
    // The wall is 1.8 mm thick; the glass is widest inside at the drink's top, between foot (62) and rim (70 mm).
    const glass = frameSet.set.surfaces.filter(({ frontVolume }) => frontVolume?.endsWith(':drink'));
    const insideWall = trianglesOf(glass.map((placed) => ({ placed, flipped: false })));
    const widestInside = Math.max(...insideWall.positionsM.map((v, i) => (i % 3 === 0 ? v : 0)));
    expect(widest - widestInside).toBeGreaterThan(0.9 * DRINK_OVERLAP_M);
    expect(widest - widestInside).toBeLessThan(1.1 * DRINK_OVERLAP_M);
  });

  it('has a mean chord of 4 V / S: two thirds of the edge of a cube, 4/3 of the radius of a ball', () => {
    const ball = trianglesOf([
      {
        placed: {
          shape: {
            type: 'revolvedArc',
            centreRM: 0,
            centreYM: 0,
            radiusM: 0.03,
            angle0Rad: -Math.PI / 2,
            angle1Rad: Math.PI / 2,
          },
          worldFromLocal: fromAim([1, 2, 3], [1, 2, 4]),
        },
        flipped: false,
      },
    ]);
    expect(meanChordM(ball)).toBeCloseTo((4 / 3) * 0.03, 3);
  });
});

describe('quaternionFromRotation', () => {
  it('turns the axes as the matrix does, for aims all round', () => {
    for (let i = 0; i < 40; i++) {
      const a = i * 0.7;
      const pose = lookingAlongMinusZ(fromAim([0, 0, 0], [Math.cos(a), Math.sin(1.3 * a), Math.sin(a)], a));
      const q = quaternionFromRotation(pose.rotation);
      expect(Math.hypot(...q)).toBeCloseTo(1, 12);
      for (const axis of [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ] as const) {
        const expected = applyToDirection(pose, axis);
        turn(q, axis).forEach((value, k) => {
          expect(value).toBeCloseTo(expected[k], 9);
        });
      }
    }
  });
});
