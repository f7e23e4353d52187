import { findHighlight, type Highlight, lightForHighlight } from '../../../analysis/solvers/followHighlight.ts';
import { findShadow, lightForShadow, type ShadowGrip } from '../../../analysis/solvers/followShadow.ts';
import { rayThrough } from '../../../camera/projection.ts';
import { add, sub, type Vec3 } from '../../../core/vec3.ts';
import type { DocumentChange } from '../../../document/changes.ts';
import type { Fixture } from '../../../fixtures/records.ts';
import { getSelection } from '../../arrange/index.ts';
import { type Hold, holdTogether, moveChanges } from '../../drawing/moveRecord.ts';
import { getCameraView, getFrameScene, getSetModel, sessionStore, updateRecord } from '../../session/index.ts';
import { meetLevel } from '../../stage/stageMove.ts';
import { getFrameQuery } from '../frameQuery.ts';
import { pickRecordInFrame } from '../pickRecordInFrame.ts';

/** What a hand can take hold of at a place of the frame. */
export type FrameGrip =
  | { readonly kind: 'highlight'; readonly fixture: Fixture; readonly at: Highlight }
  | { readonly kind: 'shadow'; readonly fixture: Fixture; readonly at: ShadowGrip }
  | { readonly kind: 'piece'; readonly name: string; readonly hold: Hold; readonly fromM: Vec3 };

/** Highlights on glass are thin: the pointer need not be quite on one. Share of the frame's width. */
const REACH = [0, -0.003, 0.003, -0.006, 0.006];

/** A highlight first, then what is selected, then the shadow of the selected light, or of the only one that burns. */
export function gripInFrame(u: number, v: number): FrameGrip | null {
  const query = getFrameQuery();
  if (query === null) return null;
  const [scene, set, view] = [getFrameScene(), getSetModel(), getCameraView()];
  if (query.world.surfaceNames.length !== set.surfaces.length) return null;
  for (const du of REACH) {
    const at = findHighlight(query, set, view, u + du, v);
    const fixture = at && scene.fixtures.find(({ id, on }) => id === at.fixtureId && on);
    if (at && fixture) return { kind: 'highlight', fixture, at };
  }
  const selected = getSelection();
  const seenId = pickRecordInFrame(u, v);
  const hold = seenId !== null && selected.includes(seenId) ? holdTogether(scene, seenId, selected) : null;
  if (hold?.collection === 'pieces' && !isGround(seenId)) {
    const fromM = meetLevel(rayThrough(view, u, v), hold.positionM[1]);
    const name = scene.pieces.find(({ id }) => id === seenId)?.name ?? '';
    if (fromM) return { kind: 'piece', name, hold, fromM };
  }
  const burning = scene.fixtures.filter(({ on }) => on);
  const fixture = burning.find(({ id }) => selected.includes(id)) ?? (burning.length === 1 ? burning[0] : undefined);
  const at = fixture && findShadow(query, set, view, [u, v], fixture);
  return fixture && at ? { kind: 'shadow', fixture, at } : null;
}

const GROUND: readonly string[] = ['tabletop', 'sweep', 'wall', 'sheet'];
const isGround = (pieceId: string | null): boolean =>
  GROUND.includes(getFrameScene().pieces.find(({ id }) => id === pieceId)?.kind ?? '');

/** Sets what is held to where the pointer is; none where nothing can be reached from there. */
export function changesForGrip(grip: FrameGrip, u: number, v: number): readonly DocumentChange[] {
  const query = getFrameQuery();
  if (query === null) return [];
  const [set, view] = [getSetModel(), getCameraView()];
  if (grip.kind === 'piece') {
    const toM = meetLevel(rayThrough(view, u, v), grip.hold.positionM[1]);
    if (!toM) return [];
    const placeM = roundM(add(grip.hold.positionM, sub(toM, grip.fromM)));
    return moveChanges(grip.hold, placeM, sessionStore.getState().frameId);
  }
  const placeM =
    grip.kind === 'highlight'
      ? lightForHighlight(query, set, view, [u, v], grip.at.distanceM)
      : lightForShadow(query, set, view, [u, v], grip.at);
  return placeM ? [updateRecord('fixtures', grip.fixture.id, { positionM: roundM(placeM) })] : [];
}

const roundM = (p: Vec3): Vec3 => [round(p[0]), round(p[1]), round(p[2])];
const round = (value: number): number => Number(value.toFixed(4)) + 0;
