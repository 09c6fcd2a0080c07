// How much lots differ beyond chance: the beta-binomial distribution fitted to a history by maximum likelihood.
import * as betaBinomial from '../distributions/beta-binomial.ts'
import type { Node } from '../quadrature.ts'
import { nodesOfCounts } from './counts.ts'
import { checkLots, type LotResult, pooled } from './lots.ts'

/** Why a history has no finite maximum, in the order in which it is asked. */
export type NoMaximum =
  | 'none found'
  | 'all found'
  | 'one lot'
  | 'one unit in each lot'
  | 'each lot all alike'
  | 'no more spread than binomial'

/** The fitted distribution of the lots' fractions; or the pooled fraction, and why nothing more can be said. */
export type Fit =
  | { readonly kind: 'fitted'; readonly a: number; readonly b: number; readonly logLikelihood: number }
  | { readonly kind: 'no finite maximum'; readonly reason: NoMaximum; readonly fraction: number }

/**
 * Maximum-likelihood fit of a beta-binomial distribution over lots: each lot's fraction is drawn from a beta distribution.
 *
 * The likelihood is flat along a ÷ (a + b), so it is solved in the mean π = a/(a + b) and the spread θ = 1/(a + b), where a
 * history with no more spread than binomial has its maximum at θ = 0 and none at finite a and b.
 *
 * @param lots units tested and found nonconforming in each; lots without tests tell nothing and are left out
 * @returns a, b and the log-likelihood, binomial coefficients included; a value of its own kind where there is no finite maximum
 * @throws RangeError that names the lot, or says that none was tested
 *
 * Source: parameters of D. A. Williams (1975), Biometrics 31, 949–952; the maximum in θ for a given mean is single (B. Levin
 * and J. Reeds 1977, Annals of Statistics 5, 79–87); both from memory.
 *
 * @example betaBinomialFit([{ sampleSize: 48, found: 0 }, { sampleSize: 48, found: 9 }, { sampleSize: 60, found: 1 }])
 *   // a 0.448, b 6.33: lots differ much
 */
export function betaBinomialFit(lots: readonly LotResult[]): Fit {
  checkLots(lots)

  const tested = lots.filter(({ sampleSize }) => sampleSize > 0)
  const sum = pooled(tested)
  const fraction = sum.found / sum.sampleSize
  const reason = noMaximum(tested)
  if (reason) return { kind: 'no finite maximum', reason, fraction }
  const { mean, spread } = maximum(tested, fraction)
  if (spread < 1e-15) return { kind: 'no finite maximum', reason: 'no more spread than binomial', fraction }
  const a = mean / spread
  const b = (1 - mean) / spread
  return { kind: 'fitted', a, b, logLikelihood: logLikelihoodOf(tested, { a, b }) }
}

/** Lots that are alike have the same term: it is worked out once. */
function logLikelihoodOf(lots: readonly LotResult[], { a, b }: { a: number; b: number }): number {
  const terms = new Map<string, number>()
  return lots.reduce((total, { sampleSize, found }) => {
    const alike = `${sampleSize}/${found}`
    const term = terms.get(alike) ?? Math.log(betaBinomial.density(found, { sampleSize, a, b }))
    terms.set(alike, term)
    return total + term
  }, 0)
}

function noMaximum(lots: readonly LotResult[]): NoMaximum | undefined {
  if (lots.every(({ found }) => found === 0)) return 'none found'
  if (lots.every(({ found, sampleSize }) => found === sampleSize)) return 'all found'
  if (lots.length === 1) return 'one lot'
  if (lots.every(({ sampleSize }) => sampleSize === 1)) return 'one unit in each lot'
  if (lots.every(({ found, sampleSize }) => found === 0 || found === sampleSize)) return 'each lot all alike'
  return slopeAtNoSpread(lots) > 0 ? undefined : 'no more spread than binomial'
}

/**
 * Sign of the likelihood's slope in θ at the binomial fit, 0 where it is lost in rounding:
 * Σx(x−1)/p + Σ(n−x)(n−x−1)/(1−p) − Σn(n−1), multiplied by positive numbers so that every term is a whole number.
 */
