import { distance, type Vec3 } from '../core/vec3.ts';
import { photometryFromFixture } from '../fixtures/photometry.ts';
import type { Fixture } from '../fixtures/records.ts';
import type { Finding, Grade } from './contracts.ts';
import type { FrameStudy } from './frameStudy.ts';
import { DEFAULT_ROOM } from './limits.ts';
import { pointInFrame } from './places/inFrame.ts';
import { BOOM_KG, boomReachM, counterweightKg, momentNm, typicalMassKg, WEIGHT_ARM_M } from './rigging/boom.ts';
import { currentA, type Load, layOnCircuits } from './rigging/circuits.ts';
import { lengthWords, nameOfRecord, percentWords } from './words.ts';

/** Lumens per watt of mains that an LED light is taken to give when its record states no power. Typical, no source. */
const ASSUMED_LM_PER_W = 100;
const POWER_FACTOR = 0.9;
/** A boom shorter than this is an arm of the stand. */
const LEAST_BOOM_M = 0.3;
/** Lights from this power on are worth a word where something stands near. */
const WARM_W = 60;
const NEAR_M = 0.3;
const DEFER = 'Local rules and licensed people decide.';
const WET = 'Keep supplies, dimmers and joints off the wet surface, behind an RCD or GFCI.';

/**
 * What must be plugged in and weighed down: load on the circuits, reach and moment of booms, things close to warm lamps.
 * Cautions only; local code and licensed people decide.
 */
export function checkPowerAndRigging(study: FrameStudy): { findings: Finding[]; figures: Record<string, unknown> } {
  const { scene, room = DEFAULT_ROOM, limits } = study.input;
  const loads = scene.fixtures
    .filter(({ on }) => on)
    .map((fixture): Load & { readonly isAssumed: boolean } => {
      const powerW = powerOf(fixture);
      return {
        id: fixture.id,
        powerW,
        currentA: currentA(powerW, room.mainsV, POWER_FACTOR),
        isAssumed: fixture.powerW === undefined,
      };
    });
  const circuits = layOnCircuits(loads, room.circuitA, limits.circuitCareShare);
  const booms = findBooms(study);
  const findings = [
    ...(loads.length > 0 ? [powerFinding(study, loads, circuits)] : []),
    ...booms.filter(({ reachM }) => reachM >= LEAST_BOOM_M).map((boom) => boomFinding(study, boom)),
    ...nearFindings(study),
  ];
  return {
    findings,
    figures: {
      totalPowerW: loads.reduce((sum, { powerW }) => sum + powerW, 0),
      totalCurrentA: loads.reduce((sum, load) => sum + load.currentA, 0),
      mainsV: room.mainsV,
      circuitA: room.circuitA,
      powerFactor: POWER_FACTOR,
      circuits: circuits.map((circuit, i) => ({
        name: `circuit ${i + 1}`,
        currentA: circuit.currentA,
        lights: circuit.loads.map(({ id }) => nameOfRecord(scene, id)).join(', '),
      })),
      loads: loads.map(({ id, powerW, currentA: amps, isAssumed }) => ({
        fixtureId: id,
        powerW,
        currentA: amps,
        ...(isAssumed ? { power: 'assumed, 100 lm per watt' } : {}),
      })),
      booms: booms
        .filter(({ reachM }) => reachM >= LEAST_BOOM_M)
        .map(({ id, massKg, reachM }) => ({
          id,
          massKg,
          reachM,
          momentNm: momentNm(massKg, reachM),
          counterweightKg: counterweightKg(massKg, reachM),
        })),
    },
  };
}

/** Mains draw at full, W: as stated, else from its lumens. */
const powerOf = (fixture: Fixture): number =>
  fixture.powerW ?? photometryFromFixture(fixture).fluxLm / ASSUMED_LM_PER_W;

function powerFinding(
  study: FrameStudy,
  loads: readonly (Load & { readonly isAssumed: boolean })[],
  circuits: ReturnType<typeof layOnCircuits>,
): Finding {
  const { scene, limits, room = DEFAULT_ROOM } = study.input;
  const totalA = loads.reduce((sum, load) => sum + load.currentA, 0);
  const totalW = loads.reduce((sum, { powerW }) => sum + powerW, 0);
  const largest = loads.reduce((most, load) => (load.currentA > most.currentA ? load : most));
  const value = totalA / room.circuitA;
  const isTooLarge = largest.currentA > room.circuitA;
  const grade: Grade = isTooLarge ? 'stop' : circuits.length > 1 ? 'care' : 'ok';
  const assumed = loads.some(({ isAssumed }) => isAssumed) ? ', some of it assumed from their lumens' : '';
  const draw =
    `${loads.length === 1 ? '1 light draws' : `${loads.length} lights draw`} ${Math.round(totalW)} W at full${assumed}, ` +
    `${totalA.toFixed(1)} A at ${room.mainsV} V`;
  const plan = isTooLarge
    ? `${nameOfRecord(scene, largest.id)} alone is more than a ${room.circuitA} A circuit carries`
    : circuits.length > 1
      ? `spread them over ${circuits.length} circuits of ${room.circuitA} A (${circuits
          .map(({ loads: own }) => own.map(({ id }) => nameOfRecord(scene, id)).join(', '))
          .join('; ')})`
      : `one circuit of ${room.circuitA} A carries them at ${percentWords(value)}`;
  return {
    id: 'powerAndRigging:power',
    check: 'powerAndRigging',
    grade,
    subject: largest.id,
    value,
    unit: 'share of one circuit',
    limit: limits.circuitCareShare,
    summary: `${draw}: ${plan}. ${WET} ${DEFER}`,
    where: { pointM: scene.fixtures.find(({ id }) => id === largest.id)?.positionM ?? [0, 0, 0] },
    remedies: [],
  };
}

