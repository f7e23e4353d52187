import type { ReactNode } from 'react';
import { ReferenceOptions } from '../../reference/index.ts';
import { BuildUpOptions } from './BuildUpOptions.tsx';
import { CompareOptions } from './CompareOptions.tsx';
import { CropOptions } from './CropOptions.tsx';
import { type FrameTool, useFrameTools } from './frameToolsStore.ts';
import { SharpOptions } from './SharpOptions.tsx';
import { SpillOptions } from './SpillOptions.tsx';
import { TurnOptions } from './TurnOptions.tsx';

/** What of a tool can be set; tools without a line here have nothing to set. */
const OPTIONS: Readonly<Partial<Record<FrameTool, () => ReactNode>>> = {
  sharp: () => <SharpOptions />,
  spill: () => <SpillOptions />,
  crop: () => <CropOptions />,
  compare: () => <CompareOptions />,
  buildUp: () => <BuildUpOptions />,
  turn: () => <TurnOptions />,
  reference: () => <ReferenceOptions />,
};

/** One line for the tool that was taken up last and has something to set. */
export function ToolOptions() {
  const tool = useFrameTools(({ open }) => open.findLast((candidate) => OPTIONS[candidate] !== undefined));
  if (tool === undefined) return null;
  return (
    <div className="kg-tool-options" data-testid="tool-options" data-tool={tool}>
      {OPTIONS[tool]?.()}
    </div>
  );
}
