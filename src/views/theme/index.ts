export { FindField, FindRow } from './FindList.tsx';
export { NameField } from './NameField.tsx';

import '@fontsource-variable/spline-sans';
import '@fontsource-variable/spline-sans-mono';
import './theme.css';

export * from './formatQuantity.ts';
export * from './GradeMark.tsx';
export * from './Quantity.tsx';
export * from './RangeSlider.tsx';
export * from './StepField.tsx';
export * from './Tip.tsx';
