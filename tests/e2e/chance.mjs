// Chance that can be played again: the same seed gives the same numbers.

/** Numbers from a seed: `below(n)` is one of 0 to n - 1, `of(list)` one of a list, `weighed(pairs)` one by its weight. */
export function chance(seed) {
  let state = seed >>> 0;
  // Source: the mixing steps are the public-domain "mulberry32"; from memory. Nothing rests on their quality.
  const next = () => {
    state = state + 0x6d2b79f5 | 0;
    let t = Math.imul(state ^ state >>> 15, 1 | state);
    t = t + Math.imul(t ^ t >>> 7, 61 | t) ^ t;
    return ((t ^ t >>> 14) >>> 0) / 4_294_967_296;
  };
  const below = (n) => Math.floor(next() * n);
  const of = (list) => list[below(list.length)];
  const weighed = (pairs) => {
    let left = next() * pairs.reduce((sum, [weight]) => sum + weight, 0);
    return (pairs.find(([weight]) => (left -= weight) < 0) ?? pairs[0])[1];
  };
  return { below, of, weighed };
}
