/** What this browser can do, checked once. */
export interface Capabilities {
  readonly webgl2: boolean;
  readonly workers: boolean;
}

export function readCapabilities(): Capabilities {
  return { webgl2: hasWebgl2(), workers: typeof Worker === 'function' };
}

function hasWebgl2(): boolean {
  try {
    const context = document.createElement('canvas').getContext('webgl2');
    context?.getExtension('WEBGL_lose_context')?.loseContext();
    return context !== null;
  } catch {
    return false;
  }
}
