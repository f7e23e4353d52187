import type { World } from '../contracts.ts';
import { PRIMITIVE } from '../layout/schema.ts';

/** One field of every primitive, side by side: a loop over rays reads it without the rest of the record. */
export const primitiveColumn = (world: World, field: keyof typeof PRIMITIVE.offset): Int32Array =>
  Int32Array.from(
    { length: world.primitiveCount },
    (_, i) => world.primitiveWords[i * PRIMITIVE.strideWords + PRIMITIVE.offset[field]],
  );
