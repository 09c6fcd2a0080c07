// How many cartons a random draw over a whole lot opens: why a group is not "the cords of the next cartons".
import { count } from './check.ts'
import { moreThan } from './distributions/hypergeometric.ts'

/**
 * Cartons opened on average by picks drawn at random from a whole lot, without replacement. Any group of so many picks of one draw
 * opens as many, the first like the last.
 *
 * @param lotSize N ≥ 1 units, in cartons that are full but for the last
 * @param unitsInCarton units in a full carton, at least 1
 * @param picks m from 0 to N
 * @throws RangeError that names the argument out of range
 *
 * Formula: Σ over the cartons of 1 − C(N − s, m) ÷ C(N, m), s the units in the carton (hypergeometric).
 *
 * @example cartonsOpened({ lotSize: 600, unitsInCarton: 50, picks: 30 }) // 11.176
 */
export function cartonsOpened({
  lotSize,
  unitsInCarton,
  picks,
}: {
  lotSize: number
  unitsInCarton: number
  picks: number
}): number {
  count('lotSize', lotSize, 1)
  count('unitsInCarton', unitsInCarton, 1)
  count('picks', picks, 0, lotSize)

  const opened = (units: number) => moreThan(0, { lotSize, nonconforming: units, sampleSize: picks })
  const full = Math.floor(lotSize / unitsInCarton)
  const rest = lotSize % unitsInCarton
  return (full === 0 ? 0 : full * opened(unitsInCarton)) + (rest === 0 ? 0 : opened(rest))
}
