// The percentage beside other samples of the same lots: one number for each lot, one risk for each lot, the least expected cost.
import { designZeroForLot } from '../../statistics/plans/zero.ts'
import { greatestInteger } from '../../statistics/search.ts'
import type { AlikeLots, ReplayOnce } from './alike.ts'
import { leastCostSamples } from './least-cost.ts'
import { percentageOf } from './percent.ts'
import { type ReplayedSample, replayedSampleOf } from './trial.ts'

/** One size of lot: what the share and what the fixed number test of it. */
export type SizeRow = { size: number; lots: number; byShare: number; byNumber: number }

export type SamplesBeside = {
  /** the fixed sample size that spends no more tests than the share; a smaller lot is tested whole */
  number: number
  share: ReplayedSample
  fixed: ReplayedSample
  /** none allowed, and of every lot as many as its own terms ask for: the same risk whatever its size */
  risk: ReplayedSample
  /** of every lot the sample of least expected cost under what all these lots show together; undefined under five lots */
  leastCost: ReplayedSample | undefined
  /** a few sizes from the smallest lot to the largest */
  sizes: SizeRow[]
}

export type ShareOfLots = { percent: string; acceptanceNumber: number }

const sizesShown = 6

/** Undefined for no lots. */
export function samplesBeside(known: AlikeLots[], share: ShareOfLots, replay: ReplayOnce): SamplesBeside | undefined {
  const largest = known.reduce((most, { size }) => Math.max(most, size), 0)
  if (largest === 0) return undefined
  const { percent, acceptanceNumber } = share
  const byShare = replayedShare(known, share, replay)
  const testsOf = (number: number) => known.reduce((sum, { lots, size }) => sum + lots * Math.min(number, size), 0)
  const number = greatestInteger(1, largest, (each) => testsOf(each) <= byShare.tests)
  const fixedSample = ({ size }: AlikeLots) => ({ sampleSize: Math.min(number, size), acceptanceNumber })
  const leastCost = leastCostSamples(known)
  return {
    number,
    share: byShare,
    fixed: replayedSampleOf(known, fixedSample, replay),
    risk: replayedSampleOf(known, sampleForRisk, replay),
    leastCost: leastCost && replayedSampleOf(known, leastCost, replay),
    sizes: sizesOf(known, percent, number),
  }
}

/** The percentage itself, tried on all the lots. */
export function replayedShare(
  known: AlikeLots[],
  { percent, acceptanceNumber }: ShareOfLots,
  replay: ReplayOnce,
): ReplayedSample {
  return replayedSampleOf(known, ({ size }) => ({ sampleSize: percentageOf(size, percent), acceptanceNumber }), replay)
}

function sampleForRisk({ size, tooMany, catchOf100 }: AlikeLots) {
  const risk = Number(((100 - Number(catchOf100)) / 100).toPrecision(12))
  return { sampleSize: designZeroForLot({ lotSize: size, nonconforming: tooMany, risk }), acceptanceNumber: 0 }
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
