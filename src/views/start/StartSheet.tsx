import { Dialog } from '@base-ui-components/react/dialog';
import { useRef } from 'react';
import { BriefPage } from './BriefPage.tsx';
import './start.css';
import { closeStart, useStartPage } from './startStore.ts';
import { WaysPage } from './WaysPage.tsx';

/** How a setup begins: from a brief, from a demo, from an empty table, or where one left off. Over the whole window. */
export function StartSheet() {
  const page = useStartPage();
  const sheetRef = useRef<HTMLDivElement>(null);
  return (
    <Dialog.Root open={page !== null} onOpenChange={(open) => !open && closeStart()}>
      <Dialog.Portal>
        <Dialog.Popup ref={sheetRef} className="kg-start" initialFocus={sheetRef} tabIndex={-1} data-testid="start">
          {page === 'brief' ? <BriefPage /> : <WaysPage />}
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}
