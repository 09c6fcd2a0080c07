// A series lot after lot: what its first lots let expect of every later one, and which lots fall outside that.
import * as betaBinomial from '../../statistics/distributions/beta-binomial.ts'
import { type Limits, type Signal, signalOf } from '../../statistics/history/chart.ts'
import { cusumPath, type DesignedCusum, designCusum } from '../../statistics/history/cusum.ts'
import type { Belief } from '../../statistics/history/lower.ts'
import { shrunkRate } from '../../statistics/history/rates.ts'
import type { CountedLot } from '../history.ts'

export type TrendPoint = {
  lotId: number
  /** size of the lot's sample as planned, and found in it; where testing stopped, at least so many */
  sampleSize: number
  found: number
  stopped: boolean
  /** one of the first lots, which the limits rest on */
  inBase: boolean
  /** counts of the sample that are within what the first lots let expect */
  limits: Limits
  signal: Signal
  /** chance that a lot of the series as it began shows so many or more */
  chance: number
  /** sum of what is found beyond the reference; undefined where there is no cumulative sum */
  sum: number | undefined
  sumSignals: boolean
}

export type Trend = {
  base: { lots: number; sampleSize: number; found: number }
  /** the share that the first lots let expect, drawn towards what suppliers are like */
  centre: number
  tailProbability: number
  points: TrendPoint[]
  /** sees a small lasting rise; acceptable is the centre, rejectable twice that */
  cusum: (DesignedCusum & { rejectable: number }) | undefined
}

/** Chance of a false alarm on either side, in every lot: that of three sigmas in a normal distribution. */
const tailProbability = 0.00135
const baseLots = 2
const baseCords = 200
/** A cumulative sum of more nonconforming cords a lot than these says nothing that the limits of single lots do not. */
const mostExpected = 4
/** Lots between two false alarms of the cumulative sum, on average. */
const runLength = 370

/**
 * The trend of a series; undefined where there is no lot after its first ones. Isolated lots are not of the series.
 *
 * The first lots, at least two with 200 cords in their samples, give a beta distribution of the share; the limits of a later
 * lot are those of the beta-binomial law of its sample's count, so that how little the first lots say is in them. A lot whose
 * testing stopped at the rejection number counts as the planned sample with at least so many found.
 *
 * @param lots decided lots of one series in the order of their decisions
 * @param prior what is believed of a supplier before its first lot
 */
export function trendOf(lots: CountedLot[], prior: Belief): Trend | undefined {
  const inspected = lots.flatMap((lot) => (lot.decided && !lot.isolated ? [sampleOf(lot, lot.decided)] : []))
  const first = baseOf(inspected)
  if (first.length < baseLots || first.length === inspected.length) return undefined
  const base = first.reduce(
    (sum, lot) => ({ sampleSize: sum.sampleSize + lot.recorded, found: sum.found + lot.found }),
    { sampleSize: 0, found: 0 },
  )
  const { belief, mean } = shrunkRate({ prior, own: base, confidence: 0.95 })
  const later = inspected.slice(first.length)
  const cusum = cusumFor(mean, later)
  const path = cusum ? cusumPath(later, cusum.cusum) : []
  return {
    base: { lots: first.length, ...base },
    centre: mean,
    tailProbability,
    points: inspected.map((lot, at) => {
      const after = path[at - first.length]
      const { recorded, ...shown } = lot
      return {
        ...shown,
        ...against(lot, belief),
        inBase: at < first.length,
        sum: after?.sum,
        sumSignals: after?.signals ?? false,
      }
    }),
    cusum,
  }
}

type Sample = { lotId: number; sampleSize: number; recorded: number; found: number; stopped: boolean }

function sampleOf({ lotId, sampleSize }: CountedLot, { recorded, found }: { recorded: number; found: number }): Sample {
  return { lotId, sampleSize, recorded, found, stopped: recorded < sampleSize }
}

function baseOf(inspected: Sample[]): Sample[] {
  let cords = 0
  const first: Sample[] = []
  for (const lot of inspected) {
    if (first.length >= baseLots && cords >= baseCords) break
    first.push(lot)
    cords += lot.recorded
  }
  return first
}

function against({ sampleSize, found, stopped }: Sample, belief: Belief) {
  const trials = { sampleSize, ...belief }
  const limits = {
    lower: betaBinomial.quantile(tailProbability, trials),
    upper: betaBinomial.quantile(1 - tailProbability, trials),
  }
  const signal = signalOf(found, limits)
  // A count that testing cut short may have grown: it is never a sign of fewer.
  return {
    limits,
    signal: stopped && signal === 'below' ? ('none' as const) : signal,
    chance: betaBinomial.moreThan(found - 1, trials),
  }
}

function cusumFor(acceptable: number, lots: Sample[]): Trend['cusum'] {
  const sizes = lots.map(({ sampleSize }) => sampleSize).toSorted((one, other) => one - other)
  const sampleSize = sizes[Math.floor(sizes.length / 2)]
  const rejectable = 2 * acceptable
  if (sampleSize === undefined || rejectable * sampleSize > mostExpected || rejectable >= 1) return undefined
  return { ...designCusum({ sampleSize, acceptable, rejectable, runLength }), rejectable }
}

/** What the latest lot says: the series' signal for the work list; undefined where it gives none. */
export function latestSignal(trend: Trend | undefined): TrendPoint | undefined {
  const latest = trend?.points.at(-1)
  return latest && (latest.signal === 'above' || latest.sumSignals) ? latest : undefined
}
