import { Menu } from '@base-ui-components/react/menu';
import { useState } from 'react';
import { type HandOverKind, useServices } from '../session/index.ts';

interface Item {
  readonly kind: HandOverKind;
  readonly name: string;
  readonly format: string;
}

/** What leaves the program, by whom it is for. */
const GROUPS: readonly { readonly title: string; readonly items: readonly Item[] }[] = [
  {
    title: 'For the crew',
    items: [
      { kind: 'papersA4', name: 'Lighting papers, A4', format: 'PDF' },
      { kind: 'papersLetter', name: 'Lighting papers, letter', format: 'PDF' },
      { kind: 'plan', name: 'Plan of this frame', format: 'SVG' },
      { kind: 'schedule', name: 'Fixture schedule of this frame', format: 'CSV' },
      { kind: 'meterSheet', name: 'Meter sheet of this frame', format: 'CSV' },
      { kind: 'findings', name: 'Findings of the checks', format: 'CSV' },
    ],
  },
  { title: 'For the hire house', items: [{ kind: 'kitList', name: 'Kit list', format: 'CSV' }] },
  { title: 'For the client', items: [{ kind: 'client', name: 'Page with this picture', format: 'HTML' }] },
  {
    title: 'For other programs',
    items: [
      { kind: 'setup', name: 'The setup itself', format: 'JSON' },
      { kind: 'gltf', name: 'Set of this frame', format: 'glTF' },
    ],
  },
];

export function HandOverMenu() {
  const { handOver } = useServices();
  const [busy, setBusy] = useState(false);
  const run = ({ kind, name }: Item) => {
    setBusy(true);
    void handOver(kind, name.charAt(0).toLowerCase() + name.slice(1)).finally(() => setBusy(false));
  };
  return (
    <Menu.Root>
      <Menu.Trigger className="kg-word" disabled={busy}>
        Hand over
      </Menu.Trigger>
      <Menu.Portal>
        <Menu.Positioner className="kg-layer" sideOffset={6} align="end">
          <Menu.Popup className="kg-float kg-menu kg-hand-over" data-testid="hand-over">
            {GROUPS.map(({ title, items }) => (
              <Menu.Group key={title}>
                <Menu.GroupLabel className="kg-menu-note">{title}</Menu.GroupLabel>
                {items.map((item) => (
                  <Menu.Item key={item.kind} className="kg-menu-item" onClick={() => run(item)}>
                    <span>{item.name}</span>
                    <span className="kg-quiet">{item.format}</span>
                  </Menu.Item>
                ))}
              </Menu.Group>
            ))}
          </Menu.Popup>
        </Menu.Positioner>
      </Menu.Portal>
    </Menu.Root>
  );
}
