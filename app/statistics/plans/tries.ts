// A lot that comes again after it was not accepted: how often it passes in the end, where nothing was done to it in between.
import { count, probability } from '../check.ts'

/**
 * Chance that a lot is accepted in one of so many tries by the same plan: 1 − (1 − P)^k. It supposes that nothing was sorted out between
 * the tries, and that each of them draws a fresh random sample of the whole lot.
 *
 * @param acceptance chance of acceptance in one try, from 0 to 1
 * @param tries 1 or more
 * @throws RangeError that names the argument out of range
 * @example acceptanceInTries(0.5, 3) // 0.875
 */
export function acceptanceInTries(acceptance: number, tries: number): number {
  probability('acceptance', acceptance)
  count('tries', tries, 1)
  return tries === 1 ? acceptance : -Math.expm1(tries * Math.log1p(-acceptance))
}
