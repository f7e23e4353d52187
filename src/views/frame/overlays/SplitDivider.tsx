import { type KeyboardEvent, type PointerEvent, useRef } from 'react';
import { frameToolsStore, useFrameTools } from '../tools/frameToolsStore.ts';

interface Props {
  readonly leftWord: string;
  readonly rightWord: string;
}

const KEY_STEP = 0.02;
const setSplit = (share: number): void =>
  frameToolsStore.setState({ splitShare: Math.min(1, Math.max(0, Math.round(share * 1000) / 1000)) });

/** The line where the picture is split. Drag it anywhere along its height, or move it with the arrow keys. */
export function SplitDivider({ leftWord, rightWord }: Props) {
  const share = useFrameTools((state) => state.splitShare);
  const held = useRef(false);
  const shareFrom = (event: PointerEvent<HTMLDivElement>): number => {
    const box = event.currentTarget.parentElement?.getBoundingClientRect();
    return box ? (event.clientX - box.left) / box.width : share;
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const steps: Readonly<Record<string, number>> = { ArrowLeft: -1, ArrowRight: 1, PageDown: -5, PageUp: 5 };
    const step = steps[event.key];
    if (step !== undefined) setSplit(share + step * KEY_STEP * (event.shiftKey ? 5 : 1));
    else if (event.key === 'Home') setSplit(0);
    else if (event.key === 'End') setSplit(1);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <>
      <span className="kg-split-word" style={{ right: `calc(${(1 - share) * 100}% + 12px)` }} aria-hidden="true">
        {share > 0.1 && leftWord}
      </span>
      <span className="kg-split-word" style={{ left: `calc(${share * 100}% + 12px)` }} aria-hidden="true">
        {share < 0.9 && rightWord}
      </span>
      <div
        className="kg-split"
        role="slider"
        tabIndex={0}
        aria-label={`Where the picture is split between ${leftWord} and ${rightWord}`}
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuenow={Math.round(share * 100)}
        aria-orientation="horizontal"
        data-testid="split"
        style={{ left: `${share * 100}%` }}
        onPointerDown={(event) => {
          if (event.button !== 0) return;
          event.stopPropagation();
          event.currentTarget.setPointerCapture(event.pointerId);
          held.current = true;
        }}
        onPointerMove={(event) => held.current && setSplit(shareFrom(event))}
        onPointerUp={() => {
          held.current = false;
        }}
        onPointerCancel={() => {
          held.current = false;
        }}
        onKeyDown={onKeyDown}
      />
    </>
  );
}
