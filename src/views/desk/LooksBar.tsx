import { Menu } from '@base-ui-components/react/menu';
import { blendLooks, standsAt, statesOfLook } from '../../document/looks.ts';
import { documentStore, useFrame, useFrameScene } from '../session/index.ts';
import { RangeSlider, Tip } from '../theme/index.ts';
import { blendChanges, forgetLooks, goToLook, keepLook, type LookSlot } from './deskCommands.ts';

/** Two looks of the lights, kept with the frame, and the way between them. */
export function LooksBar() {
  const { fixtures } = useFrameScene();
  const { desk } = useFrame();
  if (fixtures.length === 0) return null;
  const { lookA, lookB, blendShare = 0 } = desk ?? {};
  const both = lookA !== undefined && lookB !== undefined;
  const stands = both && standsAt(blendLooks(lookA, lookB, blendShare, fixtures), fixtures);
  const blend = (share: number) => Math.round(share * 100) / 100;
  return (
    <div className="kg-looks" data-testid="looks" data-left={both && !stands ? true : undefined}>
      <LookWord slot="lookA" letter="A" />
      {both && (
        <span className="kg-looks-blend">
          <RangeSlider
            label="Between look A and look B"
            testId="blend"
            value={blendShare}
            min={0}
            max={1}
            step={0.01}
            valueText={
              stands ? `${Math.round(blendShare * 100)} percent of look B` : 'the lights have been set otherwise since'
            }
            onBegin={() => documentStore.begin('Blend of the looks')}
            onMove={(share) => documentStore.update(blendChanges(blend(share)))}
            onEnd={documentStore.commit}
            onCancel={documentStore.cancel}
            onStep={(share) => documentStore.apply('Blend of the looks', blendChanges(blend(share)))}
          />
        </span>
      )}
      <LookWord slot="lookB" letter="B" />
      {(lookA || lookB) && <LookMenu />}
    </div>
  );
}

function LookWord({ slot, letter }: { readonly slot: LookSlot; readonly letter: string }) {
  const { fixtures } = useFrameScene();
  const look = useFrame().desk?.[slot];
  const stands = look !== undefined && standsAt(statesOfLook(look, fixtures), fixtures);
  return (
    <Tip
      text={
        look
          ? `Sets the lights as look ${letter} has them.`
          : `Keeps switch, dimmer and colour of all lights as look ${letter}.`
      }
    >
      <button
        type="button"
        className="kg-word"
        aria-pressed={stands}
        onClick={() => (look ? goToLook(slot) : keepLook(slot))}
      >
        {look ? `Look ${letter}` : `Keep look ${letter}`}
      </button>
    </Tip>
  );
}

function LookMenu() {
  return (
    <Menu.Root>
      <Menu.Trigger className="kg-word" aria-label="Keep or forget looks">
        Keep
      </Menu.Trigger>
      <Menu.Portal>
        <Menu.Positioner className="kg-layer" sideOffset={4} align="end">
          <Menu.Popup className="kg-float kg-menu">
            <Menu.Item className="kg-menu-item" onClick={() => keepLook('lookA')}>
              Keep the lights as look A
            </Menu.Item>
            <Menu.Item className="kg-menu-item" onClick={() => keepLook('lookB')}>
              Keep the lights as look B
            </Menu.Item>
            <Menu.Item className="kg-menu-item" onClick={forgetLooks}>
              Forget both
            </Menu.Item>
          </Menu.Popup>
        </Menu.Positioner>
      </Menu.Portal>
    </Menu.Root>
  );
}
