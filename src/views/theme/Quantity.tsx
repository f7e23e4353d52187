import { formatQuantity } from './formatQuantity.ts';

/** A figure with its unit in the lower voice. */
export function Quantity({ value, unit }: { readonly value: number; readonly unit: string }) {
  const text = formatQuantity(value, unit);
  return (
    <span className="kg-figure">
      {text.figure}
      <span className="kg-unit">{text.unit}</span>
    </span>
  );
}
