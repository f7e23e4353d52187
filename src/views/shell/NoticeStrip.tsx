import { useEffect } from 'react';
import { clearNotice, useNotice } from '../session/index.ts';

const DONE_SHOWN_MS = 4000;
/** Longer when there is something to decide. */
const ACTION_SHOWN_MS = 15000;

/** The one message strip. Trouble stays until it is put away; the rest leaves by itself. */
export function NoticeStrip() {
  const notice = useNotice();
  useEffect(() => {
    if (notice?.tone !== 'done') return;
    const timer = setTimeout(clearNotice, notice.action ? ACTION_SHOWN_MS : DONE_SHOWN_MS);
    return () => clearTimeout(timer);
  }, [notice]);
  if (notice === null) return null;
  const { action } = notice;
  return (
    <div
      className="kg-notice"
      data-tone={notice.tone}
      data-testid="notice"
      role={notice.tone === 'trouble' ? 'alert' : 'status'}
    >
      <p>
        {notice.text}
        {notice.detail && <span className="kg-notice-detail"> {notice.detail}</span>}
      </p>
      <p className="kg-notice-words">
        {action && (
          <button
            type="button"
            className="kg-word kg-notice-action"
            onClick={() => {
              clearNotice();
              action.run();
            }}
          >
            {action.label}
          </button>
        )}
        <button type="button" className="kg-word" onClick={clearNotice}>
          Put away
        </button>
      </p>
    </div>
  );
}
