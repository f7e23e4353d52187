import { Menu } from '@base-ui-components/react/menu';
import { FIXTURE_PRESETS, GRIP_PRESETS } from '../../fixtures/catalog.ts';
import { GLASS_SHAPES, PIECE_KINDS } from '../../scene/pieceDefaults.ts';
import { addFixture, addGlass, addGrip, addPiece } from './addRecord.ts';
import { kindWords, shapeWords } from './pieceWords.ts';

interface Choice {
  readonly key: string;
  readonly label: string;
  run(): void;
}

function AddMenu({ word, choices }: { readonly word: string; readonly choices: readonly Choice[] }) {
  return (
    <Menu.Root>
      <Menu.Trigger className="kg-word kg-set-add">{word}</Menu.Trigger>
      <Menu.Portal>
        <Menu.Positioner className="kg-layer" sideOffset={4} align="start">
          <Menu.Popup className="kg-float kg-menu">
            {choices.map(({ key, label, run }) => (
              <Menu.Item key={key} className="kg-menu-item" onClick={run}>
                {label}
              </Menu.Item>
            ))}
          </Menu.Popup>
        </Menu.Positioner>
      </Menu.Portal>
    </Menu.Root>
  );
}

export const AddLight = () => (
  <AddMenu
    word="Add a light"
    choices={FIXTURE_PRESETS.map((preset) => ({ key: preset.id, label: preset.label, run: () => addFixture(preset) }))}
  />
);

export const AddGrip = () => (
  <AddMenu
    word="Add grip"
    choices={GRIP_PRESETS.map((preset) => ({ key: preset.id, label: preset.label, run: () => addGrip(preset) }))}
  />
);

export const AddPiece = () => (
  <AddMenu
    word="Add a piece"
    choices={[
      ...GLASS_SHAPES.map((shape) => ({
        key: shape,
        label: capitalise(shapeWords(shape)),
        run: () => addGlass(shape),
      })),
      ...PIECE_KINDS.flatMap((kind) =>
        kind === 'glass' ? [] : [{ key: kind, label: kindWords(kind), run: () => addPiece(kind) }],
      ),
    ]}
  />
);

const capitalise = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
