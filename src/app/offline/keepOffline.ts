import { showNotice } from '../../views/session/index.ts';

/**
 * Lets the browser keep the program for use without a network. In the background and after the page stands; a browser that
 * will not, or a page that is served over an unsafe line, works as before with a network.
 */
export function keepOffline(): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator) || !window.isSecureContext) return;
  void register();
}

async function register(): Promise<void> {
  try {
    const registration = await navigator.serviceWorker.register('./serviceWorker.js');
    if (registration.waiting) offerNewer(registration.waiting);
    registration.addEventListener('updatefound', () => {
      const arriving = registration.installing;
      arriving?.addEventListener('statechange', () => {
        // Without a controller this is the first visit: what arrived is what is open.
        if (arriving.state === 'installed' && navigator.serviceWorker.controller) offerNewer(arriving);
      });
    });
  } catch {
    // Storage that is full or forbidden costs the use without a network, nothing else.
  }
}

/** The open page goes on with its own files until the person at it agrees. The setup is kept as it stands. */
function offerNewer(worker: ServiceWorker): void {
  showNotice({
    tone: 'trouble',
    text: 'A newer version of the program is here.',
    detail: 'Your setup stays as it is.',
    action: {
      label: 'Use it now',
      run: () => {
        navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
        worker.postMessage('takeOver');
      },
    },
  });
}
