// The fraction of cords that fail because a termination or the cable of theirs does.
import { probability } from '../check.ts'

/** Fractions nonconforming of single terminations (two a cord) and of lengths of cable (one a cord). */
export type Making = { termination: number; cable: number }

/**
 * Fraction of nonconforming cords when the two terminations and the cable fail independently: 1 − (1 − t)²(1 − c).
 *
 * Written as c + (1 − c) t (2 − t), so that a termination fraction of 1e-9 keeps its digits.
 *
 * @param termination fraction of terminations that spoil their cord, 0 to 1
 * @param cable fraction of cable lengths that spoil their cord, 0 to 1
 * @returns a fraction from 0 to 1
 * @throws RangeError that names the argument out of range
 *
 * Source: the product rule for independent causes.
 *
 * @example fractionOfCords({ termination: 0.02, cable: 0 }) // 0.0396: nearly twice the fraction of terminations
 */
export function fractionOfCords({ termination, cable }: Making): number {
  probability('termination', termination)
  probability('cable', cable)

  return cable + (1 - cable) * termination * (2 - termination)
}

/**
 * Fraction of nonconforming terminations that gives a fraction of nonconforming cords, the cable being sound:
 * 1 − √(1 − p).
 *
 * @param cords fraction of nonconforming cords, 0 to 1
 * @throws RangeError that names the argument out of range
 *
 * @example fractionOfTerminations(0.0396) // 0.02
 */
export function fractionOfTerminations(cords: number): number {
  probability('cords', cords)

  return cords / (1 + Math.sqrt(1 - cords))
}
