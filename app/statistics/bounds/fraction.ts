// Exact one-sided confidence bounds on the fraction nonconforming of a process.
import { count, openProbability, riskOf } from '../check.ts'
import { quantile, upperQuantile } from '../distributions/beta.ts'

/** What a sample of a size fixed beforehand showed, and how sure a statement about it must be. */
export type SampleEvidence = { sampleSize: number; found: number; confidence: number }

/**
 * Exact upper confidence bound on the fraction nonconforming, all of the confidence on this side.
 *
 * Whatever the fraction is, the bound is at least that in `confidence` of samples or more. It stands for the process
 * that made the units; for the lot in hand see `upperBoundInLot`, which is never worse. It supposes a sample size
 * fixed beforehand; after a plan that may stop early see `stopped.ts`.
 *
 * @param sampleSize units tested, n ≥ 0
 * @param found nonconforming units among them, 0 ≤ d ≤ n
 * @param confidence one-sided confidence level, 0 < confidence < 1
 * @returns the fraction p with P(X ≤ d | p) = 1 − confidence; 1 where all were nonconforming or none tested
 * @throws RangeError that names the argument out of range
 *
 * Source: C. J. Clopper & E. S. Pearson (1934), Biometrika 26, 404–413.
 *
 * @example upperBoundOfFraction({ sampleSize: 20, found: 0, confidence: 0.95 }) // 0.1391: none in 20 may still be 13.9 %
 */
export function upperBoundOfFraction(evidence: SampleEvidence): number {
  checkEvidence(evidence)

  return upper({ ...evidence, risk: riskOf(evidence.confidence) })
}

/**
 * Exact lower confidence bound on the fraction nonconforming, all of the confidence on this side.
 *
 * The mirror of {@link upperBoundOfFraction}: the fraction p with P(X ≥ d | p) = 1 − confidence, 0 where none was found.
 *
 * @throws RangeError that names the argument out of range
 *
 * @example lowerBoundOfFraction({ sampleSize: 60, found: 6, confidence: 0.95 }) // 0.04445
 */
export function lowerBoundOfFraction(evidence: SampleEvidence): number {
  checkEvidence(evidence)

  return lower({ ...evidence, risk: riskOf(evidence.confidence) })
}

/** Two limits of a fraction. */
export type Interval = { lower: number; upper: number }

/**
 * Exact two-sided confidence interval on the fraction nonconforming: half of the risk on each side.
 *
 * Its upper limit at 95 % is the one-sided bound at 97.5 %, so it lies above the one-sided bound at 95 % by design.
 *
 * @throws RangeError that names the argument out of range
 *
 * Source: Clopper & Pearson (1934), as {@link upperBoundOfFraction}.
 */
export function clopperPearsonInterval(evidence: SampleEvidence): Interval {
  checkEvidence(evidence)

  const risk = riskOf(evidence.confidence) / 2
  const side = { ...evidence, risk, confidence: 1 - risk }
  return { lower: lower(side), upper: upper(side) }
}

/** Refuses evidence that no sample can give. */
export function checkEvidence({ sampleSize, found, confidence }: SampleEvidence): void {
  count('sampleSize', sampleSize)
  count('found', found, 0, sampleSize)
  openProbability('confidence', confidence)
}

/** `risk` is 1 − confidence, kept beside it because either may be too small for the other to show. */
type Side = SampleEvidence & { risk: number }

/** P(X ≤ d | p) is the chance of a beta (d + 1, n − d) variable above p. */
function upper({ sampleSize, found, risk, confidence }: Side): number {
  if (found === sampleSize) return 1
  const shape = { a: found + 1, b: sampleSize - found }
  return confidence < 0.5 ? quantile(confidence, shape) : upperQuantile(risk, shape)
}

/** P(X ≥ d | p) is the chance of a beta (d, n − d + 1) variable of p or less. */
function lower({ sampleSize, found, risk, confidence }: Side): number {
  if (found === 0) return 0
  const shape = { a: found, b: sampleSize - found + 1 }
  return confidence < 0.5 ? upperQuantile(confidence, shape) : quantile(risk, shape)
}
