import { documentStore, setDragging, useFrame } from '../../session/index.ts';
import { RangeSlider, StepField } from '../../theme/index.ts';

/** One round of the table, as far as a hand cares: 0 to 360 degrees. */
export const roundAngleDeg = (angleDeg: number): number => ((angleDeg % 360) + 360) % 360;

/** The angle of the table in this frame. The quick picture follows the hand; the trace begins anew when it lets go. */
export function TurnOptions() {
  const { id, turntableAngleDeg } = useFrame();
  const shownDeg = roundAngleDeg(turntableAngleDeg);
  const change = (angleDeg: number) => [
    { op: 'updateFrame' as const, id, patch: { turntableAngleDeg: Math.round(angleDeg * 10) / 10 } },
  ];
  const finish = (end: () => void) => {
    end();
    setDragging(false);
  };
  return (
    <>
      <span className="kg-label" id="kg-turn-label">
        Table at
      </span>
      <span className="kg-turn-slider">
        <RangeSlider
          label="Angle of the turntable"
          testId="turn-slider"
          value={shownDeg}
          min={0}
          max={360}
          step={1}
          valueText={`${shownDeg.toFixed(0)} degrees`}
          onBegin={() => {
            documentStore.begin('Turn the table');
            setDragging(true);
          }}
          onMove={(angleDeg) => documentStore.update(change(angleDeg))}
          onEnd={() => finish(documentStore.commit)}
          onCancel={() => finish(documentStore.cancel)}
          onStep={(angleDeg) => documentStore.apply('Turn the table', change(angleDeg))}
        />
      </span>
      <StepField
        label="Angle of the turntable, typed"
        showLabel={false}
        testId="turn-angle"
        text={`${shownDeg.toFixed(1)}\u00b0`}
        value={shownDeg}
        onStep={(direction, large) =>
          documentStore.apply('Turn the table', change(turntableAngleDeg + direction * (large ? 15 : 1)))
        }
        onType={(text) => {
          const angleDeg = Number.parseFloat(text.replace('\u2212', '-'));
          return Number.isFinite(angleDeg) && documentStore.apply('Turn the table', change(angleDeg)).ok;
        }}
      />
    </>
  );
}
