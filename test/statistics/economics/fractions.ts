// Expected costs in exact fractions, by enumerating every lot and every sample: the definition itself, and nothing of the engine.
import type { EconomicModel } from '../../../app/statistics/economics/expected-cost.ts'

/** A fraction of two whole numbers. */
export type Fraction = readonly [bigint, bigint]

type Stage = { readonly sampleSize: number; readonly acceptanceNumber: number; readonly rejectionNumber: number }

/** The least expected cost over all single plans, ties to the smaller sample size, then acceptance number. */
export function bestInFractions(economicModel: EconomicModel) {
  let best = { sampleSize: 0, acceptanceNumber: 0, cost: costInFractions(economicModel, []) }
  for (let sampleSize = 1; sampleSize <= economicModel.lotSize; sampleSize++)
    for (let c = 0; c <= sampleSize; c++) {
      const cost = costInFractions(economicModel, [{ sampleSize, acceptanceNumber: c, rejectionNumber: c + 1 }])
      if (below(cost, best.cost)) best = { sampleSize, acceptanceNumber: c, cost }
    }
  return best
}

/**
 * Expected cost of a plan: over every path through its stages, chance × cost. The chance of `found` in the next units after
 * x of n is C(more, found) times rising factorials of a + x and b + n − x over those of a + b + n.
 */
export function costInFractions(
  { lotSize, prior, costs, afterRejection }: EconomicModel,
  stages: readonly Stage[],
): Fraction {
  const a = exact(prior.a)
  const b = exact(prior.b)
  const walk = (index: number, tested: number, found: number): Fraction => {
    const stage = stages[index]
    if (!stage) return times(exact(costs.escape), whole(lotSize - tested), meanAfter(a, b, tested, found))
    const more = stage.sampleSize - tested
    let total: Fraction = times(exact(costs.test), whole(more))
    for (let extra = 0; extra <= more; extra++) {
      const all = found + extra
      const chance = chanceOf(extra, more, plus(a, whole(found)), plus(b, whole(tested - found)))
      const cost =
        all <= stage.acceptanceNumber
          ? walk(stages.length, stage.sampleSize, all)
          : all < stage.rejectionNumber
            ? walk(index + 1, stage.sampleSize, all)
            : afterRejection === 'screen'
              ? times(exact(costs.test), whole(lotSize - stage.sampleSize))
              : exact(costs.rejection)
      total = plus(total, times(chance, cost))
    }
    return total
  }
  return walk(0, 0, 0)
}

/** A fraction as a number, from its first 18 digits. */
export function decimal([numerator, denominator]: Fraction): number {
  return Number((numerator * 10n ** 24n) / denominator) / 1e24
}

function chanceOf(found: number, units: number, a: Fraction, b: Fraction): Fraction {
  let chance: Fraction = [1n, 1n]
  for (let i = 0; i < found; i++) chance = times(chance, over(whole(units - i), whole(i + 1)), plus(a, whole(i)))
  for (let i = 0; i < units - found; i++) chance = times(chance, plus(b, whole(i)))
  for (let i = 0; i < units; i++) chance = over(chance, plus(plus(a, b), whole(i)))
  return chance
}

function meanAfter(a: Fraction, b: Fraction, tested: number, found: number): Fraction {
  return over(plus(a, whole(found)), plus(plus(a, b), whole(tested)))
}

/** A decimal number as the fraction that its digits say: 1.2 is 6/5. */
function exact(value: number): Fraction {
  const [units = '0', digits = ''] = String(value).split('.')
  return reduced([BigInt(units + digits), 10n ** BigInt(digits.length)])
}

function whole(value: number): Fraction {
  return [BigInt(value), 1n]
}

function plus([a, b]: Fraction, [c, d]: Fraction): Fraction {
  return reduced([a * d + c * b, b * d])
}

function times(...factors: Fraction[]): Fraction {
  return reduced(factors.reduce(([a, b], [c, d]) => [a * c, b * d]))
}

function over([a, b]: Fraction, [c, d]: Fraction): Fraction {
  return reduced([a * d, b * c])
}

function below([a, b]: Fraction, [c, d]: Fraction): boolean {
  return a * d < c * b
}

function reduced([a, b]: Fraction): Fraction {
  let [x, y] = [a, b]
  while (y) [x, y] = [y, x % y]
  return x === 0n ? [0n, 1n] : [a / x, b / x]
}
