import { formatTape, measureBetween, putTapeAway, useTape } from '../arrange/index.ts';

/** What the tape is held at and what it reads: straight, along the floor, and the difference in height. */
export function TapeReadout() {
  const { out, from, to } = useTape((state) => state);
  if (!out) return null;
  const read = from && to ? measureBetween(from.pointM, to.pointM) : null;
  return (
    <div className="kg-tape-readout" data-testid="tape-readout">
      {read ? (
        <>
          <p className="kg-tape-ends">
            {from?.name ?? 'Here'} <span className="kg-quiet">to</span> {to?.name ?? 'there'}
          </p>
          <dl>
            <div>
              <dt>straight</dt>
              <dd className="kg-figure">{formatTape(read.distanceM)}</dd>
            </div>
            <div>
              <dt>on the floor</dt>
              <dd className="kg-figure">{formatTape(read.levelM)}</dd>
            </div>
            <div>
              <dt>{read.riseM < 0 ? 'lower by' : 'higher by'}</dt>
              <dd className="kg-figure">{formatTape(Math.abs(read.riseM))}</dd>
            </div>
          </dl>
        </>
      ) : (
        <p>
          {from ? `From ${from.name ?? 'here'}: press the other end.` : 'Press two places, here or in the picture.'}
        </p>
      )}
      <button type="button" className="kg-word" onClick={putTapeAway}>
        Put away
      </button>
    </div>
  );
}
