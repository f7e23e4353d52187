import { CROP_NAMES, type CropName, type Delivery } from '../../../document/frameRecords.ts';
import { editFrame, useFrame } from '../../session/index.ts';

/** Which delivery shapes and safe areas lie over the picture. They belong to the frame and are kept with it. */
export function CropOptions() {
  const { crops, safeAreas } = useFrame().delivery ?? NO_DELIVERY;
  const set = (label: string, delivery: Delivery) =>
    // With nothing in it the field goes.
    editFrame(label, { delivery: delivery.crops.length > 0 || delivery.safeAreas ? delivery : null });
  const toggle = (name: CropName) =>
    set(`Crop ${name}`, {
      safeAreas,
      crops: crops.includes(name) ? crops.filter((other) => other !== name) : [...crops, name],
    });
  return (
    <>
      <fieldset className="kg-tool-choice kg-crop-choice" aria-label="Delivery shapes">
        {CROP_NAMES.map((name) => (
          <button
            key={name}
            type="button"
            className="kg-word kg-figure"
            aria-pressed={crops.includes(name)}
            onClick={() => toggle(name)}
          >
            {name}
          </button>
        ))}
      </fieldset>
      <button
        type="button"
        className="kg-word kg-tool-rest"
        aria-pressed={safeAreas}
        title="93 % for action, 90 % for titles"
        onClick={() => set('Safe areas', { crops, safeAreas: !safeAreas })}
      >
        Safe areas
      </button>
    </>
  );
}

const NO_DELIVERY: Delivery = { crops: [], safeAreas: false };
