// Plans for a lot outside any series, by its limiting quality: computed exactly for this lot, beside the published table.
import { count, exceeds, openProbability } from '../check.ts'
import { atMost } from '../distributions/hypergeometric.ts'
import { leastInteger } from '../search.ts'
import { unitsInShare } from './percentage.ts'
import { type LimitingQuality, limitingQualities, limitingQualityTable } from './tables/limiting-quality.ts'
import type { Standing } from './tables/table.ts'
import type { PlanNumbers } from './two-points.ts'

/** A single plan and its chance to accept this lot at exactly the limiting quality. */
export type IsolatedPlan = PlanNumbers & { readonly acceptance: number }

/** A plan of the published table, and how the project knows it: a recalled one is to be checked against the reader's own copy. */
export type PublishedForLot = IsolatedPlan & {
  readonly keepsRisk: boolean
  readonly standing: Standing
  readonly source: string
}

/** The computed plan, and the published one where the project knows it. */
export type IsolatedLot = {
  /** The limiting quality in whole units of this lot, rounded up: the number that is too many. */
  readonly nonconforming: number
  /** Smallest sample that keeps the risk, with the published acceptance number, or 0 where none is known. */
  readonly computed: IsolatedPlan
  /** The published plan, cut to the lot; it serves a whole band of lot sizes and may miss the risk by a little. */
  readonly published: PublishedForLot | undefined
}

/**
 * Plan for one isolated lot: at the limiting quality it is accepted at most as often as the consumer's risk says.
 *
 * @param lotSize N ≥ 1 units
 * @param limitingQuality percent nonconforming, as the published table prints it
 * @param consumersRisk in (0, 1), usually 0.1; equality counts as met
 * @throws RangeError that names the argument out of range
 *
 * Source: the hypergeometric law for the computed plan; ISO 2859-2:1985, Table A, for the published one (recalled).
 *
 * @example planForIsolatedLot({ lotSize: 800, limitingQuality: '5.00', consumersRisk: 0.1 })
 *   // too many is 40; computed 74 units with acceptance number 1; published 80 and 1, which accepts 7.5 of 100 such lots
 */
export function planForIsolatedLot(requirements: {
  readonly lotSize: number
  readonly limitingQuality: LimitingQuality
  readonly consumersRisk: number
}): IsolatedLot {
  const { lotSize, limitingQuality, consumersRisk } = requirements
  count('lotSize', lotSize, 1)
  openProbability('consumersRisk', consumersRisk)
  const column = limitingQualities.indexOf(limitingQuality)
  if (column < 0)
    throw new RangeError(`limitingQuality must be one of ${limitingQualities.join(', ')}, not ${limitingQuality}`)

  const nonconforming = unitsInShare(Number(limitingQuality) / 100, lotSize)
  const acceptanceOf = ({ sampleSize, acceptanceNumber }: PlanNumbers) =>
    atMost(acceptanceNumber, { lotSize, nonconforming, sampleSize })

  const known = limitingQualityTable.bands.find(({ from, to }) => from <= lotSize && lotSize <= to)?.plans[column]
  const published = known && { ...known, sampleSize: Math.min(lotSize, known.sampleSize) }
  const acceptanceNumber = Math.min(published?.acceptanceNumber ?? 0, nonconforming - 1)
  const sampleSize = leastInteger(
    1,
    lotSize,
    (size) => !exceeds(acceptanceOf({ sampleSize: size, acceptanceNumber }), consumersRisk),
  )
  return {
    nonconforming,
    computed: { sampleSize, acceptanceNumber, acceptance: acceptanceOf({ sampleSize, acceptanceNumber }) },
    published: published && {
      ...published,
      acceptance: acceptanceOf(published),
      keepsRisk: !exceeds(acceptanceOf(published), consumersRisk),
      standing: limitingQualityTable.standing,
      source: limitingQualityTable.source,
    },
  }
}
