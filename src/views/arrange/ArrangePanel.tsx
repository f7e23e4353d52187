import { useState } from 'react';
import { groupOf } from '../../document/arrangement.ts';
import { CAMERA_ID, selectRecord, useDocument, useFrameScene, useSelection, useSession } from '../session/index.ts';
import { parseLengthM } from './parseLengthM.ts';
import './arrange.css';
import type { Axis, Line } from './alignRecords.ts';
import {
  aimSelectedAtSubject,
  alignSelected,
  centreSelected,
  duplicateSelected,
  groupSelected,
  hideSelected,
  lineWords,
  placeSelectedAt,
  removeSelected,
  setLocked,
  spreadSelected,
  spreadWords,
  ungroupSelected,
} from './arrangeCommands.ts';
import { formatTape, measureBetween } from './measure.ts';

const AXES: readonly {
  readonly axis: Axis;
  readonly word: string;
  readonly lines: readonly (readonly [Line, string])[];
}[] = [
  {
    axis: 0,
    word: 'Across',
    lines: [
      ['low', 'Left'],
      ['middle', 'Middle'],
      ['high', 'Right'],
    ],
  },
  {
    axis: 1,
    word: 'Height',
    lines: [
      ['low', 'Feet'],
      ['middle', 'Middle'],
      ['high', 'Tops'],
    ],
  },
  {
    axis: 2,
    word: 'Depth',
    lines: [
      ['low', 'Backs'],
      ['middle', 'Middle'],
      ['high', 'Fronts'],
    ],
  },
];

/** What can be done with several selected things at once. The last one selected is the one that the rest line up with. */
export function ArrangePanel() {
  const selected = useSelection();
  const setup = useDocument((state) => state.setup);
  const frameId = useSession((state) => state.frameId);
  const names = useNames(selected);
  const grouped = selected.some((id) => groupOf(setup, id));
  const locked = selected.every((id) => setup.arrangement?.locked.includes(id === CAMERA_ID ? frameId : id));
  const last = names.at(-1);
  return (
    <div className="kg-arrange" data-testid="arrange">
      <p className="kg-arrange-names">
        {names.map(({ id, name }) => (
          <button
            key={id}
            type="button"
            className="kg-word"
            title="Select this one alone"
            onClick={() => selectRecord(id)}
          >
            {name}
          </button>
        ))}
      </p>
      <BetweenTwo />
      <h3 className="kg-label">Line up with {last?.name}</h3>
      <dl className="kg-arrange-lines">
        {AXES.map(({ axis, word, lines }) => (
          <div key={axis}>
            <dt>{word}</dt>
            <dd>
              {lines.map(([line, text]) => (
                <button
                  key={line}
                  type="button"
                  className="kg-word"
                  aria-label={lineWords(axis, line)}
                  onClick={() => alignSelected(axis, line)}
                >
                  {text}
                </button>
              ))}
              <button
                type="button"
                className="kg-word kg-arrange-spread"
                disabled={selected.length < 3}
                aria-label={spreadWords(axis)}
                onClick={() => spreadSelected(axis)}
              >
                Spread
              </button>
            </dd>
          </div>
        ))}
      </dl>
      <h3 className="kg-label">From the subject</h3>
      <p className="kg-arrange-words">
        <button type="button" className="kg-word" onClick={centreSelected}>
          On the centre line
        </button>
        <button type="button" className="kg-word" onClick={aimSelectedAtSubject}>
          Look at the subject
        </button>
        <DistanceField />
      </p>
      <h3 className="kg-label">Together</h3>
      <p className="kg-arrange-words">
        <button type="button" className="kg-word" onClick={groupSelected}>
          Group
        </button>
        <button type="button" className="kg-word" disabled={!grouped} onClick={ungroupSelected}>
          Take apart
        </button>
        <button type="button" className="kg-word" onClick={() => setLocked(selected, !locked)}>
          {locked ? 'Unlock' : 'Lock'}
        </button>
        <button type="button" className="kg-word" onClick={duplicateSelected}>
          Duplicate
        </button>
        <button type="button" className="kg-word" onClick={() => hideSelected()}>
          Leave out here
        </button>
        <button type="button" className="kg-word" onClick={removeSelected}>
          Remove
        </button>
      </p>
    </div>
  );
}

function useNames(ids: readonly string[]): readonly { readonly id: string; readonly name: string }[] {
  const { pieces, fixtures, grip } = useFrameScene();
  const records: readonly { readonly id: string; readonly name: string }[] = [...pieces, ...fixtures, ...grip];
  return ids.map((id) => ({
    id,
    name: id === CAMERA_ID ? 'Camera' : (records.find((record) => record.id === id)?.name ?? id),
  }));
}

/** With two things selected: how far they stand apart. */
function BetweenTwo() {
  const selected = useSelection();
  const scene = useFrameScene();
  const [a, b] = selected.map((id) =>
    id === CAMERA_ID
      ? scene.camera
      : [...scene.pieces, ...scene.fixtures, ...scene.grip].find((record) => record.id === id),
  );
  if (selected.length !== 2 || !a || !b) return null;
  const { distanceM, levelM, riseM } = measureBetween(a.positionM, b.positionM);
  return (
    <p className="kg-arrange-between">
      <span className="kg-figure">{formatTape(distanceM)}</span> apart,{' '}
      <span className="kg-figure">{formatTape(levelM)}</span> on the floor,{' '}
      <span className="kg-figure">{formatTape(Math.abs(riseM))}</span> {riseM < 0 ? 'lower' : 'higher'}
    </p>
  );
}

/** '1.2 m', '120 cm' or '120': puts all that is selected at that distance from the meter point. */
function DistanceField() {
  const [text, setText] = useState('');
  const run = () => {
    const distanceM = parseLengthM(text);
    if (distanceM !== null && distanceM > 0) placeSelectedAt(distanceM);
    setText('');
  };
  return (
    <label className="kg-arrange-distance">
      At
      <input
        className="kg-figure"
        value={text}
        placeholder="120 cm"
        aria-label="Distance from the subject"
        onChange={(event) => setText(event.target.value)}
        onKeyDown={(event) => event.key === 'Enter' && run()}
        onBlur={() => text !== '' && run()}
      />
    </label>
  );
}
