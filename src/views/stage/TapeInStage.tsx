import { useTape } from '../arrange/index.ts';
import { PAPER, StageLine } from './StageLine.tsx';

/** The tape as it lies in the set. */
export function TapeInStage() {
  const from = useTape((state) => state.from);
  const to = useTape((state) => state.to);
  if (!from || !to) return null;
  return <StageLine points={[from.pointM, to.pointM]} colour={PAPER} widthPx={1.4} onTop />;
}
