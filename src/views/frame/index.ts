export { FrameView } from './FrameView.tsx';
export { createSmoother } from './smoother.ts';
export { TOOL_WORDS } from './tools/toolWords.ts';
export { traceControl } from './traceControl.ts';
export { createTraceController, type TraceController } from './traceController.ts';
export { describeTrace, traceStore, useTrace } from './traceStore.ts';
