import type { Grade } from '../../analysis/contracts.ts';
import './gradeMark.css';

export const GRADE_WORDS: Readonly<Record<Grade, string>> = {
  ok: 'Fine',
  note: 'Note',
  care: 'Take care',
  stop: 'Fix',
};

/** A grade by shape: a dash is fine, a ring is a note, a half disc wants care, a full square must be fixed. */
export function GradeMark({ grade }: { readonly grade: Grade }) {
  return (
    <svg className="kg-grade" data-grade={grade} viewBox="0 0 12 12" width="12" height="12" aria-hidden="true">
      {grade === 'ok' && <path d="M2.5 6h7" fill="none" stroke="currentColor" strokeWidth="1.5" />}
      {grade === 'note' && <circle cx="6" cy="6" r="3.6" fill="none" stroke="currentColor" strokeWidth="1.3" />}
      {grade === 'care' && (
        <>
          <circle cx="6" cy="6" r="4.1" fill="none" stroke="currentColor" strokeWidth="1.3" />
          <path d="M6 1.9a4.1 4.1 0 0 1 0 8.2z" fill="currentColor" />
        </>
      )}
      {grade === 'stop' && <rect x="1.5" y="1.5" width="9" height="9" fill="currentColor" />}
    </svg>
  );
}
