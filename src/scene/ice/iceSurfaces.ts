import { compose, type RigidTransform, translation } from '../../core/rigid.ts';
import type { Finish } from '../../materials/finish.ts';
import { refractiveIndex } from '../../materials/indexTables.ts';
import type { Medium, OpticalSurface, Volume } from '../../materials/surface.ts';
import { meshOfSolid } from '../parts/convexSolid.ts';
import { ballShape } from '../parts/rod.ts';
import { turnedParts } from '../parts/solidPart.ts';
import { ICE_CORE_PRIORITY, ICE_PRIORITY } from '../priorities.ts';
import { arcAbout, lineBetween, profilePoint } from '../profile/index.ts';
import type { Ice, IceForm } from '../records.ts';
import { type BoxPart, buildRoundedBox } from '../roundedBox.ts';
import type { IceBody } from './iceBody.ts';
import type { PackedIce } from './packIce.ts';

export const ICE_INDEX = refractiveIndex('ice');
/** Clear ice made in one direction; per metre in R, G, B. Invented: blue-green of deep ice with a trace of cloud. */
export const ICE_ABSORPTION_PER_M = [0.1, 0.05, 0.03] as const;
/**
 * Cloud of ice from an ordinary freezer: thin in most of the piece, thick in the middle where the last water froze.
 * Scattering per metre at full cloudiness, even all round, and the share of the half edges that it takes. Invented.
 */
const CLOUDS = [
  { name: 'haze', perM: 45, share: 0.9 },
  { name: 'core', perM: 260, share: 0.5 },
] as const;

const CLEAR: Finish = { type: 'clear', roughness: 0 };
/**
 * Faces along which ice has broken are dull in the air; under drink, which fills their unevenness, they are all but clear. GGX
 * alpha, invented, by eye.
 */
const BROKEN_ROUGHNESS: Partial<Record<IceForm, number>> = { cracked: 0.1, crushed: 0.2 };

export const iceVolumeId = (recordId: string): string => `${recordId}:ice`;
const cloudVolumeId = (recordId: string, name: string): string => `${recordId}:ice-${name}`;

/** Faces of packed ice, roles 'ice 1 top', 'ice 1 core'; cloud is a body of its own inside the ice, of the same index. */
export function iceSurfaces(
  recordId: string,
  ice: Ice,
  pieces: readonly PackedIce[],
  worldFromGlass: RigidTransform,
): { surfaces: OpticalSurface[]; volumes: Volume[] } {
  if (pieces.length === 0) return { surfaces: [], volumes: [] };
  const cloud = ice.cloudyCore ?? 0;
  const roughness = BROKEN_ROUGHNESS[ice.form ?? 'cube'];
  const outer: Finish = roughness === undefined ? CLEAR : { type: 'clear', roughness };
  const surfaces = pieces.flatMap(({ body, placement }, n) => {
    const frame = compose(worldFromGlass, placement);
    const own = (parts: readonly BoxPart[], backVolume: string, name: string): OpticalSurface[] =>
      parts.map((side) => ({
        recordId,
        ...side,
        role: `ice ${n + 1} ${name === '' ? side.role : name}`,
        finish: name === '' ? outer : CLEAR,
        backVolume,
      }));
    return [
      ...own(outerParts(body, frame), iceVolumeId(recordId), ''),
      ...(cloud > 0
        ? CLOUDS.flatMap(({ name, share }) => own(coreParts(body, frame, share), cloudVolumeId(recordId, name), name))
        : []),
    ];
  });
  const volumes: Volume[] = [
    {
      id: iceVolumeId(recordId),
      recordId,
      medium: { index: ICE_INDEX, absorptionPerM: ICE_ABSORPTION_PER_M },
      priority: ICE_PRIORITY,
    },
  ];
  if (cloud > 0) {
    CLOUDS.forEach(({ name, perM }, k) => {
      const medium = cloudMedium(cloud * perM);
      volumes.push({ id: cloudVolumeId(recordId, name), recordId, medium, priority: ICE_CORE_PRIORITY + k });
    });
  }
  return { surfaces, volumes };
}

const cloudMedium = (perM: number): Medium => ({
  index: ICE_INDEX,
  absorptionPerM: ICE_ABSORPTION_PER_M,
  scatteringPerM: [perM, perM, perM],
});

function outerParts({ halfM, bevelM, broken }: IceBody, frame: RigidTransform): BoxPart[] {
  if (broken) return [{ role: 'faces', shape: meshOfSolid(broken), worldFromLocal: frame }];
  if (Math.max(...halfM) - bevelM < 1e-9) return [{ role: 'ball', shape: ballShape(bevelM), worldFromLocal: frame }];
  return buildRoundedBox(halfM, bevelM, frame);
}

/** A ball, or for long pieces a ball drawn out along y. */
function coreParts({ halfM, broken }: IceBody, frame: RigidTransform, cloudShare: number): BoxPart[] {
  // Broken ice is struck off near its middle: its faces stay over 0.44 of its half edges.
  const share = (broken ? 0.48 : 1) * cloudShare;
  const radiusM = share * Math.min(...halfM);
  const reachM = share * halfM[1] - radiusM;
  if (reachM < 1e-4) return [{ role: 'core', shape: ballShape(radiusM), worldFromLocal: frame }];
  const low = arcAbout(profilePoint(0, radiusM), radiusM, -Math.PI / 2, 0);
  const high = arcAbout(profilePoint(0, radiusM + 2 * reachM), radiusM, 0, Math.PI / 2);
  return turnedParts(
    'core',
    [low, lineBetween(low.to, high.from), high],
    compose(frame, translation([0, -radiusM - reachM, 0])),
  );
}
