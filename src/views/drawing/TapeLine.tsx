import { formatTape, measureBetween, useTape } from '../arrange/index.ts';
import { type Projection, projectToSheet, type SheetPoint } from './projection.ts';
import type { PxPoint } from './sheetPx.ts';

interface TapeLineProps {
  readonly projection: Projection;
  readonly px: (p: SheetPoint) => PxPoint;
}

/** The tape on the sheet, with what it reads at its middle. */
export function TapeLine({ projection, px }: TapeLineProps) {
  const from = useTape((state) => state.from);
  const to = useTape((state) => state.to);
  if (!from) return null;
  const [x0, y0] = px(projectToSheet(projection, from.pointM));
  const [x1, y1] = to ? px(projectToSheet(projection, to.pointM)) : [x0, y0];
  const read = to && measureBetween(from.pointM, to.pointM);
  return (
    <g className="kg-tape" data-testid="tape">
      <path d={`M${x0} ${y0}L${x1} ${y1}`} />
      <circle cx={x0} cy={y0} r={3} />
      <circle cx={x1} cy={y1} r={3} />
      {read && (
        <text x={(x0 + x1) / 2} y={(y0 + y1) / 2 - 8}>
          {formatTape(read.distanceM)}
        </text>
      )}
    </g>
  );
}
