import { Menu } from '@base-ui-components/react/menu';
import './comfort.css';
import { type Comfort, comfortStore, useComfort } from './comfortStore.ts';

const ROOMS: readonly (readonly [Comfort['room'], string])[] = [
  ['dim', 'Dim'],
  ['bright', 'Bright'],
  ['system', 'As this machine is set'],
];
const LENGTHS: readonly (readonly [Comfort['lengths'], string])[] = [
  ['metric', 'Metres and centimetres'],
  ['feet', 'Feet and inches'],
];

/** The light of the room round the picture, and what lengths are said in. */
export function ComfortMenu() {
  const { room, lengths } = useComfort((comfort) => comfort);
  return (
    <Menu.Root>
      <Menu.Trigger className="kg-word">Room</Menu.Trigger>
      <Menu.Portal>
        <Menu.Positioner className="kg-layer" sideOffset={6} align="end">
          <Menu.Popup className="kg-float kg-menu">
            <Choice
              title="Light in the room"
              value={room}
              options={ROOMS}
              onChoose={(next) => comfortStore.setState({ room: next })}
            />
            <Choice
              title="Lengths"
              value={lengths}
              options={LENGTHS}
              onChoose={(next) => comfortStore.setState({ lengths: next })}
            />
          </Menu.Popup>
        </Menu.Positioner>
      </Menu.Portal>
    </Menu.Root>
  );
}

interface ChoiceProps<T extends string> {
  readonly title: string;
  readonly value: T;
  readonly options: readonly (readonly [T, string])[];
  onChoose(value: T): void;
}

function Choice<T extends string>({ title, value, options, onChoose }: ChoiceProps<T>) {
  return (
    <Menu.Group>
      <Menu.GroupLabel className="kg-menu-note">{title}</Menu.GroupLabel>
      <Menu.RadioGroup value={value} onValueChange={(next: T) => onChoose(next)}>
        {options.map(([option, words]) => (
          <Menu.RadioItem key={option} className="kg-menu-item kg-comfort-item" value={option} closeOnClick={false}>
            <span>{words}</span>
            <Menu.RadioItemIndicator className="kg-comfort-mark">chosen</Menu.RadioItemIndicator>
          </Menu.RadioItem>
        ))}
      </Menu.RadioGroup>
    </Menu.Group>
  );
}
