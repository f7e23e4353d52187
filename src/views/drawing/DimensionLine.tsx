import type { DimensionLayout } from './dimensionLayout.ts';

interface DimensionLineProps {
  readonly layout: DimensionLayout;
  readonly text: string;
}

/** A figure on a dimension line with slanting ticks, as on an architect's sheet. */
export function DimensionLine({ layout, text }: DimensionLineProps) {
  const [x, y] = layout.figureAt;
  return (
    <g className="kg-dimension">
      <path d={layout.extensionPath} data-weight="hair" />
      <path d={layout.linePath} />
      <text transform={`translate(${x} ${y}) rotate(${layout.turnDeg})`} dy="0.36em" data-anchor={layout.anchor}>
        {text}
      </text>
    </g>
  );
}
