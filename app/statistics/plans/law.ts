// How nonconforming units turn up in a sample: from the lot in hand without replacement, or from a process.
import { count, probability } from '../check.ts'
import * as binomial from '../distributions/binomial.ts'
import * as hypergeometric from '../distributions/hypergeometric.ts'

/** The chances of `found` in the next `sampleSize` units, and those of the units after them. */
export type Law = {
  density(found: number, sampleSize: number): number
  atMost(found: number, sampleSize: number): number
  moreThan(found: number, sampleSize: number): number
  /** The law of the units still untested once `tested` units have shown `found` nonconforming ones. */
  after(tested: number, found: number): Law
  /** E[T; T ≤ within], T the number of units tested when the `nth` nonconforming one turns up. */
  untilNonconforming(nth: number, within: number): number
  /** E[T; T ≤ within], T the number of units tested when the `nth` conforming one turns up. */
  untilConforming(nth: number, within: number): number
}

/** Sampling without replacement from a lot of known quality (Type A, hypergeometric). */
export type LotQuality = { readonly lotSize: number; readonly nonconforming: number }

/** The law of a lot; throws RangeError unless 0 ≤ nonconforming ≤ lotSize, both whole. */
export function lawOfLot({ lotSize, nonconforming }: LotQuality): Law {
  count('lotSize', lotSize)
  count('nonconforming', nonconforming, 0, lotSize)

  return lot(lotSize, nonconforming)
}

/** The law of a process with a steady fraction nonconforming (Type B, binomial); throws RangeError outside [0, 1]. */
export function lawOfProcess(fraction: number): Law {
  probability('fraction', fraction)

  const law: Law = {
    density: (found, sampleSize) => binomial.density(found, { sampleSize, fraction }),
    atMost: (found, sampleSize) => binomial.atMost(found, { sampleSize, fraction }),
    moreThan: (found, sampleSize) => binomial.moreThan(found, { sampleSize, fraction }),
    after: () => law,
    // Σ t C(t−1, i−1) pⁱ qᵗ⁻ⁱ over t ≤ L is (i/p) P(i + 1 turn up in L + 1), since t C(t−1, i−1) = i C(t, i).
    // Near p = 0 it is about L²p/2, which nothing here can tell from 0, while i/p may be too large for a number.
    untilNonconforming: (nth, within) =>
      fraction < 1e-150 ? 0 : (nth / fraction) * binomial.moreThan(nth, { sampleSize: within + 1, fraction }),
    untilConforming: (nth, within) =>
      fraction === 1 ? 0 : (nth / (1 - fraction)) * binomial.atMost(within - nth, { sampleSize: within + 1, fraction }),
  }
  return law
}

function lot(lotSize: number, nonconforming: number): Law {
  const conforming = lotSize - nonconforming
  return {
    density: (found, sampleSize) => hypergeometric.density(found, { lotSize, nonconforming, sampleSize }),
    atMost: (found, sampleSize) => hypergeometric.atMost(found, { lotSize, nonconforming, sampleSize }),
    moreThan: (found, sampleSize) => hypergeometric.moreThan(found, { lotSize, nonconforming, sampleSize }),
    after: (tested, found) => lot(lotSize - tested, nonconforming - found),
    // As for a process, with one unit more of the sought sort in the lot: t C(t−1, i−1) C(N−t, D−i) = i C(t, i) C(N−t, D−i).
    untilNonconforming: (nth, within) =>
      ((nth * (lotSize + 1)) / (nonconforming + 1)) *
      hypergeometric.moreThan(nth, {
        lotSize: lotSize + 1,
        nonconforming: nonconforming + 1,
        sampleSize: within + 1,
      }),
    untilConforming: (nth, within) =>
      ((nth * (lotSize + 1)) / (conforming + 1)) *
      hypergeometric.atMost(within - nth, { lotSize: lotSize + 1, nonconforming, sampleSize: within + 1 }),
  }
}
