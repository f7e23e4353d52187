import { findArrangementIssues } from './arrangement.ts';
import { type FieldPath, makeIssue, type SetupIssue, showValue } from './issues.ts';
import { resolveOverride } from './overrides.ts';
import { RECORD_LIST_NAMES, type RecordBase } from './records.ts';
import { type Frame, LIST_LIMITS, type Setup } from './setup.ts';

/** What no schema of a single record can see: ids given twice, references to what is not there, bad overrides. */
export function findIntegrityIssues(setup: Setup): SetupIssue[] {
  return [
    ...findLimitIssues(setup),
    ...findDuplicateIds(setup),
    ...findReferenceIssues(setup),
    ...setup.frames.flatMap((frame, i) => findFrameIssues(setup, frame, i)),
    ...findArrangementIssues(setup),
  ];
}

/** For setups that grew by changes and did not pass the schema as a whole. */
function findLimitIssues(setup: Setup): SetupIssue[] {
  const issues = (['pieces', 'fixtures', 'grip', 'frames'] as const)
    .filter((list) => setup[list].length > LIST_LIMITS[list])
    .map((list) => makeIssue([list], `must have at most ${LIST_LIMITS[list]} entries; it has ${setup[list].length}`));
  return setup.frames.length > 0 ? issues : [...issues, makeIssue(['frames'], 'must have at least 1 entry; it has 0')];
}

function findDuplicateIds(setup: Setup): SetupIssue[] {
  const firstPathById = new Map<string, string>();
  return (['pieces', 'fixtures', 'grip', 'frames'] as const).flatMap((list) =>
    setup[list].flatMap((record: RecordBase, i) => {
      const first = firstPathById.get(record.id);
      if (first === undefined) firstPathById.set(record.id, `${list}[${i}]`);
      return first === undefined
        ? []
        : [makeIssue([list, i, 'id'], `${showValue(record.id)} is taken by ${first}; give it another`, record)];
    }),
  );
}

function findReferenceIssues(setup: Setup): SetupIssue[] {
  const pieceIds = new Set(setup.pieces.map((piece) => piece.id));
  const missing = (path: FieldPath, id: string, mend: string): SetupIssue[] =>
    pieceIds.has(id) ? [] : [makeIssue(path, `names ${showValue(id)}, which is not among the pieces; ${mend}`)];
  return [
    ...missing(['subject', 'pieceId'], setup.subject.pieceId, 'give the id of the hero'),
    ...(setup.turntable?.carries ?? []).flatMap((id, i) =>
      missing(['turntable', 'carries', i], id, 'give the id of a piece or leave it out'),
    ),
  ];
}

function findFrameIssues(setup: Setup, frame: Frame, index: number): SetupIssue[] {
  const known = new Set(RECORD_LIST_NAMES.flatMap((list) => setup[list].map((record: RecordBase) => record.id)));
  const hidden = frame.hidden.flatMap((id, i) =>
    known.has(id)
      ? []
      : [
          makeIssue(
            ['frames', index, 'hidden', i],
            `names ${showValue(id)}, which is not in this setup; leave it out`,
            frame,
          ),
        ],
  );
  const seen = new Set<string>();
  const overrides = frame.overrides.flatMap((override, i) => {
    const path: FieldPath = ['frames', index, 'overrides', i];
    if (seen.has(override.id)) {
      return [makeIssue([...path, 'id'], `${showValue(override.id)} is given twice; join the two patches`, frame)];
    }
    seen.add(override.id);
    return findOverrideIssues(setup, override, path, frame);
  });
  return [...hidden, ...overrides];
}

function findOverrideIssues(
  setup: Setup,
  override: Frame['overrides'][number],
  path: FieldPath,
  frame: Frame,
): readonly SetupIssue[] {
  const resolved = resolveOverride(setup, override, { path: [...path, 'patch'], label: frame });
  if (resolved === null) {
    const what = `names ${showValue(override.id)}, which is not among the ${override.collection}; leave it out`;
    return [makeIssue([...path, 'id'], what, frame)];
  }
  return resolved.ok ? [] : resolved.error;
}
