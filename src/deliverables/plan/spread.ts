/**
 * Moves places along a line apart to at least `gap`, each as little as the whole allows, kept within [low, high] where
 * they fit. Input and output in the same order; the places need not be sorted.
 */
export function spreadApart(places: readonly number[], gap: number, low: number, high: number): number[] {
  const order = places.map((_, i) => i).sort((a, b) => places[a] - places[b]);
  // Least squares under an order with gaps: pool neighbours that clash about their mean (pool adjacent violators).
  const pools: { sum: number; count: number }[] = [];
  order.forEach((index, k) => {
    pools.push({ sum: places[index] - k * gap, count: 1 });
    while (pools.length > 1) {
      const last = pools[pools.length - 1];
      const before = pools[pools.length - 2];
      if (before.sum / before.count <= last.sum / last.count) break;
      pools.pop();
      before.sum += last.sum;
      before.count += last.count;
    }
  });
  const spread = new Array<number>(places.length);
  let k = 0;
  for (const { sum, count } of pools) {
    for (let i = 0; i < count; i++, k++) {
      const most = high - (places.length - 1) * gap;
      spread[order[k]] = Math.min(Math.max(sum / count, low), Math.max(low, most)) + k * gap;
    }
  }
  return spread;
}
