import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { invariant } from '../core/result.ts';
import { bringInFile, canBringIn } from '../views/bringIn/index.ts';
import { keepComfort } from '../views/comfort/index.ts';
import { createSmoother, createTraceController, traceControl } from '../views/frame/index.ts';
import { resultsStore, showNotice } from '../views/session/index.ts';
import { openStart } from '../views/start/startStore.ts';
import { App } from './App.tsx';
import { CrashSheet } from './CrashSheet.tsx';
import { readCapabilities } from './capabilities.ts';
import { startChecks } from './checkRunner.ts';
import { exposeState } from './exposeState.ts';
import { watchOpenedSetups } from './handOver/setupAsOpened.ts';
import { keepLibrary } from './keepLibrary.ts';
import { keepSession } from './keepSession.ts';
import { keepOffline } from './offline/keepOffline.ts';
import { openFirstSetup } from './openFirstSetup.ts';
import { createServices } from './services.ts';
import { acceptDroppedFile } from './storage/browserFilePort.ts';
import { createSetupLibrary } from './storage/setupLibrary.ts';
import { createBrowserTracePool } from './tracePool.ts';
import { withLibrary } from './withLibrary.ts';

async function start(): Promise<void> {
  const root = document.getElementById('root');
  invariant(root, () => 'index.html has #root');
  keepComfort();
  const capabilities = readCapabilities();
  const plainServices = createServices(capabilities);
  watchOpenedSetups();
  const { storage, isFirstVisit, isRestored } = await openFirstSetup();
  keepSession();
  const services = storage
    ? withLibrary(plainServices, keepLibrary(createSetupLibrary(storage), isRestored))
    : plainServices;
  if (isFirstVisit) openStart();
  acceptDroppedFile(document.body, (file) => {
    if (file.ok && canBringIn(file.value.name)) void bringInFile(file.value);
    else if (file.ok) void services.openDroppedFile(file.value);
    else showNotice({ tone: 'trouble', text: file.error.message });
  });
  exposeState();
  createRoot(root).render(
    <StrictMode>
      <CrashSheet>
        <App services={services} />
      </CrashSheet>
    </StrictMode>,
  );
  keepOffline();
  if (!capabilities.workers) {
    resultsStore.setState({ error: 'this browser runs no workers' });
    showNotice({
      tone: 'trouble',
      text: 'This browser runs no workers, so nothing is traced or checked.',
      detail: 'Use a current browser; your setup can still be edited and saved.',
    });
    return;
  }
  startChecks(new Worker(new URL('./workers/checkWorker.ts', import.meta.url), { type: 'module' }));
  traceControl.connect(createTraceController(createBrowserTracePool()));
  createSmoother(new Worker(new URL('../transport/workers/denoiseWorker.ts', import.meta.url), { type: 'module' }));
}

void start();
