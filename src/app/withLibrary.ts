import { showNotice } from '../views/session/index.ts';
import type { LibraryKeeper } from './keepLibrary.ts';
import { type AppServices, openSetup } from './services.ts';

/** The services with the setups of this browser behind them. */
export function withLibrary(services: AppServices, keeper: LibraryKeeper): AppServices {
  return {
    ...services,
    startSetup(setup) {
      keeper.nextIs();
      services.startSetup(setup);
      // What was made here is kept at once, before anything of it is changed.
      void keeper.keepNow();
    },
    kept: {
      list: () => keeper.list(),
      async open(id) {
        if (id === keeper.openId()) return;
        const setup = await keeper.read(id);
        if (!setup.ok) {
          showNotice({ tone: 'trouble', text: setup.error.message });
          return;
        }
        keeper.nextIs(id);
        openSetup(setup.value);
      },
      duplicate: (id) => keeper.copy(id),
      rename: (id, title) => keeper.rename(id, title),
      remove: (id) => keeper.remove(id),
    },
  };
}
