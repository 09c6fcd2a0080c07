// Whether lots can be of one process where how many were tested says most: every fraction is tried, each lot under its own rule.
import { TooManySteps } from '../steps.ts'
import { uniformNumbers } from '../uniform.ts'
import { checkRules, endingsOfLot, type LotEnding, type LotUnderRule, type Totals } from './endings.ts'

/** `error`: standard error where the chance is simulated; undefined where it is exact. */
export type LargestChance = { readonly chance: number; readonly error: number | undefined }

/** Combinations of endings that are gone through one by one. */
const mostCombinations = 60_000
/** Runs of conforming units that a simulation may draw, over all fractions. */
const mostRuns = 6_000_000
const seed = 20_310_117
const [fewTrials, manyTrials] = [500, 10_000]
/** Fractions that are tried, by their logit: beyond them lots of a million are nearly all of one kind. */
const [lowestLogit, step, fractions] = [-15, 0.5, 61]
/** Logarithm of the likelihood, below its greatest, of fractions that a simulation leaves out. */
const unlikely = 12
/** Statistics within this of each other count as equal, so that rounding parts none that are. */
const equal = 1e-9

/**
 * Chance of a likelihood ratio as great as the observed one where all lots are of one process: the largest over every fraction that
 * the process may have. A simulation leaves out fractions under which such totals are less likely than 1 in 160,000 of their best. Unlike the chance given both totals it sees that some lots stop at once and others never.
 *
 * @param lots n units from 1, how many were tested, how many of them found, and the number that stops testing
 * @returns exact where the lots have few enough ways to end, else simulated with a fixed seed
 * @throws RangeError that names the lot and the count that cannot be; TooManySteps where a simulation would take too long
 *
 * Formula: Σ ln L(found/tested of each lot) − ln L(all found/all tested), L the binomial likelihood, which the rule of stopping
 * does not change. Source: the likelihood-ratio test, its nuisance parameter taken at the worst: G. A. Barnard (1945), Nature 156, 177;
 * without those that the totals refute: R. L. Berger & D. D. Boos (1994), JASA 89, 1012–1016 (both from memory).
 *
 * @example largestChanceOfOne([{ sampleSize: 20, tested: 20, found: 0, rejectionNumber: 1 }, { sampleSize: 20, tested: 1, found: 1, rejectionNumber: 1 }]).chance // 0.03589
 */
export function largestChanceOfOne(lots: readonly LotUnderRule[]): LargestChance {
  checkRules(lots)
  if (lots.length === 1) return { chance: 1, error: undefined }
  const observed = ratioOf(lots) - equal
  const endings = lots.map((lot) =>
    endingsOfLot(lot, { tested: Number.POSITIVE_INFINITY, found: Number.POSITIVE_INFINITY }),
  )
  const combinations = endings.reduce((product, own) => product * own.length, 1)
  return combinations <= mostCombinations ? byEnumeration(endings, observed) : bySimulation(lots, observed)
}

function ratioOf(lots: readonly Totals[]): number {
  return lots.reduce((total, lot) => total + logLikelihoodOf(lot), 0) - logLikelihoodOf(sumOf(lots))
}

function sumOf(lots: readonly Totals[]): Totals {
  let [tested, found] = [0, 0]
  for (const lot of lots) {
    tested += lot.tested
    found += lot.found
  }
  return { tested, found }
}

/** At its own fraction. */
function logLikelihoodOf({ tested, found }: Totals): number {
  const conforming = tested - found
  return (
    (found === 0 ? 0 : found * Math.log(found / tested)) +
    (conforming === 0 ? 0 : conforming * Math.log(conforming / tested))
  )
}

/** Ends with the same totals: the logarithm of the number of orders that lead to them. */
type Extreme = Totals & { logOrders: number }

