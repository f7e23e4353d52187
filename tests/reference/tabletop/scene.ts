import type { CameraView } from '../../../src/camera/view.ts';
import { fromAim, IDENTITY, type RigidTransform } from '../../../src/core/rigid.ts';
import type { Shape } from '../../../src/core/shape.ts';
import { cross, normalize, sub, type Vec3 } from '../../../src/core/vec3.ts';
import type { Finish } from '../../../src/materials/finish.ts';
import type { OpticalSurface, Volume } from '../../../src/materials/surface.ts';
import type { SetModel } from '../../../src/scene/setModel.ts';

/** One marked region: pixels x0 x1 y0 y1 from the top left, end excluded, and the reference means. */
export interface Region {
  readonly name: string;
  readonly box: readonly [number, number, number, number];
  readonly mean: Vec3;
}

export interface TabletopVariant {
  readonly file: string;
  readonly backdrop: Vec3;
  readonly absorptionPerM: Vec3;
  readonly regions: readonly Region[];
}

const region = (name: string, box: [number, number, number, number], mean: Vec3): Region => ({ name, box, mean });
const grey = (v: number): Vec3 => [v, v, v];

export const TABLETOP_N: TabletopVariant = {
  file: 'tabletop-n.pfm',
  backdrop: [0.4, 0.4, 0.4],
  absorptionPerM: [8, 8, 8],
  regions: [
    region('backdrop left', [15, 85, 20, 90], grey(0.09538)),
    region('backdrop right', [170, 240, 20, 90], grey(0.09348)),
    region('base left', [10, 90, 150, 240], grey(0.02795)),
    region('base front right', [165, 245, 200, 250], grey(0.02266)),
    region('glass above the drink', [106, 150, 92, 105], grey(0.07115)),
    region('drink upper', [108, 148, 122, 150], grey(0.0192)),
    region('drink lower', [108, 148, 150, 180], grey(0.01811)),
    region('glass floor', [106, 150, 186, 198], grey(1.13108)),
    region('reflection in base', [108, 148, 215, 250], grey(0.01231)),
    region('whole image', [0, 256, 0, 256], grey(0.06652)),
  ],
};

export const TABLETOP_A: TabletopVariant = {
  file: 'tabletop-a.pfm',
  backdrop: [0.5, 0.35, 0.3],
  absorptionPerM: [2, 8, 25],
  regions: [
    region('backdrop left', [15, 85, 20, 90], [0.11923, 0.08342, 0.0715]),
    region('backdrop right', [170, 240, 20, 90], [0.11683, 0.08175, 0.07007]),
    region('base left', [10, 90, 150, 240], [0.03438, 0.02472, 0.02151]),
    region('base front right', [165, 245, 200, 250], [0.02789, 0.02007, 0.01746]),
    region('glass above the drink', [106, 150, 92, 105], [0.08902, 0.06226, 0.05329]),
    region('drink upper', [108, 148, 122, 150], [0.03292, 0.01665, 0.00459]),
    region('drink lower', [108, 148, 150, 180], [0.03118, 0.01577, 0.00432]),
    region('glass floor', [106, 150, 186, 198], [1.40946, 1.11547, 0.62325]),
    region('reflection in base', [108, 148, 215, 250], [0.02063, 0.01072, 0.00368]),
    region('whole image', [0, 256, 0, 256], [0.08364, 0.05938, 0.04739]),
  ],
};

/** The scene of README.md in this folder as exact surfaces. */
export function tabletopSet(variant: TabletopVariant): SetModel {
  const surfaces: OpticalSurface[] = [];
  const put = (
    role: string,
    shape: Shape,
    finish: Finish,
    extra: Partial<OpticalSurface> = {},
    worldFromLocal: RigidTransform = IDENTITY,
  ) => surfaces.push({ recordId: role, role, shape, worldFromLocal, finish, ...extra });
  put(
    'base',
    { type: 'quad', originM: [-0.6, 0, 0.6], edgeUM: [1.2, 0, 0], edgeVM: [0, 0, -1.2] },
    { type: 'gloss', reflectanceRgb: [0.01, 0.01, 0.01], coatIndex: 1.49, roughness: 0 },
  );
  put(
    'backdrop',
    { type: 'quad', originM: [-1.5, -0.5, -0.8], edgeUM: [3, 0, 0], edgeVM: [0, 2.5, 0] },
    { type: 'matte', reflectanceRgb: [...variant.backdrop] },
  );
  const line = (r0M: number, y0M: number, r1M: number, y1M: number): Shape => ({
    type: 'revolvedLine',
    r0M,
    y0M,
    r1M,
    y1M,
  });
  const clear: Finish = { type: 'clear', roughness: 0 };
  const glass = { backVolume: 'glass' };
  const wet = { backVolume: 'glass', frontVolume: 'water' };
  put('glass underside', line(0, 0.0005, 0.035, 0.0005), clear, glass);
  put('glass outside', line(0.035, 0.0005, 0.035, 0.14), clear, glass);
  put('glass rim', line(0.035, 0.14, 0.0325, 0.14), clear, glass);
  put('glass inside, dry', line(0.0325, 0.14, 0.0325, 0.11), clear, glass);
  put('glass inside, wet', line(0.0325, 0.11, 0.0325, 0.01), clear, wet);
  put('glass floor', line(0.0325, 0.01, 0, 0.01), clear, wet);
  put('water top', line(0.0325, 0.11, 0, 0.11), clear, { backVolume: 'water' });
  const panel = (id: string, side: number, centre: Vec3, aim: Vec3, nits: number) => {
    const h = side / 2;
    put(
      id,
      { type: 'quad', originM: [-h, -h, 0], edgeUM: [side, 0, 0], edgeVM: [0, side, 0] },
      { type: 'black' },
      { emission: { fixtureId: id, axialLuminanceNits: nits, profile: { type: 'lambert' } } },
      fromAim(centre, aim),
    );
  };
  panel('panel-1', 0.3, [0, 0.7, -0.45], [0, 0.1, 0], 20);
  panel('panel-2', 0.26, [-1.2, 1.2, 0.8], [0, 0.07, 0], 8.87574);
  const volume = (id: string, index: number, absorptionPerM: Vec3, priority: number): Volume => ({
    id,
    recordId: 'tumbler',
    medium: { index, absorptionPerM },
    priority,
  });
  return {
    surfaces,
    volumes: [volume('glass', 1.52, [0, 0, 0], 20), volume('water', 1.333, variant.absorptionPerM, 10)],
    layerFixtureIds: ['panel-1', 'panel-2'],
    boundsByRecord: new Map(),
    diagnostics: [],
  };
}

/** Pinhole, 20 degrees both ways. */
export function tabletopView(): CameraView {
  const originM: Vec3 = [0, 0.25, 0.9];
  const forward = normalize(sub([0, 0.09, 0], originM));
  const right = normalize(cross(forward, [0, 1, 0]));
  const tan = Math.tan((10 * Math.PI) / 180);
  return {
    originM,
    right,
    up: cross(right, forward),
    forward,
    tanHalfWidth: tan,
    tanHalfHeight: tan,
    apertureRadiusM: 0,
    focusDistanceM: 1,
  };
}
