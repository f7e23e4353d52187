import { distance, type Vec3 } from '../../core/vec3.ts';
import { describeFittings, describeLevel } from '../../fixtures/describe.ts';
import type { Fixture } from '../../fixtures/records.ts';
import type { FrameSet } from '../frameSet.ts';
import { depthWords, type LengthUnits, lengthWords, sideWords } from '../plan/lengthWords.ts';
import { recordMarks } from '../plan/recordMarks.ts';

const MOVED_M = 0.0005;

interface Placed {
  readonly id: string;
  readonly name: string;
  readonly positionM: Vec3;
  readonly aimM?: Vec3;
}

/** What the crew changes on the set between one frame and the next, a sentence each. */
export function frameChanges(from: FrameSet, to: FrameSet, lengths?: LengthUnits): string[] {
  const marks = recordMarks(to.setup);
  const called = ({ id, name }: Placed): string => (marks.has(id) ? `${marks.get(id)} ${name}` : name);
  const subjectM = to.scene.subject.meterPointM;
  const all = ({ scene }: FrameSet): Placed[] => [...scene.pieces, ...scene.grip, ...scene.fixtures];
  const before = new Map(all(from).map((record) => [record.id, record]));
  const after = new Map(all(to).map((record) => [record.id, record]));
  const out = all(from)
    .filter(({ id }) => !after.has(id))
    .map((record) => `Take out ${called(record)}.`);
  const changed = all(to).flatMap((record): string[] => {
    const old = before.get(record.id);
    if (!old) return [`Bring in ${called(record)}.`];
    if (JSON.stringify(old) === JSON.stringify(record)) return [];
    const said: string[] = [];
    if (distance(old.positionM, record.positionM) > MOVED_M) {
      const [x, y, z] = record.positionM;
      said.push(
        `Move ${called(record)} to ${sideWords(x - subjectM[0], lengths)}, ${depthWords(z - subjectM[2], lengths)}, ${lengthWords(y, lengths)} over the table.`,
      );
    }
    if (old.aimM && record.aimM && distance(old.aimM, record.aimM) > MOVED_M) {
      said.push(`Aim ${called(record)} at a point ${lengthWords(record.aimM[1], lengths)} over the table.`);
    }
    const [light, oldLight] = [findLight(to, record.id), findLight(from, record.id)];
    if (light && oldLight) said.push(...lightChanges(called(record), oldLight, light));
    return said.length > 0 ? said : [`Change ${called(record)} as the setup says.`];
  });
  return [...out, ...changed];
}

const findLight = ({ scene }: FrameSet, id: string): Fixture | undefined =>
  scene.fixtures.find((fixture) => fixture.id === id);

function lightChanges(called: string, from: Fixture, to: Fixture): string[] {
  const said: string[] = [];
  if (describeLevel(from) !== describeLevel(to)) said.push(`Set ${called} to ${describeLevel(to)}.`);
  if (from.cctK !== to.cctK || from.duv !== to.duv) said.push(`Set ${called} to ${to.cctK} K.`);
  const [old, now] = [describeFittings(from).join(', '), describeFittings(to).join(', ')];
  if (old !== now) said.push(`Fit ${called} with ${now || 'nothing'}.`);
  return said;
}
