// The random draw spread over the cartons of a lot, so that no carton is passed over by chance.
import { count } from './check.ts'
import { drawUnits } from './draw.ts'

/** Cords in each carton, in carton order; units are numbered through, carton after carton, from 1. */
export type StratifiedDraw = { cartons: readonly number[]; sampleSize: number; seed: string }

/** Largest lot spread over its cartons: all of its slots are sorted. */
const largestLotSpread = 1_000_000

/**
 * Draws units of a lot without replacement, spread over its cartons in proportion to what they hold.
 *
 * Every unit has the same chance n ÷ N to be drawn, and a larger sample extends a smaller one of the same seed. With
 * cartons of one size each gives ⌊n ÷ cartons⌋ units or one more. To repeat it by hand:
 *
 * 1. Put the cartons in the order drawUnits gives for the seed with '/cartons' after it.
 * 2. Give a carton of M cords the slots (j − ½) ÷ M for j = 1 … M, and sort the slots of all cartons by that number,
 *    equal ones in the order of step 1: a ring of N slots, each belonging to a carton.
 * 3. Start at the slot that drawUnits draws first, of N, for the seed with '/start' after it, and go round.
 * 4. The k-th time a carton comes up, take the k-th cord that drawUnits gives for that carton, with '/' and the
 *    carton's number after the seed.
 *
 * The even start makes the chances equal whatever the cartons' sizes; the ring makes every stretch of it hold each
 * carton in proportion; the draw inside the carton makes its cords equally likely.
 *
 * @param cartons cords in each carton, whole numbers of at least 1, at most 1,000,000 together
 * @param sampleSize units to draw, 0 ≤ n ≤ N
 * @param seed text fixed and recorded after the plan is frozen, not empty
 * @returns n different unit numbers in the order drawn
 * @throws RangeError that names the argument out of range
 *
 * Source: systematic sampling with a random start (W. G. Madow & L. H. Madow, 1944, Ann. Math. Statist. 15, 1–24), the
 * slots being those of Webster's method of proportional seats; both from memory, the equal chances checked in the test.
 *
 * @example drawAcrossCartons({ cartons: [10, 10, 10], sampleSize: 6, seed: '1' }) // 19, 2, 29, 17, 5, 27: two of each carton
 */
export function drawAcrossCartons({ cartons, sampleSize, seed }: StratifiedDraw): number[] {
  count('cartons.length', cartons.length, 1, largestLotSpread)
  for (const [index, cords] of cartons.entries()) count(`cartons[${index}]`, cords, 1, largestLotSpread)
  const lotSize = cartons.reduce((sum, cords) => sum + cords, 0)
  count('lotSize', lotSize, 1, largestLotSpread)
  count('sampleSize', sampleSize, 0, lotSize)
  if (seed === '') throw new RangeError('seed must be a text of at least one character, not empty')

  const ring = ringOf(cartons, seed)
  const [start = 1] = drawUnits({ lotSize, sampleSize: 1, seed: `${seed}/start` })
  const turns = Array.from({ length: sampleSize }, (_, turn) => ring[(start - 1 + turn) % lotSize] ?? 0)
  const inside = drawsInside(cartons, turns, seed)
  const before = unitsBefore(cartons)
  return turns.map((carton) => (before[carton] ?? 0) + (inside.get(carton)?.next().value ?? 0))
}

/** The carton (from 0) of every slot of the ring, in order. */
function ringOf(cartons: readonly number[], seed: string): Int32Array {
  const order = drawUnits({ lotSize: cartons.length, sampleSize: cartons.length, seed: `${seed}/cartons` })
  const owners = new Int32Array(cartons.reduce((sum, cords) => sum + cords, 0))
  const places = new Float64Array(owners.length)
  let slot = 0
  for (const carton of order) {
    const cords = cartons[carton - 1] ?? 0
    for (let j = 1; j <= cords; j++) {
      owners[slot] = carton - 1
      places[slot] = (2 * j - 1) / (2 * cords) // one division, so equal fractions are equal numbers: 1 ÷ 6 is 3 ÷ 18
      slot++
    }
  }
  const sorted = Uint32Array.from(owners, (_, index) => index)
  sorted.sort((a, b) => (places[a] ?? 0) - (places[b] ?? 0) || a - b)
  return Int32Array.from(sorted, (index) => owners[index] ?? 0)
}

/** The cords of each carton that comes up, in the order drawn inside it. */
function drawsInside(
  cartons: readonly number[],
  turns: readonly number[],
  seed: string,
): Map<number, Iterator<number>> {
  const wanted = new Map<number, number>()
  for (const carton of turns) wanted.set(carton, (wanted.get(carton) ?? 0) + 1)
  const draws = new Map<number, Iterator<number>>()
  for (const [carton, sampleSize] of wanted) {
    const lotSize = cartons[carton] ?? 0
    draws.set(carton, drawUnits({ lotSize, sampleSize, seed: `${seed}/${carton + 1}` }).values())
  }
  return draws
}

function unitsBefore(cartons: readonly number[]): number[] {
  let sum = 0
  return cartons.map((cords) => {
    sum += cords
    return sum - cords
  })
}
