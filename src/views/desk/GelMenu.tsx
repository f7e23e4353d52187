import { Menu } from '@base-ui-components/react/menu';
import type { Gel } from '../../fixtures/modifierRecords.ts';
import type { Fixture } from '../../fixtures/records.ts';
import { nameOfGel, SHELF_GELS } from '../inspector/gelShelf.ts';
import { documentStore, updateRecord } from '../session/index.ts';

/** The gel in front of a light as one word, and the shelf to take another from. Two and more are laid in the inspector. */
export function GelMenu({ fixture }: { readonly fixture: Fixture }) {
  const gels = fixture.gels ?? [];
  const now = gels.length === 1 ? (nameOfGel(gels[0]) ?? 'own gel') : gels.length > 1 ? `${gels.length} gels` : null;
  const set = (gel: Gel | null) =>
    documentStore.apply(`Gel of ${fixture.name}`, [
      updateRecord('fixtures', fixture.id, { gels: gel === null ? null : [gel] }),
    ]);
  return (
    <Menu.Root>
      <Menu.Trigger
        className="kg-word kg-strip-gel"
        aria-label={`Gel of ${fixture.name}: ${now ?? 'no gel'}`}
        data-none={now === null || undefined}
        data-testid="gel"
      >
        {now ?? 'no gel'}
      </Menu.Trigger>
      <Menu.Portal>
        <Menu.Positioner className="kg-layer" sideOffset={4} align="start">
          <Menu.Popup className="kg-float kg-menu kg-gel-menu">
            <Menu.Item className="kg-menu-item" onClick={() => set(null)}>
              No gel
            </Menu.Item>
            {[...SHELF_GELS].map(([name, gel]) => (
              <Menu.Item
                key={name}
                className="kg-menu-item"
                data-now={name === now || undefined}
                onClick={() => set(gel)}
              >
                {name}
              </Menu.Item>
            ))}
          </Menu.Popup>
        </Menu.Positioner>
      </Menu.Portal>
    </Menu.Root>
  );
}
