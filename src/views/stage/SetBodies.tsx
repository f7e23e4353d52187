import { type ThreeEvent, useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { developParams } from '../../camera/develop.ts';
import { pickRecord } from '../arrange/index.ts';
import { isSoftwareRenderer } from '../resources/isSoftwareRenderer.ts';
import {
  hoverRecord,
  selectionOf,
  sessionStore,
  useFrameScene,
  useLayerGains,
  useSelection,
  useSession,
  useSetModel,
} from '../session/index.ts';
import { StageSet } from './StageSet.ts';
import { recordOf, takeHold } from './stageHand.ts';
import { useStageEye } from './useStageEye.ts';

const HARDWARE = { cells: 3, patches: 20, secondHandShadows: true };
const SOFTWARE = { cells: 2, patches: 6, secondHandShadows: false };
/** A press that moves farther than this turns the stage and selects nothing. */
const CLICK_WITHIN_PX = 4;

/** Everything on the set, and the hand on it. */
export function SetBodies() {
  const scene = useFrameScene();
  const set = useSetModel();
  const layerGains = useLayerGains();
  const selected = useSelection();
  const hoveredId = useSession((state) => state.hoveredId);
  const params = useMemo(() => developParams(scene.camera), [scene.camera]);
  const renderer = useThree((state) => state.gl);
  const invalidate = useThree((state) => state.invalidate);
  const eye = useStageEye();
  const stageSet = useMemo(() => new StageSet(isSoftwareRenderer(renderer) ? SOFTWARE : HARDWARE), [renderer]);

  useEffect(() => () => stageSet.dispose(), [stageSet]);
  useEffect(() => {
    stageSet.update({ scene, set, layerGains, params });
    stageSet.emphasise(selected, hoveredId);
    invalidate();
  }, [stageSet, scene, set, layerGains, params, selected, hoveredId, invalidate]);

  const onPointerDown = (event: ThreeEvent<PointerEvent>) => {
    const recordId = recordOf(event.object);
    if (event.button !== 0 || recordId === null || event.shiftKey) return;
    if (!selectionOf(sessionStore.getState()).includes(recordId)) return;
    event.stopPropagation();
    takeHold(eye(), recordId, 'level', event.nativeEvent);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: no HTML element; desk and drawing select by keyboard
    <primitive
      object={stageSet.group}
      onPointerDown={onPointerDown}
      onClick={(event: ThreeEvent<MouseEvent>) => {
        if (event.delta > CLICK_WITHIN_PX) return;
        event.stopPropagation();
        pickRecord(recordOf(event.object), { add: event.shiftKey, alone: event.altKey });
      }}
      onPointerMove={(event: ThreeEvent<PointerEvent>) => {
        event.stopPropagation();
        hoverRecord(recordOf(event.object));
      }}
      onPointerOut={() => hoverRecord(null)}
    />
  );
}
