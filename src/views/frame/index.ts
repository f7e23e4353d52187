export { FrameView } from './FrameView.tsx';
export { createSmoother } from './smoother.ts';
export { traceControl } from './traceControl.ts';
export { createTraceController, type TraceController } from './traceController.ts';
export { describeTrace, traceStore, useTrace } from './traceStore.ts';
