// How the testing of a lot can end under its own rule, and in how many orders of its units.
import { count } from '../check.ts'

/** How the testing of one lot ended. Without `rejectionNumber` it is finished whatever is found. */
export type LotUnderRule = {
  readonly sampleSize: number
  readonly tested: number
  readonly found: number
  /** testing stops with this many found */
  readonly rejectionNumber?: number | undefined
}

/** One way in which a lot can end, with the logarithm of the number of orders that lead to it. */
export type LotEnding = { tested: number; found: number; arrangements: number }

/** Units of one lot, or of several together. */
export type Totals = { tested: number; found: number }

/** Refuses, by a RangeError that names the lot and the count, lots that cannot have ended so. */
export function checkRules(lots: readonly LotUnderRule[]): void {
  if (lots.length === 0) throw new RangeError('lots must hold at least one lot, not none')
  for (const [index, { sampleSize, tested, found, rejectionNumber }] of lots.entries()) {
    const name = `lots[${index}]`
    count(`${name}.sampleSize`, sampleSize, 1)
    if (rejectionNumber !== undefined) count(`${name}.rejectionNumber`, rejectionNumber, 1)
    count(`${name}.found`, found, 0, Math.min(sampleSize, rejectionNumber ?? sampleSize))
    const stopped = found === rejectionNumber
    count(`${name}.tested`, tested, stopped ? found : sampleSize, sampleSize)
  }
}

/** All ways in which the lot can end within the totals. */
export function endingsOfLot(
  { sampleSize, rejectionNumber }: LotUnderRule,
  totals: { tested: number; found: number },
): LotEnding[] {
  const mostFinished = Math.min(
    totals.found,
    rejectionNumber === undefined ? sampleSize : rejectionNumber - 1,
    sampleSize,
  )
  const endings: LotEnding[] = []
  let arrangements = 0
  for (let found = 0; found <= mostFinished; found++) {
    endings.push({ tested: sampleSize, found, arrangements })
    arrangements += Math.log((sampleSize - found) / (found + 1))
  }
  if (rejectionNumber === undefined || rejectionNumber > Math.min(totals.found, sampleSize)) return endings
  arrangements = 0
  for (let tested = rejectionNumber; tested <= Math.min(sampleSize, totals.tested); tested++) {
    endings.push({ tested, found: rejectionNumber, arrangements })
    arrangements += Math.log(tested / (tested - rejectionNumber + 1))
  }
  return endings
}
