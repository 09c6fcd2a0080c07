// Exact chances of sampling without replacement, by whole-number arithmetic: a second way to every number, none of the engine's.

/** Ways to choose k of n. */
export function choose(n: number, k: number): bigint {
  if (k < 0 || k > n) return 0n
  let ways = 1n
  for (let i = 1; i <= Math.min(k, n - k); i++) ways = (ways * BigInt(n - i + 1)) / BigInt(i)
  return ways
}

/** A quotient of whole numbers to 17 digits or so. */
export function quotient(numerator: bigint, denominator: bigint): number {
  return Number((numerator * 10n ** 30n) / denominator) / 1e30
}

/** Chance that of N units, D of them nonconforming, a sample of n holds at most c. */
export function exactAtMost({ N, D, n, c }: { N: number; D: number; n: number; c: number }): number {
  let ways = 0n
  for (let found = 0; found <= c; found++) ways += choose(D, found) * choose(N - D, n - found)
  return quotient(ways, choose(N, n))
}

/** Nonconforming units left in the lot and shipped, on average: found ones are taken out, a rejected lot ships none. */
export function exactShipped({ N, D, n, c }: { N: number; D: number; n: number; c: number }): number {
  let sum = 0n
  for (let found = 0; found <= Math.min(c, D); found++)
    sum += BigInt(D - found) * choose(D, found) * choose(N - D, n - found)
  return quotient(sum, choose(N, n))
}
