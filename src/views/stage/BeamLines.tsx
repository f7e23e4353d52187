import { hasBeam } from '../resources/hasBeam.ts';
import { useFrameScene, useSession } from '../session/index.ts';
import { ACCENT, PAPER, StageLine } from './StageLine.tsx';

/** From each light that is on to the point it looks at. */
export function BeamLines() {
  const { fixtures } = useFrameScene();
  const selectedId = useSession((state) => state.selectedId);
  return fixtures.filter(hasBeam).map(({ id, on, positionM, aimM }) => {
    const selected = id === selectedId;
    return on || selected ? (
      <StageLine
        key={id}
        points={[positionM, aimM]}
        colour={selected ? ACCENT : PAPER}
        opacity={selected ? 0.6 : 0.16}
        dashM={[0.03, 0.02]}
      />
    ) : null;
  });
}
