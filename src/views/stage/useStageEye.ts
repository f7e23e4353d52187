import { useThree } from '@react-three/fiber';
import { useCallback } from 'react';
import { isControls } from './isControls.ts';

/** What a hand on the stage needs of it, read when asked. */
export function useStageEye() {
  const get = useThree((state) => state.get);
  return useCallback(() => {
    const { camera, gl, controls } = get();
    return { camera, element: gl.domElement, controls: isControls(controls) ? controls : null };
  }, [get]);
}
