/** Orbit controls, as far as a hand on the stage needs them. */
export const isControls = (controls: unknown): controls is { enabled: boolean } =>
  typeof controls === 'object' && controls !== null && 'enabled' in controls;
