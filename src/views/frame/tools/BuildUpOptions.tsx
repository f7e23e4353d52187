import { type KeyboardEvent, useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { useFrameScene } from '../../session/index.ts';
import { buildUpLights } from './buildUp.ts';
import { buildUpStore, setBuildUpAlone, setBuildUpStep, stepBuildUp } from './buildUpControl.ts';

const PLAY_STEP_MS = 1400;

/** The lights in the order of the desk; those that are lit so far, and which one came last. */
export function BuildUpOptions() {
  const lights = buildUpLights(useFrameScene().fixtures);
  const { step, alone } = useStore(buildUpStore);
  const [playing, setPlaying] = useState(false);
  const last = lights.length - 1;
  useEffect(() => {
    if (!playing) return;
    if (step >= last) {
      setPlaying(false);
      return;
    }
    const timer = setTimeout(() => stepBuildUp(1), PLAY_STEP_MS);
    return () => clearTimeout(timer);
  }, [playing, step, last]);
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'ArrowRight' && event.key !== 'ArrowLeft') return;
    event.preventDefault();
    event.stopPropagation();
    stepBuildUp(event.key === 'ArrowRight' ? 1 : -1);
  };
  return (
    <>
      <fieldset className="kg-tool-choice kg-build-up" aria-label="Lights one after another" onKeyDown={onKeyDown}>
        {lights.map((light, i) => (
          <button
            key={light.id}
            type="button"
            className="kg-word"
            aria-pressed={i === step}
            data-lit={alone ? i === step : i <= step}
            onClick={() => setBuildUpStep(i)}
          >
            <span className="kg-figure">{i + 1}</span> {light.name}
          </button>
        ))}
      </fieldset>
      <span className="kg-tool-rest">
        <button
          type="button"
          className="kg-word"
          aria-pressed={alone}
          title="Each light by itself, without those before it"
          onClick={() => setBuildUpAlone(!alone)}
        >
          Alone
        </button>
        <button
          type="button"
          className="kg-word"
          aria-pressed={playing}
          title="One light after another. Keys [ and ] go step by step."
          onClick={() => {
            if (!playing && step >= last) setBuildUpStep(0);
            setPlaying(!playing);
          }}
        >
          {playing ? 'Pause' : 'Play'}
        </button>
      </span>
    </>
  );
}
