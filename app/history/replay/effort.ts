// The same number of tests spent in another way: one fixed sample size for every lot instead of a share of each.
import { greatestInteger } from '../../statistics/search.ts'
import type { KnownLot } from './replayed.ts'
import { percentageOf } from './replayed.ts'
import { type ReplayedSample, replayedSampleOf } from './trial.ts'

/** One size of lot: what the share and what the fixed number test of it. */
export type SizeRow = { size: number; lots: number; byShare: number; byNumber: number }

export type FixedSampleComparison = {
  /** the fixed sample size; a smaller lot is tested whole */
  number: number
  share: ReplayedSample
  fixed: ReplayedSample
  /** a few sizes from the smallest lot to the largest */
  sizes: SizeRow[]
}

const sizesShown = 6

/** The largest number that spends no more tests than the share does. Undefined for no lots. */
export function fixedSampleComparison(
  lots: KnownLot[],
  percent: string,
  acceptanceNumber: number,
): FixedSampleComparison | undefined {
  const largest = Math.max(0, ...lots.map((lot) => lot.size))
  if (largest === 0) return undefined
  const share = replayedSampleOf(lots, (lot) => percentageOf(lot.size, percent), acceptanceNumber)
  const testsOf = (number: number) => lots.reduce((sum, lot) => sum + Math.min(number, lot.size), 0)
  const number = greatestInteger(1, largest, (each) => testsOf(each) <= share.tests)
  const fixed = replayedSampleOf(lots, (lot) => Math.min(number, lot.size), acceptanceNumber)
  return { number, share, fixed, sizes: sizesOf(lots, percent, number) }
}

function sizesOf(lots: KnownLot[], percent: string, number: number): SizeRow[] {
  const counts = new Map<number, number>()
  for (const { size } of lots) counts.set(size, (counts.get(size) ?? 0) + 1)
  const sizes = [...counts.keys()].toSorted((a, b) => a - b)
  const last = sizes.length - 1
  const shown = new Set(
    Array.from({ length: sizesShown }, (_, step) => sizes[Math.round((last * step) / (sizesShown - 1))]),
  )
  return sizes
    .filter((size) => shown.has(size))
    .map((size) => ({
      size,
      lots: counts.get(size) ?? 0,
      byShare: percentageOf(size, percent),
      byNumber: Math.min(number, size),
    }))
}