function byEnumeration(endings: readonly LotEnding[][], observed: number): LargestChance {
  const extreme = new Map<string, Extreme>()
  const each = (at: number, chosen: readonly LotEnding[], logOrders: number) => {
    const own = endings[at]
    if (own) for (const ending of own) each(at + 1, [...chosen, ending], logOrders + ending.arrangements)
    else if (ratioOf(chosen) >= observed) add(extreme, chosen, logOrders)
  }
  each(0, [], 0)
  const chanceAt = (logit: number) =>
    [...extreme.values()].reduce(
      (sum, { tested, found, logOrders }) =>
        sum +
        Math.exp(logOrders - found * Math.log1p(Math.exp(-logit)) - (tested - found) * Math.log1p(Math.exp(logit))),
      0,
    )
  return { chance: Math.min(1, largestOf(chanceAt)), error: undefined }
}

function add(extreme: Map<string, Extreme>, chosen: readonly LotEnding[], logOrders: number): void {
  const tested = chosen.reduce((sum, ending) => sum + ending.tested, 0)
  const found = chosen.reduce((sum, ending) => sum + ending.found, 0)
  const name = `${tested}/${found}`
  const known = extreme.get(name)
  if (!known) extreme.set(name, { tested, found, logOrders })
  else known.logOrders += Math.log1p(Math.exp(logOrders - known.logOrders))
}

/** The best of the fractions tried, and of the ones about it, drawn in by thirds. */
function largestOf(chanceAt: (logit: number) => number): number {
  const tried = logits.map(chanceAt)
  const best = logits[tried.indexOf(Math.max(...tried))]!
  let [from, to] = [best - step, best + step]
  for (let round = 0; round < 60; round++) {
    const [low, high] = [from + (to - from) / 3, to - (to - from) / 3]
    if (chanceAt(low) < chanceAt(high)) from = low
    else to = high
  }
  return Math.max(...tried, chanceAt((from + to) / 2))
}

const logits = Array.from({ length: fractions }, (_, at) => lowestLogit + at * step)

/** A few trials at every fraction, then many about the best ones. */
function bySimulation(lots: readonly LotUnderRule[], observed: number): LargestChance {
  let runs = 0
  const shareAt = (logit: number, trials: number) => {
    const uniform = uniformNumbers(seed)
    const logConforming = -Math.log1p(Math.exp(logit))
    let extreme = 0
    for (let trial = 0; trial < trials; trial++) {
      const ends = lots.map((lot) => endOf(lot, logConforming, uniform))
      runs += ends.reduce((sum, { found }) => sum + found + 1, 0)
      if (runs > mostRuns) throw new TooManySteps(`lots must be simulated in ${mostRuns} runs of conforming units`)
      if (ratioOf(ends) >= observed) extreme++
    }
    return extreme / trials
  }
  const likely = logits.filter((logit) => isLikely(lots, logit))
  const first = likely.map((logit) => ({ logit, share: shareAt(logit, fewTrials) }))
  const best = [...first].sort((one, other) => other.share - one.share)[0]!.logit
  const about = [best - step / 2, best, best + step / 2]
  const chance = Math.max(...about.map((logit) => shareAt(logit, manyTrials)))
  return { chance, error: Math.sqrt(Math.max(chance * (1 - chance), 1 / manyTrials) / manyTrials) }
}

function isLikely(lots: readonly LotUnderRule[], logit: number): boolean {
  const { tested, found } = sumOf(lots)
  const here = -found * Math.log1p(Math.exp(-logit)) - (tested - found) * Math.log1p(Math.exp(logit))
  // the grid is coarser than the peak where very many units were tested: its neighbours stay
  const best = Math.log(found / (tested - found))
  return Math.abs(logit - best) <= step || here > logLikelihoodOf({ tested, found }) - unlikely
}

/** How one lot ends: conforming units up to each nonconforming one are a geometric number. */
function endOf({ sampleSize, rejectionNumber }: LotUnderRule, logConforming: number, uniform: () => number): Totals {
  let tested = 0
  let found = 0
  while (found !== rejectionNumber) {
    tested += Math.floor(Math.log(uniform()) / logConforming) + 1
    if (tested > sampleSize) return { tested: sampleSize, found }
    found += 1
  }
  return { tested, found }
}
