import { useDocument } from '../../session/index.ts';
import { Tip } from '../../theme/index.ts';
import { useTrace } from '../traceStore.ts';
import { FRAME_TOOLS, type FrameTool, useFrameTools } from './frameToolsStore.ts';
import './frameTools.css';
import { TOOL_WORDS } from './toolWords.ts';
import { useFrameTool } from './useFrameTool.ts';

/** Where the row parts what is laid over the picture from what is done with it. */
const FIRST_OF_SECOND_PART: FrameTool = 'compare';

/** One quiet row of words under the picture. */
export function FrameToolRow() {
  const open = useFrameTools((state) => state.open);
  const hasFilm = useTrace((state) => state.film !== null);
  const hasTable = useDocument((state) => state.setup.turntable !== undefined);
  const use = useFrameTool();
  const whyNot = (tool: FrameTool): string | null => {
    if (tool === 'turn' && !hasTable) return 'There is no turntable on this set.';
    if ((tool === 'spill' || tool === 'compare') && !hasFilm && !open.includes(tool)) return 'Nothing is traced yet.';
    return null;
  };
  return (
    <fieldset className="kg-frame-tools" aria-label="Frame tools" data-testid="frame-tools">
      {FRAME_TOOLS.map((tool) => {
        const { word, key, tip } = TOOL_WORDS[tool];
        const reason = whyNot(tool);
        return (
          <Tip key={tool} text={reason ?? `${tip} Key ${key}.`}>
            <button
              type="button"
              className="kg-word"
              data-first={tool === FIRST_OF_SECOND_PART || undefined}
              aria-pressed={open.includes(tool)}
              aria-disabled={reason !== null}
              onClick={() => reason === null && use(tool)}
            >
              {word}
            </button>
          </Tip>
        );
      })}
    </fieldset>
  );
}
