export { FrameTabs } from './FrameTabs.tsx';
export * from './frameCommands.ts';
