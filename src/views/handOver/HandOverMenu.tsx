import { Menu } from '@base-ui-components/react/menu';
import { lazy, Suspense, useState } from 'react';
import { type HandOverKind, type TableKind, type TracedKind, useServices } from '../session/index.ts';
import './handOver.css';
import { openHandOver, useHandOver } from './handOverStore.ts';
import { TRACED_WORDS } from './tracedKinds.ts';

const TracedDialog = lazy(() => import('./TracedDialog.tsx').then((module) => ({ default: module.TracedDialog })));
const MeterMatchDialog = lazy(() =>
  import('./MeterMatchDialog.tsx').then((module) => ({ default: module.MeterMatchDialog })),
);

interface FileItem {
  readonly kind: HandOverKind;
  readonly name: string;
  readonly format: string;
}

/** What leaves the program, by whom it is for. */
const CREW: readonly FileItem[] = [
  { kind: 'papersA4', name: 'Lighting papers, A4', format: 'PDF' },
  { kind: 'papersLetter', name: 'Lighting papers, letter', format: 'PDF' },
  { kind: 'plan', name: 'Plan of this frame', format: 'SVG' },
];
const CLIENT: readonly FileItem[] = [{ kind: 'client', name: 'Page with this picture', format: 'HTML' }];
const EXCHANGE: readonly FileItem[] = [
  { kind: 'setup', name: 'The setup itself', format: 'JSON' },
  { kind: 'gltf', name: 'Set of this frame', format: 'glTF' },
];
const TABLES: readonly { readonly kind: TableKind; readonly name: string }[] = [
  { kind: 'kitList', name: 'Kit list' },
  { kind: 'stands', name: 'Stands, weights and bags' },
  { kind: 'power', name: 'Power' },
  { kind: 'circuits', name: 'Power and cable by circuit' },
  { kind: 'schedule', name: 'Fixture schedule of this frame' },
  { kind: 'gripSchedule', name: 'Grip schedule of this frame' },
  { kind: 'meterSheet', name: 'Meter sheet of this frame' },
  { kind: 'eachLight', name: 'Meter sheet, each light alone' },
  { kind: 'buildOrder', name: 'Build order' },
  { kind: 'shotList', name: 'Shot list' },
  { kind: 'heroClock', name: 'Hero clock' },
  { kind: 'cautions', name: 'Cautions' },
  { kind: 'findings', name: 'Findings of the checks' },
];
const TRACED: readonly TracedKind[] = ['picture', 'turn', 'contactSheet', 'lightByLight', 'beforeAfter'];

export function HandOverMenu() {
  const { handOver, copyShareLink } = useServices();
  const dialog = useHandOver((state) => state.dialog);
  const [busy, setBusy] = useState(false);
  const run = (kind: HandOverKind, name: string) => {
    setBusy(true);
    void handOver(kind, name.charAt(0).toLowerCase() + name.slice(1)).finally(() => setBusy(false));
  };
  const fileItem = ({ kind, name, format }: FileItem) => (
    <Line key={kind} name={name} format={format} onClick={() => run(kind, name)} />
  );
  const tracedItem = (kind: TracedKind) => (
    <Line
      key={kind}
      name={`${TRACED_WORDS[kind].name}\u2026`}
      format={TRACED_WORDS[kind].format}
      onClick={() => openHandOver(kind)}
    />
  );
  return (
    <>
      <Menu.Root>
        <Menu.Trigger className="kg-word" disabled={busy}>
          Hand over
        </Menu.Trigger>
        <Menu.Portal>
          <Menu.Positioner className="kg-layer" sideOffset={6} align="end">
            <Menu.Popup className="kg-float kg-menu kg-hand-over" data-testid="hand-over">
              <Group title="For the crew and the hire house">
                {CREW.map(fileItem)}
                <TableMenu onTake={run} />
                <Line name="Match a meter&#8230;" format="on set" onClick={() => openHandOver('meter')} />
              </Group>
              <Group title="Pictures, traced anew">{TRACED.map(tracedItem)}</Group>
              <Group title="For the client">
                {CLIENT.map(fileItem)}
                {tracedItem('clientPage')}
              </Group>
              <Group title="For other programs">
                {EXCHANGE.map(fileItem)}
                <Line name="Link to this setup" format="copied" onClick={() => void copyShareLink()} />
              </Group>
            </Menu.Popup>
          </Menu.Positioner>
        </Menu.Portal>
      </Menu.Root>
      <Suspense fallback={null}>
        {dialog === 'meter' && <MeterMatchDialog />}
        {dialog !== null && dialog !== 'meter' && <TracedDialog kind={dialog} />}
      </Suspense>
    </>
  );
}

function TableMenu({ onTake }: { onTake(kind: HandOverKind, name: string): void }) {
  return (
    <Menu.SubmenuRoot>
      <Menu.SubmenuTrigger className="kg-menu-item" data-testid="hand-over-tables">
        <span>Tables</span>
        <span className="kg-quiet">CSV &#8250;</span>
      </Menu.SubmenuTrigger>
      <Menu.Portal>
        <Menu.Positioner className="kg-layer" sideOffset={2} side="left" align="start">
          <Menu.Popup className="kg-float kg-menu">
            <Line name="All tables" format="ZIP" onClick={() => onTake('tables', 'All tables')} />
            {TABLES.map(({ kind, name }) => (
              <Line key={kind} name={name} format="CSV" onClick={() => onTake(kind, name)} />
            ))}
          </Menu.Popup>
        </Menu.Positioner>
      </Menu.Portal>
    </Menu.SubmenuRoot>
  );
}

function Group({ title, children }: { readonly title: string; readonly children: React.ReactNode }) {
  return (
    <Menu.Group>
      <Menu.GroupLabel className="kg-menu-note">{title}</Menu.GroupLabel>
      {children}
    </Menu.Group>
  );
}

function Line(props: { readonly name: string; readonly format: string; onClick(): void }) {
  return (
    <Menu.Item className="kg-menu-item" onClick={props.onClick}>
      <span>{props.name}</span>
      <span className="kg-quiet">{props.format}</span>
    </Menu.Item>
  );
}
