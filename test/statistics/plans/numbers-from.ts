// Numbers for tests that try many arguments: the same ones in every run.

/** Numbers in [0, 1) from a seed: D. H. Lehmer's generator with multiplier 48271 (Park & Miller 1993). */
export function numbersFrom(seed: number): () => number {
  let state = seed
  return () => {
    state = (state * 48271) % 2147483647
    return state / 2147483647
  }
}
