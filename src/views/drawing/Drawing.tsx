import { useMemo, useRef } from 'react';
import { useTape } from '../arrange/index.ts';
import {
  useCameraView,
  useDocument,
  useFindings,
  useFrameScene,
  useSelection,
  useSession,
  useSetModel,
} from '../session/index.ts';
import { leafGrips } from './barnDoorHand.ts';
import { DimensionLine } from './DimensionLine.tsx';
import { layOutDimension } from './dimensionLayout.ts';
import './drawing.css';
import { HeldReadout } from './HeldReadout.tsx';
import { HitArea, LookPoint } from './HitArea.tsx';
import { ItemLines } from './ItemLines.tsx';
import { LeafHandles } from './LeafHandles.tsx';
import { drawingModelFromScene } from './model.ts';
import { placeNames } from './placeNames.ts';
import { RayLines } from './RayLines.tsx';
import { SheetCorner } from './SheetCorner.tsx';
import { SheetGrid } from './SheetGrid.tsx';
import type { Marquee } from './sheetGestures.ts';
import { pointsAttribute, toPx } from './sheetPx.ts';
import { TapeLine } from './TapeLine.tsx';
import { TapeReadout } from './TapeReadout.tsx';
import { useElementSize } from './useElementSize.ts';
import { useSheetHand } from './useSheetHand.ts';
import { useSheetView } from './useSheetView.ts';

/** The set on a draughtsman's sheet, to scale. Things are moved where they stand, and the figures go along. */
export function Drawing() {
  const scene = useFrameScene();
  const set = useSetModel();
  const view = useCameraView();
  const projection = useSession((state) => state.drawingProjection);
  const selectedId = useSession((state) => state.selectedId);
  const selected = useSelection();
  const hoveredId = useSession((state) => state.hoveredId);
  const frameId = useSession((state) => state.frameId);
  const activeFindingId = useSession((state) => state.activeFindingId);
  const loadCount = useDocument((state) => state.loadCount);
  const findings = useFindings();
  const activeFinding = findings.find(({ id }) => id === activeFindingId) ?? null;

  const model = useMemo(
    () => drawingModelFromScene({ scene, set, view, projection, selectedId, activeFinding }),
    [scene, set, view, projection, selectedId, activeFinding],
  );
  const tapeOut = useTape((state) => state.out);
  const svgRef = useRef<SVGSVGElement>(null);
  const size = useElementSize(svgRef);
  const sheet = useSheetView(model.bounds, size, `${loadCount}:${frameId}:${projection}`, model.items.length);
  const { held, marquee } = useSheetHand(svgRef, { sheet, scene, set, items: model.items, projection, frameId });
  const lamp = scene.fixtures.find(({ id }) => id === selectedId);
  const grips = useMemo(() => (lamp ? leafGrips(lamp, set.surfaces, projection) : []), [lamp, set, projection]);
  const { view: sheetView } = sheet;
  const px = (p: readonly [number, number]) => toPx(p, sheetView, size);
  const dimensions = model.dimensions.map((dimension) => ({
    dimension,
    layout: layOutDimension(dimension, px, sheetView.pxPerM),
  }));
  const names = placeNames(
    model.items,
    sheetView,
    size,
    selectedId,
    dimensions.map(({ layout }) => layout),
  );
  const [originX, originY] = px([0, 0]);
  const emphasis = (recordId: string) =>
    selected.includes(recordId) ? 'selected' : recordId === hoveredId ? 'hovered' : undefined;
  return (
    <div className="kg-drawing" data-testid="drawing" data-held={held !== null} data-tape={tapeOut}>
      {/* biome-ignore lint/a11y/useSemanticElements: SVG is not a form */}
      <svg ref={svgRef} className="kg-sheet" role="group" aria-label={`Drawing, ${projection}`}>
        <SheetGrid view={sheetView} size={size} />
        <g transform={`matrix(${sheetView.pxPerM} 0 0 ${sheetView.pxPerM} ${originX} ${originY})`}>
          {model.items.map((item) => (
            <ItemLines key={item.recordId} item={item} emphasis={emphasis(item.recordId)} />
          ))}
        </g>
        <SubjectMark at={px(model.subject)} />
        {held?.snapped.map((guide) => (
          <line
            key={guide.axis}
            className="kg-snap"
            {...(guide.axis === 'u'
              ? { x1: px([guide.atM, 0])[0], x2: px([guide.atM, 0])[0], y1: 0, y2: size.heightPx }
              : { y1: px([0, guide.atM])[1], y2: px([0, guide.atM])[1], x1: 0, x2: size.widthPx })}
          />
        ))}
        {dimensions.map(({ dimension, layout }) => (
          <DimensionLine key={dimension.measures} layout={layout} text={dimension.text} />
        ))}
        {model.region.length > 2 && (
          <polygon className="kg-region" points={pointsAttribute(model.region, sheetView, size)} />
        )}
        <RayLines rays={model.rays} px={px} />
        {names.map(({ recordId, text, x, y, anchor }) => (
          <text
            key={recordId}
            className="kg-sheet-name"
            data-emphasis={emphasis(recordId)}
            x={x}
            y={y}
            textAnchor={anchor}
          >
            {text}
          </text>
        ))}
        {model.items.map((item) =>
          item.collection === null ? null : (
            <HitArea
              key={item.recordId}
              item={item}
              outline={pointsAttribute(item.hull, sheetView, size)}
              spanPx={spanPx(item.hull, sheetView.pxPerM)}
              selected={selected.includes(item.recordId)}
            />
          ),
        )}
        {model.items.map((item) =>
          item.aim === null ? null : (
            <LookPoint
              key={item.recordId}
              item={item}
              at={px(item.aim)}
              emphasis={item.recordId === selectedId ? 'selected' : undefined}
            />
          ),
        )}
        <LeafHandles grips={grips} px={px} />
        <TapeLine projection={projection} px={px} />
        {marquee && <MarqueeBox marquee={marquee} />}
      </svg>
      <SheetCorner projection={projection} view={sheetView} onFit={sheet.fit} />
      <TapeReadout />
      {held && <HeldReadout scene={scene} held={held} subjectPx={px(model.subject)} size={size} />}
    </div>
  );
}

const spanPx = (hull: readonly (readonly [number, number])[], pxPerM: number): number => {
  const us = hull.map(([u]) => u);
  const vs = hull.map(([, v]) => v);
  return Math.min(Math.max(...us) - Math.min(...us), Math.max(...vs) - Math.min(...vs)) * pxPerM;
};

function MarqueeBox({ marquee: { fromPx, toPx: to } }: { readonly marquee: Marquee }) {
  return (
    <rect
      className="kg-marquee"
      x={Math.min(fromPx[0], to[0])}
      y={Math.min(fromPx[1], to[1])}
      width={Math.abs(to[0] - fromPx[0])}
      height={Math.abs(to[1] - fromPx[1])}
    />
  );
}

/** Where the meter is held. */
function SubjectMark({ at: [x, y] }: { readonly at: readonly [number, number] }) {
  return <path className="kg-subject-mark" d={`M${x - 6} ${y}H${x + 6}M${x} ${y - 6}V${y + 6}`} />;
}
