/** Places nearer than this part of the whole spread are one place. */
const SAME_SHARE = 1e-4;

/**
 * The place with half of the weight on either side, between places by their middles. Null without weight; infinite when the half
 * lies among infinite ones.
 */
export function weightedMedian(parts: readonly { readonly at: number; readonly weight: number }[]): number | null {
  const sorted = parts.filter(({ weight }) => weight > 0).sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
  if (sorted.length === 0) return null;
  const finite = sorted.filter(({ at }) => Number.isFinite(at));
  const sameM = finite.length > 0 ? SAME_SHARE * (finite[finite.length - 1].at - finite[0].at) : 0;
  const groups: { at: number; weight: number }[] = [];
  for (const part of sorted) {
    const last = groups[groups.length - 1];
    if (last && (last.at === part.at || part.at - last.at <= sameM)) last.weight += part.weight;
    else groups.push({ ...part });
  }
  const half = groups.reduce((sum, { weight }) => sum + weight, 0) / 2;
  let before = 0;
  let known: { readonly at: number; readonly upTo: number } | null = null;
  for (const { at, weight } of groups) {
    const upTo = before + weight / 2;
    if (upTo >= half) {
      if (!known || !Number.isFinite(at)) return at;
      return known.at + ((at - known.at) * (half - known.upTo)) / (upTo - known.upTo);
    }
    known = { at, upTo };
    before += weight;
  }
  return groups[groups.length - 1].at;
}
