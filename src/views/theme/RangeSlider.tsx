import { type KeyboardEvent, useRef } from 'react';
import './rangeSlider.css';

interface RangeSliderProps {
  readonly label: string;
  readonly value: number;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  /** The value as it is read out: '45 degrees'. */
  readonly valueText: string;
  readonly testId?: string;
  /** A hand takes hold; moves follow until `onEnd` or `onCancel`. */
  onBegin?(): void;
  onMove(value: number): void;
  onEnd?(): void;
  onCancel?(): void;
  /** One step from the keyboard; `onMove` when left out. */
  onStep?(value: number): void;
}

/** A value between two ends, by hand or by arrow keys. */
export function RangeSlider(props: RangeSliderProps) {
  const { label, value, min, max, step, valueText, testId, onBegin, onMove, onEnd, onCancel, onStep } = props;
  const held = useRef(false);
  // After Escape the pointer is still down, and its moves mean nothing until it is up.
  const cancelled = useRef(false);
  const release = (end: (() => void) | undefined) => {
    if (!held.current) return;
    held.current = false;
    end?.();
  };
  const letGo = () => {
    cancelled.current = false;
    release(onEnd);
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    // The arrows are the slider's own, and Escape lets go of what it holds.
    if (/^(Arrow|Page|Home|End)/.test(event.key)) event.stopPropagation();
    if (event.key !== 'Escape' || !held.current) return;
    event.stopPropagation();
    cancelled.current = true;
    release(onCancel);
  };
  return (
    <input
      type="range"
      className="kg-range"
      aria-label={label}
      aria-valuetext={valueText}
      data-testid={testId}
      min={min}
      max={max}
      step={step}
      value={value}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        held.current = true;
        onBegin?.();
      }}
      onPointerUp={letGo}
      onPointerCancel={() => release(onCancel)}
      onBlur={letGo}
      onChange={(event) => {
        const next = Number(event.target.value);
        if (cancelled.current) return;
        if (held.current || !onStep) onMove(next);
        else onStep(next);
      }}
      onKeyDown={onKeyDown}
    />
  );
}
