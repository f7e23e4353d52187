import { add, addScaled, normalize, scale, type Vec3 } from '../core/vec3.ts';
import { buildFixture } from '../fixtures/buildFixture.ts';
import { buildGrip } from '../fixtures/buildGrip.ts';
import type { OpticalSurface } from '../materials/surface.ts';
import type { Finding, RecordChange, Remedy } from './contracts.ts';
import { type FamilyClearance, familyClearance } from './family/clearance.ts';
import { cornerRays, type FamilyOfAngles, familiesOfAngles, polygonInFamily } from './family/familyOfAngles.ts';
import { outlineInFrame } from './places/inFrame.ts';
import { facePolygon } from './specular/facePolygons.ts';
import type { FrameStudy } from './study.ts';
import { nameOfRecord, surfaceWords } from './words.ts';

/** Faces that are reported, largest first. */
const MOST_FAMILIES = 2;
const RAY_M = 1.5;
const MARGIN_M = 0.01;
const LONGEST_MOVE_M = 3;
const LOWEST_M = 0.1;

/** A light, card or cloth and how it stands to one family. */
interface Standing {
  readonly recordId: string;
  readonly clearance: FamilyClearance;
}

/**
 * Where lights may stand so that a mirror-like surface does not show them: the region that each mirrors into the frame,
 * and how far every light, card and cloth stands outside it or how deep inside.
 */
export function checkFamilyOfAngles(
  study: FrameStudy,
  { remedies = true }: { readonly remedies?: boolean } = {},
): { findings: Finding[]; figures: Record<string, unknown> } {
  const { scene, limits } = study.input;
  const families = familiesOfAngles(study.input).slice(0, MOST_FAMILIES);
  const findings: Finding[] = [];
  const reported = new Set<string>();
  const surfaces: { name: string; frameShare: number; clearanceM: Record<string, number> }[] = [];
  for (const family of families) {
    const standings = standingsOf(study, family);
    const words = surfaceWords(scene, family.recordId);
    surfaces.push({
      name: words,
      frameShare: family.share,
      clearanceM: Object.fromEntries(standings.map(({ recordId, clearance }) => [recordId, clearance.distanceM])),
    });
    const worst = standings[0];
    if (!worst || reported.has(family.recordId)) continue;
    reported.add(family.recordId);
    const { distanceM } = worst.clearance;
    const isClear = distanceM >= limits.familyClearanceM;
    findings.push({
      id: `familyOfAngles:${family.recordId}`,
      check: 'familyOfAngles',
      grade: isClear ? 'ok' : 'note',
      subject: worst.recordId,
      value: distanceM,
      unit: 'm outside what it mirrors',
      limit: limits.familyClearanceM,
      summary: sentence(nameOfRecord(scene, worst.recordId), words, distanceM),
      where: {
        ...outlineInFrame(study.input.view, family.visibleM),
        pointM: meanOf(family.visibleM),
        raysM: cornerRays(family, RAY_M).map(([from, to]) => [study.input.view.originM, from, to]),
      },
      remedies: remedies && distanceM < 0 ? moveOut(study, family, worst) : [],
    });
  }
  return { findings, figures: { surfaces } };
}

function sentence(name: string, surface: string, distanceM: number): string {
  const size = `${Math.abs(distanceM).toFixed(2)} m`;
  if (distanceM < 0)
    return `${name} stands ${size} inside the family of angles of the ${surface}: it is mirrored to the lens.`;
  return `${name} is nearest to the family of angles of the ${surface}, ${size} outside it.`;
}

/** Every light that is on, every card and cloth, the one deepest inside first. */
function standingsOf(study: FrameStudy, family: FamilyOfAngles): Standing[] {
  const { set, scene } = study.input;
  const gripIds = new Set(scene.grip.map(({ id }) => id));
  const standings = new Map<string, FamilyClearance>();
  set.surfaces.forEach((surface, i) => {
    const shines = study.light.sourceOfSurface[i] >= 0;
    const scatters = gripIds.has(surface.recordId) && study.table.bounces[i] === 1;
    if (!shines && !scatters) return;
    const cornersM = facePolygon(surface, family.apexM, scatters);
    if (cornersM.length < 3) return;
    const clearance = familyClearance(family, cornersM);
    const known = standings.get(surface.recordId);
    if (!known || clearance.distanceM < known.distanceM) standings.set(surface.recordId, clearance);
  });
  return [...standings]
    .map(([recordId, clearance]) => ({ recordId, clearance }))
    .sort((a, b) => a.clearance.distanceM - b.clearance.distanceM || (a.recordId < b.recordId ? -1 : 1));
}

/**
 * The smallest move in any direction, aim kept. As the light turns to keep its aim its outline changes, so the move is
 * lengthened until the outline that it then has lies outside.
 */
function moveOut(study: FrameStudy, family: FamilyOfAngles, { recordId, clearance }: Standing): Remedy[] {
  const { scene, limits } = study.input;
  const fixture = scene.fixtures.find(({ id }) => id === recordId);
  const item = scene.grip.find(({ id }) => id === recordId);
  const record = fixture ?? item;
  if (!record) return [];
  const surfacesAt = (positionM: Vec3): OpticalSurface[] =>
    fixture
      ? buildFixture({ ...fixture, positionM: [...positionM] }).filter(({ emission }) => emission)
      : item
        ? buildGrip({ ...item, positionM: [...positionM] }).filter(({ finish }) => finish.type !== 'black')
        : [];
  const startM = limits.familyClearanceM + MARGIN_M - clearance.distanceM;
  for (let distanceM = startM; distanceM <= LONGEST_MOVE_M; distanceM *= 1.15) {
    const positionM = addScaled(record.positionM, clearance.outward, distanceM);
    if (positionM[1] < LOWEST_M) return [];
    const isOut = surfacesAt(positionM).every((surface) => {
      const cornersM = facePolygon(surface, family.apexM, !fixture);
      return cornersM.length < 3 || polygonInFamily(family, cornersM).length < 3;
    });
    if (!isOut) continue;
    const patch = { positionM: positionM.map((v) => Math.round(v * 1e3) / 1e3) };
    const changes: RecordChange[] = [{ op: 'update', collection: fixture ? 'fixtures' : 'grip', id: recordId, patch }];
    return [
      { label: `Move ${record.name} ${distanceM.toFixed(2)} m ${directionWords(study, clearance.outward)}`, changes },
    ];
  }
  return [];
}

/** 'up and back' as seen from the camera; the one or two largest parts. */
export function directionWords({ input: { view } }: FrameStudy, direction: Vec3): string {
  const level = normalize([view.forward[0], 0, view.forward[2]]);
  const right = normalize([view.right[0], 0, view.right[2]]);
  const dotOf = (a: Vec3): number => a[0] * direction[0] + a[1] * direction[1] + a[2] * direction[2];
  const parts: readonly (readonly [number, string, string])[] = [
    [direction[1], 'up', 'down'],
    [dotOf(level), 'back', 'toward the camera'],
    [dotOf(right), 'to camera right', 'to camera left'],
  ];
  return [...parts]
    .sort((a, b) => Math.abs(b[0]) - Math.abs(a[0]))
    .filter(([size], i) => i === 0 || Math.abs(size) > 0.35)
    .slice(0, 2)
    .map(([size, positive, negative]) => (size > 0 ? positive : negative))
    .join(' and ');
}

const meanOf = (pointsM: readonly Vec3[]): Vec3 =>
  scale(
    pointsM.reduce<Vec3>((sum, p) => add(sum, p), [0, 0, 0]),
    1 / Math.max(1, pointsM.length),
  );
