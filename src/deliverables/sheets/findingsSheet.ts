import type { Finding } from '../../analysis/contracts.ts';
import type { FrameSet } from '../frameSet.ts';
import type { Cell, Table } from './table.ts';

/** All findings of the checks, of all frames, in the order that the checks give them. */
export function findingsSheet(frames: readonly FrameSet[], findings: readonly (readonly Finding[])[]): Table {
  return {
    id: 'findings',
    title: 'Findings of the checks',
    columns: [
      { title: 'Frame', share: 14 },
      { title: 'Grade', share: 7 },
      { title: 'Check', share: 11 },
      { title: 'Subject', share: 16 },
      { title: 'Figure', digits: 4, share: 9 },
      { title: 'Limit', digits: 4, share: 9 },
      { title: 'Unit', share: 18 },
      { title: 'Finding', share: 50 },
      { title: 'Remedy', share: 30 },
      { title: 'In frame, right', digits: 3, share: 8 },
      { title: 'In frame, down', digits: 3, share: 8 },
      { title: 'Id', share: 20 },
    ],
    rows: frames.flatMap(({ frame, scene }, i): Cell[][] => {
      const names = new Map(
        [...scene.pieces, ...scene.fixtures, ...scene.grip].map(({ id, name }) => [id, name] as const),
      );
      return (findings[i] ?? []).map((finding): Cell[] => [
        frame.name,
        finding.grade,
        finding.check,
        names.get(finding.subject) ?? finding.subject,
        finding.value,
        finding.limit,
        finding.unit,
        finding.summary,
        finding.remedies[0]?.label ?? '',
        finding.where.frame?.u ?? null,
        finding.where.frame?.v ?? null,
        finding.id,
      ]);
    }),
    notes: ['Places in the frame count from its upper left corner, 0 to 1.'],
  };
}
