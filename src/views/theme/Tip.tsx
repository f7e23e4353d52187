import { Tooltip } from '@base-ui-components/react/tooltip';
import type { ReactElement } from 'react';

/** A sentence shown on hover and on focus of the one child. Never holds anything that cannot be found without it. */
export function Tip({
  text,
  children,
}: {
  readonly text: string;
  readonly children: ReactElement<Record<string, unknown>>;
}) {
  return (
    <Tooltip.Root>
      <Tooltip.Trigger render={children} />
      <Tooltip.Portal>
        <Tooltip.Positioner sideOffset={6} className="kg-layer">
          <Tooltip.Popup className="kg-float kg-tip">{text}</Tooltip.Popup>
        </Tooltip.Positioner>
      </Tooltip.Portal>
    </Tooltip.Root>
  );
}
