import { formatLength, useComfort } from '../comfort/index.ts';
import { formatQuantity } from './formatQuantity.ts';

interface QuantityProps {
  readonly value: number;
  readonly unit: string;
  /** Prints all the words of the unit. */
  readonly long?: boolean;
}

/** A figure with its unit in the lower voice. */
export function Quantity({ value, unit, long = false }: QuantityProps) {
  const lengths = useComfort((comfort) => comfort.lengths);
  if (unit === 'm' && lengths === 'feet') return <span className="kg-figure">{formatLength(value, lengths)}</span>;
  const text = formatQuantity(value, unit);
  return (
    <>
      <span className="kg-figure">{text.figure}</span>
      <span className="kg-unit">{long ? text.long : text.unit}</span>
    </>
  );
}
