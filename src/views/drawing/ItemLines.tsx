import { memo } from 'react';
import type { SheetItem, SheetLine } from './sheet.ts';

interface ItemLinesProps {
  readonly item: SheetItem;
  readonly emphasis: 'selected' | 'hovered' | undefined;
}

/** The lines of one record, in metres; the sheet's own transform scales them, their weights stay in pixels. */
export const ItemLines = memo(function ItemLines({ item, emphasis }: ItemLinesProps) {
  return (
    <g className="kg-item" data-emphasis={emphasis} data-lit={item.lit} data-collection={item.collection ?? 'none'}>
      {item.areas.map((area, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: areas of a record keep their order
        <path key={`area ${i}`} className="kg-item-area" d={pathOf(area, true)} />
      ))}
      {item.lines.map((line, i) => (
        <path
          // biome-ignore lint/suspicious/noArrayIndexKey: lines of a record keep their order
          key={i}
          className="kg-item-line"
          data-weight={line.weight}
          data-dash={line.dash}
          data-closed={line.closed}
          d={pathOf(line.points, line.closed)}
        />
      ))}
    </g>
  );
});

/** To a hundredth of a millimetre. */
function pathOf(points: SheetLine['points'], closed: boolean): string {
  const corners = points.map(([u, v]) => `${u.toFixed(5)} ${v.toFixed(5)}`);
  return `M${corners.join('L')}${closed ? 'Z' : ''}`;
}
