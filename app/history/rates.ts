// The share of cords that do not conform, supplier by supplier: its own, and drawn towards what suppliers are like.
import { clopperPearsonInterval, type Interval, upperBoundOfFraction } from '../statistics/bounds/fraction.ts'
import type { Belief } from '../statistics/history/lower.ts'
import { type Rate, supplierRates } from '../statistics/history/rates.ts'

/** Cords of the samples of decided lots, each as far as it was tested; what a screening tested besides is left out. */
export type SampledCords = { lots: number; sampleSize: number; found: number }

export type SampledSupplier = SampledCords & { id: number; name: string }

export type SupplierRate = SampledSupplier & {
  /** found ÷ tested with Clopper and Pearson's interval at 95 %; undefined where nothing was tested */
  own: { fraction: number; interval: Interval } | undefined
  /** drawn towards all suppliers, with its 95 % interval */
  rate: Rate
  /** so few cords that even a clean record would leave more than 5 % possible (95 %, one-sided, exact) */
  insufficientData: boolean
}

export type Rates = {
  /** where the prior is from: fitted to the suppliers, or the weak stated one where they cannot tell how they differ */
  priorFrom: 'suppliers' | 'stated'
  prior: Belief
  /** by name */
  suppliers: SupplierRate[]
}

/**
 * The belief about a supplier of which nothing is known, worth two tested cords. Two published surveys of cords bought on
 * the open market had 322 of 499 and about 34 of 56 failing; both are by interested parties and no random samples.
 */
export const surveyPrior: Belief = { a: 1.2, b: 0.8 }

export const confidence = 0.95
const enoughToSay = 0.05

/**
 * Rates of suppliers with a decided lot.
 *
 * Only the samples count, as each was drawn before anybody knew what is in the lot: the rest of a screened lot is tested
 * because its sample had failed. A sample that stopped at the rejection number counts with what was tested:
 * leaving it out would drop just the bad lots, while the sum of found over the sum of tested is right in the long run
 * whatever stops the testing (Wald's identity), and a likelihood does not ask why testing stopped.
 */
export function ratesFrom(sampled: SampledSupplier[]): Rates {
  if (!sampled.some(({ sampleSize }) => sampleSize > 0))
    return { priorFrom: 'stated', prior: surveyPrior, suppliers: [] }
  const { priorFrom, prior, rates } = supplierRates({ suppliers: sampled, stated: surveyPrior, confidence })
  return {
    priorFrom: priorFrom === 'suppliers' ? 'suppliers' : 'stated',
    prior,
    suppliers: sampled.flatMap((each, at) => {
      const rate = rates[at]
      return rate ? [{ ...each, own: ownOf(each), rate, insufficientData: insufficientData(each) }] : []
    }),
  }
}

/** A supplier's own share; undefined where nothing was tested. */
export function ownOf({ sampleSize, found }: SampledCords): SupplierRate['own'] {
  if (sampleSize === 0) return undefined
  return { fraction: found / sampleSize, interval: clopperPearsonInterval({ sampleSize, found, confidence }) }
}

function insufficientData({ sampleSize }: SampledCords): boolean {
  return upperBoundOfFraction({ sampleSize, found: 0, confidence }) > enoughToSay
}