const SHEETS: ReadonlySet<string> = new Set(['flag', 'bounceCard', 'diffusionFrame']);
const ON_TABLE_M = 0.08;

interface Boom {
  readonly id: string;
  readonly positionM: Vec3;
  readonly massKg: number;
  readonly reachM: number;
}

/** Everything on a stand that can't stand right under itself. Lamps that stand in the picture stand on the set. */
function findBooms({ input }: FrameStudy): Boom[] {
  const { scene } = input;
  return (
    [...scene.fixtures, ...scene.grip]
      .filter(({ kind }) => kind !== 'bulb' && kind !== 'lantern')
      // A card that reaches down to the table stands on it.
      .filter(({ id, kind }) => !SHEETS.has(kind) || (input.set.boundsByRecord.get(id)?.minM[1] ?? 1) > ON_TABLE_M)
      .map((record) => ({
        id: record.id,
        positionM: record.positionM,
        massKg: typicalMassKg(record),
        reachM: boomReachM(input, record.positionM),
      }))
  );
}

function boomFinding(study: FrameStudy, { id, positionM, massKg, reachM }: Boom): Finding {
  const { scene, limits, view } = study.input;
  const value = momentNm(massKg, reachM);
  const weight = counterweightKg(massKg, reachM);
  return {
    id: `powerAndRigging:boom:${id}`,
    check: 'powerAndRigging',
    grade: value >= limits.boomCareNm ? 'care' : 'note',
    subject: id,
    value,
    unit: 'N m on the stand',
    limit: limits.boomCareNm,
    summary:
      `${nameOfRecord(scene, id)}, about ${massKg.toFixed(1)} kg, hangs ${reachM.toFixed(2)} m from where a stand can be: about ` +
      `${weight.toFixed(1)} kg at ${WEIGHT_ARM_M} m balance it, a boom of ${BOOM_KG} kg counted. Tie a safety bond and sandbag the stand. ${DEFER}`,
    where: {
      pointM: positionM,
      ...pointInFrame(view, positionM),
      raysM: [[positionM, [positionM[0], 0, positionM[2]]]],
    },
    remedies: [],
  };
}

/** Warm lamps with something else close to what shines. */
function nearFindings({ input }: FrameStudy): Finding[] {
  const { scene, set, view } = input;
  return scene.fixtures
    .filter((fixture) => fixture.on && powerOf(fixture) >= WARM_W)
    .flatMap((fixture): Finding[] => {
      const others = [...scene.pieces, ...scene.grip].flatMap(({ id }) => {
        const bounds = set.boundsByRecord.get(id);
        if (!bounds) return [];
        const nearest: Vec3 = [
          Math.min(bounds.maxM[0], Math.max(bounds.minM[0], fixture.positionM[0])),
          Math.min(bounds.maxM[1], Math.max(bounds.minM[1], fixture.positionM[1])),
          Math.min(bounds.maxM[2], Math.max(bounds.minM[2], fixture.positionM[2])),
        ];
        return [{ id, nearest, gapM: distance(nearest, fixture.positionM) }];
      });
      const near = others.filter(({ gapM }) => gapM < NEAR_M).sort((a, b) => a.gapM - b.gapM)[0];
      if (!near) return [];
      return [
        {
          id: `powerAndRigging:near:${fixture.id}`,
          check: 'powerAndRigging',
          grade: 'note',
          subject: fixture.id,
          value: near.gapM,
          unit: 'm from the lamp',
          limit: null,
          summary:
            `${nameOfRecord(scene, near.id)} stands ${lengthWords(near.gapM)} from ${fixture.name}: keep the distance that is marked on ` +
            `the lamp. ${DEFER}`,
          where: {
            pointM: near.nearest,
            ...pointInFrame(view, near.nearest),
            raysM: [[fixture.positionM, near.nearest]],
          },
          remedies: [],
        },
      ];
    });
}