function slopeAtNoSpread(lots: readonly LotResult[]): number {
  const pairs = (of: (lot: LotResult) => number) => lots.reduce((total, lot) => total + of(lot) * (of(lot) - 1), 0)
  const { sampleSize, found } = pooled(lots)
  const conforming = sampleSize - found
  const within =
    pairs((lot) => lot.found) * sampleSize * conforming +
    pairs((lot) => lot.sampleSize - lot.found) * sampleSize * found
  const expected = pairs((lot) => lot.sampleSize) * found * conforming
  return Math.abs(within - expected) <= 1e-14 * expected ? 0 : Math.sign(within - expected)
}

/** Mean π and spread θ of the mixed fraction. */
type Point = { readonly mean: number; readonly spread: number }

/** Where to take the terms of the log-likelihood: over the found, the conforming and the tested units of all lots. */
type Sums = { readonly found: readonly Node[]; readonly conforming: readonly Node[]; readonly tested: readonly Node[] }

/** Solves for the spread by Newton's steps kept between one that is too small and one that is too large. */
function maximum(lots: readonly LotResult[], fraction: number): Point {
  const sums: Sums = {
    found: nodesOfCounts(lots.map(({ found }) => found)),
    conforming: nodesOfCounts(lots.map(({ sampleSize, found }) => sampleSize - found)),
    tested: nodesOfCounts(lots.map(({ sampleSize }) => sampleSize)),
  }
  let low = 0
  let high = 1 / 64
  let mean = bestMean(fraction, high, sums)
  while (slopes({ mean, spread: high }, sums).inSpread > 0) {
    low = high
    high *= 4
    mean = bestMean(mean, high, sums)
  }
  let spread = (low + high) / 2
  for (let round = 0; round < 200; round++) {
    mean = bestMean(mean, spread, sums)
    const at = slopes({ mean, spread }, sums)
    if (at.inSpread > 0) low = spread
    else high = spread
    const curvature = at.spreadTwice - (at.both * at.both) / at.meanTwice
    const newton = spread - at.inSpread / curvature
    const next = curvature < 0 && newton > low && newton < high ? newton : (low + high) / 2
    if (Math.abs(next - spread) <= 1e-15 * spread) break
    spread = next
  }
  return { mean, spread }
}

/** The mean that is likeliest for a spread: the log-likelihood is concave in it, so Newton's steps and halving cannot miss it. */
function bestMean(start: number, spread: number, sums: Sums): number {
  let low = 0
  let high = 1
  let mean = start
  for (let round = 0; round < 200; round++) {
    const { inMean, meanTwice } = slopes({ mean, spread }, sums)
    if (inMean > 0) low = mean
    else high = mean
    const newton = mean - inMean / meanTwice
    const next = newton > low && newton < high ? newton : (low + high) / 2
    if (Math.abs(next - mean) <= 1e-16 * mean) break
    mean = next
  }
  return mean
}

/**
 * First and second derivatives of the log-likelihood Σ ln(π + jθ) + Σ ln(1 − π + jθ) − Σ ln(1 + jθ). Its slope in θ is a small
 * difference of large sums of j/u; where the largest jθ is above 1 it is taken from j/u = (1 − (u at 0)/u)/θ instead, in which the
 * ones cancel exactly, so that lots of a million keep their digits.
 */
function slopes({ mean, spread }: Point, sums: Sums) {
  const found = reciprocals(mean, spread, sums.found)
  const conforming = reciprocals(1 - mean, spread, sums.conforming)
  const tested = reciprocals(1, spread, sums.tested)
  const largest = sums.tested.at(-1)?.x ?? 0
  return {
    inMean: found.once - conforming.once,
    inSpread:
      largest * spread > 4
        ? (tested.once - mean * found.once - (1 - mean) * conforming.once) / spread
        : found.j + conforming.j - tested.j,
    meanTwice: -found.twice - conforming.twice,
    both: conforming.jTwice - found.jTwice,
    spreadTwice: tested.jjTwice - found.jjTwice - conforming.jjTwice,
  }
}

/** Weighted sums of 1/u, j/u, 1/u², j/u² and j²/u² with u = start + j·spread. */
function reciprocals(start: number, spread: number, nodes: readonly Node[]) {
  let [once, j, twice, jTwice, jjTwice] = [0, 0, 0, 0, 0]
  for (const { x, weight } of nodes) {
    const u = 1 / (start + x * spread)
    const wu = weight * u
    once += wu
    j += x * wu
    twice += wu * u
    jTwice += x * wu * u
    jjTwice += x * x * wu * u
  }
  return { once, j, twice, jTwice, jjTwice }
}
