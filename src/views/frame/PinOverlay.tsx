import { type KeyboardEvent, useMemo } from 'react';
import type { Finding } from '../../analysis/contracts.ts';
import { activateFinding, groupFindings, useFindings, useSession } from '../session/index.ts';
import { GRADE_WORDS } from '../theme/index.ts';
import './pins.css';
import { type PinPlace, placePins } from './placePins.ts';

interface PinOverlayProps {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Findings where they happen: numbered marks over the picture, the active one with its outline and a leader. */
export function PinOverlay({ widthPx, heightPx }: PinOverlayProps) {
  const findings = useFindings();
  const activeId = useSession((state) => state.activeFindingId);
  const pins = useMemo(() => {
    const numbered = groupFindings(findings)
      .flatMap((group) => group.findings)
      .filter(({ finding, number }) => number !== null || isNoteInFrame(finding) || finding.id === activeId);
    return placePins(numbered, widthPx, heightPx);
  }, [findings, activeId, widthPx, heightPx]);
  if (widthPx === 0 || heightPx === 0) return null;
  const active = pins.find((pin) => pin.finding.id === activeId);
  return (
    // biome-ignore lint/a11y/noSvgWithoutTitle: a title here would be the tip of every mark; each has its own.
    <svg className="kg-pins" viewBox={`0 0 ${widthPx} ${heightPx}`}>
      {active && <ActiveEvidence pin={active} widthPx={widthPx} heightPx={heightPx} />}
      {notesFirst(pins).map((pin) => (
        <PinMark key={pin.finding.id} pin={pin} active={pin.finding.id === activeId} />
      ))}
    </svg>
  );
}

/** Notes are marked where they are; those beside the frame only while they are open. */
function isNoteInFrame({ grade, where: { frame } }: Finding): boolean {
  return grade === 'note' && frame !== undefined && frame.u >= 0 && frame.u <= 1 && frame.v >= 0 && frame.v <= 1;
}

/** Numbered marks lie over notes, so that a click near both means the mark. */
const notesFirst = (pins: readonly PinPlace[]): readonly PinPlace[] => [
  ...pins.filter((pin) => pin.number === null),
  ...pins.filter((pin) => pin.number !== null),
];

function PinMark({ pin, active }: { readonly pin: PinPlace; readonly active: boolean }) {
  const { finding, number, xPx, yPx, outward } = pin;
  const toggle = () => activateFinding(active ? null : finding.id);
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Enter' && event.key !== ' ') return;
    event.preventDefault();
    toggle();
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: SVG has no button of its own.
    <g
      className="kg-pin"
      role="button"
      tabIndex={0}
      aria-pressed={active}
      data-grade={finding.grade}
      data-active={active}
      data-testid="pin"
      data-finding={finding.id}
      transform={`translate(${xPx} ${yPx})`}
      onClick={(event) => {
        event.stopPropagation();
        toggle();
      }}
      onKeyDown={onKeyDown}
    >
      {outward && (
        <path
          className="kg-pin-outward"
          d="M12 -4 L17 0 L12 4"
          transform={`rotate(${(Math.atan2(outward[1], outward[0]) * 180) / Math.PI})`}
        />
      )}
      <title>{`${GRADE_WORDS[finding.grade]}: ${finding.summary}`}</title>
      <circle className="kg-pin-reach" r={number === null ? 8 : 15} />
      {number === null ? (
        <circle className="kg-pin-face" r={active ? 5 : 3.5} />
      ) : finding.grade === 'stop' ? (
        <rect className="kg-pin-face" x="-9" y="-9" width="18" height="18" rx="1.5" />
      ) : (
        <circle className="kg-pin-face" r="9.5" />
      )}
      <text className="kg-pin-number" y="4">
        {number}
      </text>
    </g>
  );
}

/** The outline of what was found and a line from it to its mark, light over dark so that it reads on any picture. */
function ActiveEvidence({ pin, widthPx, heightPx }: { readonly pin: PinPlace } & PinOverlayProps) {
  const outline = pin.finding.where.outlineUv ?? [];
  const path = outline.map(([u, v], i) => `${i === 0 ? 'M' : 'L'}${u * widthPx} ${v * heightPx}`).join('');
  const leader = `M${pin.xPx} ${pin.yPx}L${pin.anchorXPx} ${pin.anchorYPx}`;
  const closed = outline.length > 2 ? `${path}Z` : '';
  return (
    <g className="kg-evidence">
      <path className="kg-evidence-under" d={closed + leader} />
      <path className="kg-evidence-over" d={closed + leader} />
    </g>
  );
}
