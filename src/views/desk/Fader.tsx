import { type KeyboardEvent, type PointerEvent, useRef } from 'react';
import { ratioFromStops } from '../../core/units.ts';
import { formatPercent, formatStops } from '../theme/index.ts';

/** Span of the fader, stops under full. A dimmer that is set lower rests on the bottom end. */
export const FADER_LOWEST_STOPS = -8;
const TICK_STOPS = [0, -1, -2, -3, -4, -5, -6, -7, -8];

interface FaderProps {
  readonly name: string;
  readonly dimStops: number;
  onBegin(): void;
  onMove(dimStops: number): void;
  onEnd(): void;
  onCancel(): void;
  /** One step from the keyboard. */
  onStep(dimStops: number): void;
}

/** Output on an even scale of stops. Drag the bar, click the scale, or use the arrow keys (thirds; Shift for whole stops). */
export function Fader({ name, dimStops, onBegin, onMove, onEnd, onCancel, onStep }: FaderProps) {
  const trackRef = useRef<HTMLDivElement>(null);
  const grabRef = useRef<{ readonly offsetPx: number } | null>(null);

  const stopsFromPointer = (event: PointerEvent): number => {
    const box = trackRef.current?.getBoundingClientRect();
    if (!box) return dimStops;
    const y = event.clientY - (grabRef.current?.offsetPx ?? 0);
    return clampToTenth(((y - box.top) / box.height) * FADER_LOWEST_STOPS);
  };
  const onPointerDown = (event: PointerEvent<HTMLDivElement>) => {
    if (event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    const bar = event.currentTarget.querySelector('.kg-fader-bar')?.getBoundingClientRect();
    const onBar = bar !== undefined && event.clientY >= bar.top - 5 && event.clientY <= bar.bottom + 5;
    grabRef.current = { offsetPx: onBar ? event.clientY - (bar.top + bar.bottom) / 2 : 0 };
    onBegin();
    if (!onBar) onMove(stopsFromPointer(event));
  };
  const onPointerMove = (event: PointerEvent<HTMLDivElement>) => {
    if (grabRef.current) onMove(stopsFromPointer(event));
  };
  const release = (end: () => void) => {
    if (!grabRef.current) return;
    grabRef.current = null;
    end();
  };
  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>) => {
    if (event.key === 'Escape' && grabRef.current) {
      event.stopPropagation();
      release(onCancel);
      return;
    }
    const next = stopsAfterKey(event.key, event.shiftKey, dimStops);
    if (next === null || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    event.stopPropagation();
    if (next !== dimStops) onStep(next);
  };
  const shown = Math.max(FADER_LOWEST_STOPS, dimStops);
  return (
    <div
      className="kg-fader"
      role="slider"
      tabIndex={0}
      aria-label={`${name}, output`}
      aria-orientation="vertical"
      aria-valuemin={FADER_LOWEST_STOPS}
      aria-valuemax={0}
      aria-valuenow={shown}
      aria-valuetext={`${formatStops(dimStops)} stops, ${formatPercent(ratioFromStops(dimStops))} percent`}
      data-testid="fader"
      onPointerDown={onPointerDown}
      onPointerMove={onPointerMove}
      onPointerUp={() => release(onEnd)}
      onPointerCancel={() => release(onCancel)}
      onKeyDown={onKeyDown}
    >
      <div ref={trackRef} className="kg-fader-track">
        {TICK_STOPS.map((stop) => (
          <i key={stop} className="kg-fader-tick" style={{ top: `${(stop / FADER_LOWEST_STOPS) * 100}%` }} />
        ))}
        <div className="kg-fader-fill" style={{ top: `${(shown / FADER_LOWEST_STOPS) * 100}%` }} />
        <div className="kg-fader-bar" style={{ top: `${(shown / FADER_LOWEST_STOPS) * 100}%` }} />
      </div>
    </div>
  );
}

/** Where an arrow, page, Home or End key takes the dimmer; null for any other key. */
export function stopsAfterKey(key: string, shift: boolean, dimStops: number): number | null {
  const thirds = Math.round(dimStops * 3);
  switch (key) {
    case 'ArrowUp':
    case 'ArrowRight':
      return clampStops((thirds + (shift ? 3 : 1)) / 3);
    case 'ArrowDown':
    case 'ArrowLeft':
      return clampStops((thirds - (shift ? 3 : 1)) / 3);
    case 'PageUp':
      return clampStops((thirds + 3) / 3);
    case 'PageDown':
      return clampStops((thirds - 3) / 3);
    case 'Home':
      return FADER_LOWEST_STOPS;
    case 'End':
      return 0;
    default:
      return null;
  }
}

const clampStops = (stops: number): number => Math.min(0, Math.max(FADER_LOWEST_STOPS, stops));
const clampToTenth = (stops: number): number => clampStops(Math.round(stops * 10) / 10) + 0;
