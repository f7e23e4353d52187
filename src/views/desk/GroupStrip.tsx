import { ratioFromStops } from '../../core/units.ts';
import type { DeskGroup } from '../../document/frameRecords.ts';
import type { Fixture } from '../../fixtures/records.ts';
import { documentStore, sessionStore, updateRecord, useSession } from '../session/index.ts';
import { formatFigure, formatPercent, formatStops, NameField } from '../theme/index.ts';
import { renameGroup, takeGroupApart } from './deskCommands.ts';
import { toggleFolded, useDesk } from './deskStore.ts';
import { Fader } from './Fader.tsx';
import { groupDimStops, movedGroup } from './groupDim.ts';

interface Props {
  readonly group: DeskGroup;
  readonly members: readonly Fixture[];
  /** Incident light at the meter point from all of them; null until the checks have said. */
  readonly subjectLux: number | null;
}

/** The strip of a group: its fader moves all of its lights by the same stops. */
export function GroupStrip({ group, members, subjectLux }: Props) {
  const ids = members.map(({ id }) => id);
  const folded = useDesk((state) => state.foldedGroupIds.includes(group.id));
  const soloIds = useSession((state) => state.soloFixtureIds);
  const soloed = ids.every((id) => soloIds.includes(id));
  const on = members.some((member) => member.on);
  const dimStops = groupDimStops(members) ?? 0;
  const changes = (toStops: number) =>
    movedGroup(members, toStops).map(({ member, dimStops: stops }) =>
      updateRecord('fixtures', member.id, { dimStops: stops }),
    );
  const label = `Output of ${group.name}`;
  return (
    <fieldset className="kg-strip kg-group-strip" aria-label={group.name} data-testid="group-strip" data-dark={!on}>
      <NameField
        className="kg-strip-name kg-group-name"
        label="Name of the group"
        name={group.name}
        maxLength={60}
        onRename={(name) => renameGroup(group.id, name)}
      />
      <Fader
        name={group.name}
        dimStops={dimStops}
        onBegin={() => documentStore.begin(label)}
        onMove={(stops) => documentStore.update(changes(stops))}
        onEnd={() => documentStore.commit()}
        onCancel={() => documentStore.cancel()}
        onStep={(stops) => documentStore.apply(label, changes(stops))}
      />
      <div className="kg-strip-figures">
        <p className="kg-strip-stops" title="Of the brightest light of the group">
          {on ? formatStops(dimStops) : 'off'}
          {on && <span className="kg-unit">stops</span>}
        </p>
        <p className="kg-figure">
          {formatPercent(on ? ratioFromStops(dimStops) : 0)}
          <span className="kg-unit">%</span>
        </p>
        <p className="kg-figure" title="At the subject, from these lights together">
          {subjectLux === null ? '…' : formatFigure(subjectLux)}
          <span className="kg-unit">lx</span>
        </p>
        <p className="kg-strip-words kg-group-words">
          <button type="button" className="kg-word" aria-expanded={!folded} onClick={() => toggleFolded(group.id)}>
            {folded ? `Open ${members.length}` : 'Fold'}
          </button>
          <button type="button" className="kg-word" onClick={() => takeGroupApart(group.id)}>
            Ungroup
          </button>
        </p>
        <p className="kg-strip-words">
          <button
            type="button"
            className="kg-word"
            aria-pressed={soloed}
            onClick={() =>
              sessionStore.setState({
                soloFixtureIds: soloed
                  ? soloIds.filter((id) => !ids.includes(id))
                  : [...soloIds.filter((id) => !ids.includes(id)), ...ids],
              })
            }
          >
            Solo
          </button>
          <button
            type="button"
            className="kg-word"
            aria-pressed={!on}
            aria-label={`${group.name} off`}
            onClick={() =>
              documentStore.apply(
                `${group.name} ${on ? 'off' : 'on'}`,
                ids.map((id) => updateRecord('fixtures', id, { on: !on })),
              )
            }
          >
            Off
          </button>
        </p>
      </div>
    </fieldset>
  );
}
