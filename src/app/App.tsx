import { Tooltip } from '@base-ui-components/react/tooltip';
import { type Services, ServicesContext } from '../views/session/index.ts';
import { Shell } from '../views/shell/index.ts';
import '../views/theme/index.ts';

export function App({ services }: { readonly services: Services }) {
  return (
    <ServicesContext value={services}>
      <Tooltip.Provider delay={500}>
        <Shell />
      </Tooltip.Provider>
    </ServicesContext>
  );
}
