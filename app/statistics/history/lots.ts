// A history of inspected lots.
import { count } from '../check.ts'

/** What was tested and found in one lot. */
export type LotResult = { readonly sampleSize: number; readonly found: number }

/** Refuses, by a RangeError that names the lot, counts that are none, and a history without a single tested unit. */
export function checkLots(lots: readonly LotResult[]): void {
  for (const [index, { sampleSize, found }] of lots.entries()) {
    count(`lots[${index}].sampleSize`, sampleSize)
    count(`lots[${index}].found`, found, 0, sampleSize)
  }
  if (!lots.some(({ sampleSize }) => sampleSize > 0))
    throw new RangeError('lots must hold at least one tested unit, not none')
}

/** Units tested and found over all lots. */
export function pooled(lots: readonly LotResult[]): LotResult {
  let sampleSize = 0
  let found = 0
  for (const lot of lots) {
    sampleSize += lot.sampleSize
    found += lot.found
  }
  return { sampleSize, found }
}
