// A series lot after lot: what its first lots let expect of every later one, and which lots fall outside that.
import * as betaBinomial from '../../statistics/distributions/beta-binomial.ts'
import { type Limits, type Signal, signalOf } from '../../statistics/history/chart.ts'
import { cusumPath, type DesignedCusum, designCusum } from '../../statistics/history/cusum.ts'
import type { LotResult } from '../../statistics/history/lots.ts'
import type { Belief } from '../../statistics/history/lower.ts'
import { shrunkRate } from '../../statistics/history/rates.ts'
import { endOf } from '../counted.ts'
import type { CountedLot } from '../counted-lots.ts'

export type TrendPoint = {
  lotId: number
  /** cords counted: the sample as planned */
  counted: number
  /** nonconforming among them; where testing stopped, at least so many */
  found: number
  stopped: boolean
  /** one of the first lots, which the limits rest on */
  inBase: boolean
  /** counts that are within what the first lots let expect */
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
/** Lots of fewer cords have no sum: the design for single units is made for a stream of them, not for lots. */
const fewestInSum = 2
/** Of more cords in a lot the run length of the sum is not worked out: every count is a way through its chain. */
const mostInSum = 100_000
/** Lots between two false alarms of the cumulative sum, on average. */
const runLength = 370

/** A series takes as long as so many lots do: for the design of its cumulative sum, and to ask whether its lots differ. */
export const piecesOfTrend = 101

/**
 * The trend of a series; undefined where there is no lot after its first ones. Isolated lots are not of the series.
 *
 * The first lots, at least two with 200 cords in their samples, give a beta distribution of the share; the limits of a later
 * lot are those of the beta-binomial law of its count, so that how little the first lots say is in them. A lot whose testing
 * stopped at the rejection number counts as the planned sample with at least so many found. Samples alone count, of screened lots too.
 *
 * @param lots decided lots of one series in the order of their decisions
 * @param prior what is believed of a supplier before its first lot
 */
export function trendOf(lots: CountedLot[], prior: Belief): Trend | undefined {
  const inspected = lots.filter((lot) => lot.decided && !lot.isolated && !lot.resubmitted && !lot.replacement)
  const first = baseOf(inspected)
  if (first.lots < baseLots || first.lots === inspected.length) return undefined
  const { belief, mean } = shrunkRate({ prior, own: first, confidence: 0.95 })
  const points = inspected.map(pointOf)
  const later = points.slice(first.lots).map(({ counted, found }) => ({ sampleSize: counted, found }))
  const cusum = cusumFor(mean, later)
  const path = cusum ? cusumPath(later, cusum.cusum) : []
  return {
    base: first,
    centre: mean,
    tailProbability,
    points: points.map((point, at) => {
      const after = path[at - first.lots]
      const sum = { sum: after?.sum, sumSignals: after?.signals ?? false }
      return { ...point, ...against(point, belief), ...sum, inBase: at < first.lots }
    }),
    cusum,
  }
}

type Counted = Pick<TrendPoint, 'lotId' | 'counted' | 'found' | 'stopped'>

function pointOf(lot: CountedLot): Counted {
  const { lotId, sample } = lot
  const { sampleSize } = endOf(lot, sample.recorded)
  return { lotId, counted: sampleSize, found: sample.found, stopped: sample.recorded < sampleSize }
}

/** What a screening tests besides comes from lots whose sample failed. */
function baseOf(inspected: CountedLot[]): Trend['base'] {
  const base = { lots: 0, sampleSize: 0, found: 0 }
  for (const { decided } of inspected) {
    if (base.lots >= baseLots && base.sampleSize >= baseCords) break
    base.lots += 1
    base.sampleSize += decided?.recorded ?? 0
    base.found += decided?.found ?? 0
  }
  return base
}

function against({ counted, found, stopped }: Counted, belief: Belief) {
  const trials = { sampleSize: counted, ...belief }
  const limits = {
    lower: betaBinomial.quantile(tailProbability, trials),
    upper: betaBinomial.quantile(1 - tailProbability, trials),
  }
  const signal = signalOf(found, limits)
  return {
    limits,
    // A count that testing cut short may have grown: it is never a sign of fewer.
    signal: stopped && signal === 'below' ? ('none' as const) : signal,
    chance: betaBinomial.moreThan(found - 1, trials),
  }
}

function cusumFor(acceptable: number, lots: LotResult[]): Trend['cusum'] {
  const sizes = lots.map(({ sampleSize }) => sampleSize).toSorted((one, other) => one - other)
  const sampleSize = sizes[Math.floor(sizes.length / 2)]
  const rejectable = 2 * acceptable
  if (sampleSize === undefined || sampleSize < fewestInSum || sampleSize > mostInSum) return undefined
  if (rejectable * sampleSize > mostExpected || rejectable >= 1) return undefined
  return { ...designCusum({ sampleSize, acceptable, rejectable, runLength }), rejectable }
}

/** What the latest lot says: the series' signal for the work list; undefined where it gives none. */
export function latestSignal(trend: Trend | undefined): TrendPoint | undefined {
  const latest = trend?.points.at(-1)
  return latest && (latest.signal === 'above' || latest.sumSignals) ? latest : undefined
}
