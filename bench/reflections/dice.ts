/** Draws from a stream of random numbers in [0, 1). */
export interface Dice {
  between(low: number, high: number): number;
  /** Both ends in. */
  whole(low: number, high: number): number;
  chance(share: number): boolean;
  oneOf<T>(items: readonly T[]): T;
  /** So many different items. */
  someOf<T>(items: readonly T[], count: number): T[];
}

export function createDice(random: () => number): Dice {
  const whole = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
  return {
    between: (low, high) => low + random() * (high - low),
    whole,
    chance: (share) => random() < share,
    oneOf: (items) => items[whole(0, items.length - 1)],
    someOf: (items, count) => {
      const left = items.slice();
      return Array.from({ length: count }, () => left.splice(whole(0, left.length - 1), 1)[0]);
    },
  };
}
