import { ratioFromStops } from '../../core/units.ts';
import type { Fixture } from '../../fixtures/records.ts';
import { documentStore, hoverRecord, selectRecord, toggleSolo, updateRecord, useSession } from '../session/index.ts';
import { formatFigure, formatPercent, formatStops, StepField } from '../theme/index.ts';
import { togglePicked, useDesk } from './deskStore.ts';
import { Fader } from './Fader.tsx';
import { GelMenu } from './GelMenu.tsx';

const CCT_STEP_K = 100;
const CCT_LARGE_STEP_K = 500;

interface DeskStripProps {
  readonly fixture: Fixture;
  /** Incident illuminance from this fixture at the meter point as it is set now; null until the checks have said. */
  readonly subjectLux: number | null;
}

/** One fixture on the desk. All of it, the gel too, acts on the finished film, so nothing here starts a new trace. */
export function DeskStrip({ fixture, subjectLux }: DeskStripProps) {
  const selected = useSession((state) => state.selectedId === fixture.id);
  const hovered = useSession((state) => state.hoveredId === fixture.id);
  const soloed = useSession((state) => state.soloFixtureIds.includes(fixture.id));
  const silenced = useSession((state) => state.soloFixtureIds.length > 0 && !state.soloFixtureIds.includes(fixture.id));
  const picked = useDesk((state) => state.picked);
  const dimChange = (dimStops: number) => updateRecord('fixtures', fixture.id, { dimStops });
  const setCct = (cctK: number) =>
    documentStore.apply(`Colour of ${fixture.name}`, [
      updateRecord('fixtures', fixture.id, { cctK: Math.min(20000, Math.max(1500, Math.round(cctK))) }),
    ]);
  const dark = !fixture.on || silenced;
  return (
    <fieldset
      className="kg-strip"
      aria-label={fixture.name}
      data-testid="desk-strip"
      data-fixture={fixture.id}
      data-selected={selected}
      data-hovered={hovered}
      data-dark={dark}
      onPointerEnter={() => hoverRecord(fixture.id)}
      onPointerLeave={() => hoverRecord(null)}
    >
      <button type="button" className="kg-strip-name" aria-pressed={selected} onClick={() => selectRecord(fixture.id)}>
        {fixture.name}
      </button>
      <Fader
        name={fixture.name}
        dimStops={fixture.dimStops}
        onBegin={() => {
          selectRecord(fixture.id);
          documentStore.begin(`Output of ${fixture.name}`);
        }}
        onMove={(dimStops) => documentStore.update([dimChange(dimStops)])}
        onEnd={() => documentStore.commit()}
        onCancel={() => documentStore.cancel()}
        onStep={(dimStops) => documentStore.apply(`Output of ${fixture.name}`, [dimChange(dimStops)])}
      />
      <div className="kg-strip-figures">
        <p className="kg-strip-stops">
          {fixture.on ? formatStops(fixture.dimStops) : 'off'}
          {fixture.on && <span className="kg-unit">stops</span>}
        </p>
        <p className="kg-figure">
          {formatPercent(fixture.on ? ratioFromStops(fixture.dimStops) : 0)}
          <span className="kg-unit">%</span>
        </p>
        <p className="kg-figure" title="At the subject, from this light alone">
          {subjectLux === null ? '…' : formatFigure(subjectLux)}
          <span className="kg-unit">lx</span>
        </p>
        <StepField
          label={`Colour temperature of ${fixture.name}`}
          showLabel={false}
          text={`${Math.round(fixture.cctK)} K`}
          value={fixture.cctK}
          onStep={(direction, large) => setCct(fixture.cctK + direction * (large ? CCT_LARGE_STEP_K : CCT_STEP_K))}
          onType={(text) => {
            const cctK = Number.parseFloat(text);
            if (!Number.isFinite(cctK)) return false;
            setCct(cctK);
            return true;
          }}
        />
        <GelMenu fixture={fixture} />
        {picked !== null && (
          <p className="kg-strip-words">
            <button
              type="button"
              className="kg-word"
              aria-pressed={picked.includes(fixture.id)}
              aria-label={`${fixture.name} in the group`}
              onClick={() => togglePicked(fixture.id)}
            >
              {picked.includes(fixture.id) ? 'Picked' : 'Pick'}
            </button>
          </p>
        )}
        {picked === null && (
          <p className="kg-strip-words">
            <button type="button" className="kg-word" aria-pressed={soloed} onClick={() => toggleSolo(fixture.id)}>
              Solo
            </button>
            <button
              type="button"
              className="kg-word"
              aria-pressed={!fixture.on}
              aria-label={`${fixture.name} off`}
              onClick={() =>
                documentStore.apply(`${fixture.name} ${fixture.on ? 'off' : 'on'}`, [
                  updateRecord('fixtures', fixture.id, { on: !fixture.on }),
                ])
              }
            >
              Off
            </button>
          </p>
        )}
      </div>
    </fieldset>
  );
}
