// The same number of tests spent in another way: one fixed sample size for every lot instead of a share of each.
import { designZeroForLot } from '../../statistics/plans/zero.ts'
import { greatestInteger } from '../../statistics/search.ts'
import { type AlikeLots, type ReplayOnce, replayOnce } from './alike.ts'
import { percentageOf } from './replayed.ts'
import { type ReplayedSample, replayedSampleOf } from './trial.ts'

/** One size of lot: what the share and what the fixed number test of it. */
export type SizeRow = { size: number; lots: number; byShare: number; byNumber: number }

export type FixedSampleComparison = {
  /** the fixed sample size; a smaller lot is tested whole */
  number: number
  share: ReplayedSample
  fixed: ReplayedSample
  /** none allowed, and of every lot as many as its own terms ask for: the same risk whatever its size */
  risk: ReplayedSample
  /** a few sizes from the smallest lot to the largest */
  sizes: SizeRow[]
}

const sizesShown = 6

/** The largest number that spends no more tests than the share does. Undefined for no lots. */
export function fixedSampleComparison(
  known: AlikeLots[],
  percent: string,
  replay: ReplayOnce,
): FixedSampleComparison | undefined {
  const largest = known.reduce((most, { size }) => Math.max(most, size), 0)
  if (largest === 0) return undefined
  const share = replayedSampleOf(known, ({ size }) => percentageOf(size, percent), replay)
  const testsOf = (number: number) => known.reduce((sum, { lots, size }) => sum + lots * Math.min(number, size), 0)
  const number = greatestInteger(1, largest, (each) => testsOf(each) <= share.tests)
  const fixed = replayedSampleOf(known, ({ size }) => Math.min(number, size), replay)
  const risk = replayedSampleOf(known, sampleForRisk, replayOnce(0))
  return { number, share, fixed, risk, sizes: sizesOf(known, percent, number) }
}

function sampleForRisk({ size, tooMany, catchOf100 }: AlikeLots): number {
  const risk = Number(((100 - Number(catchOf100)) / 100).toPrecision(12))
  return designZeroForLot({ lotSize: size, nonconforming: tooMany, risk })
}

function sizesOf(known: AlikeLots[], percent: string, number: number): SizeRow[] {
  const counts = new Map<number, number>()
  for (const { lots, size } of known) counts.set(size, (counts.get(size) ?? 0) + lots)
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
