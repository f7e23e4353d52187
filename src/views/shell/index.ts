export { Quiet } from './Quiet.tsx';
export { Shell } from './Shell.tsx';
export { ViewBoundary } from './ViewBoundary.tsx';
