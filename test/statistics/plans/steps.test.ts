// Searches that are refused by a rule and not by the clock: what a search looks at is known beforehand, and never more than that.
import { describe, expect, test } from 'vitest'
import { designDoubleForLot } from '../../../app/statistics/plans/double.ts'
import { fewestUnits } from '../../../app/statistics/plans/fewest-units.ts'
import { lawOfLot } from '../../../app/statistics/plans/law.ts'
import { designMultipleForLot } from '../../../app/statistics/plans/multiple.ts'
import { stepsOver, undecidedBefore } from '../../../app/statistics/plans/passage.ts'
import type { Stages } from '../../../app/statistics/plans/plan.ts'
import { designSequentialForLot, stepsToDesignSequential } from '../../../app/statistics/plans/sequential.ts'
import { TooManySteps } from '../../../app/statistics/steps.ts'

const requirements = (lotSize: number, good: number, bad: number, risks = { producer: 0.05, consumer: 0.1 }) => ({
  lotSize,
  producer: { nonconforming: good, risk: risks.producer },
  consumer: { nonconforming: bad, risk: risks.consumer },
})

/** Terms that the passages of a plan did sum. */
function counted(plan: Stages): number {
  const passages = undecidedBefore(plan)
  return plan.stages.reduce((sum, { sampleSize }, index) => {
    const before = passages[index]
    const left = passages[index + 1]?.share.length ?? 0
    return sum + left * (sampleSize - (before?.tested ?? 0) === 1 ? 2 : (before?.share.length ?? 1))
  }, 0)
}

describe('what is foretold is never less than what is counted', () => {
  test.each([
    [480, 5, 24],
    [10_000, 1, 5],
    [10_000, 50, 100],
    [1_000_000, 5000, 10_000],
    [10_000, 4000, 5000],
  ])('a cord-by-cord plan for %i, %i against %i', (lotSize, good, bad) => {
    const { producer, consumer } = requirements(lotSize, good, bad)
    const plan = designSequentialForLot({ lotSize, producer, consumer })
    const shares = {
      producer: { fraction: good / lotSize, risk: producer.risk },
      consumer: { fraction: bad / lotSize, risk: consumer.risk },
    }
    expect(counted(plan)).toBeGreaterThan(plan.stages.length)
    expect(counted(plan)).toBeLessThanOrEqual(stepsOver(plan))
    expect(stepsOver(plan)).toBeLessThanOrEqual(2 * stepsToDesignSequential(shares, plan.stages.length))
  })

  test.each([
    [480, 5, 24],
    [2000, 4, 40],
  ])('a plan of seven samples for %i, %i against %i', (lotSize, good, bad) => {
    const plan = designMultipleForLot({ ...requirements(lotSize, good, bad), samples: 7 })
    expect(counted(plan)).toBeGreaterThan(0)
    expect(counted(plan)).toBeLessThanOrEqual(stepsOver(plan))
  })
})

describe('too close to be searched', () => {
  test.each([
    ['cord by cord', () => designSequentialForLot(requirements(10_000, 99, 100))],
    ['cord by cord, half of the lot', () => designSequentialForLot(requirements(10_000, 4999, 5000))],
    ['two samples', () => designDoubleForLot(requirements(10_000, 99, 100))],
    ['two samples of a huge lot', () => designDoubleForLot(requirements(1_000_000, 148, 150))],
    ['two samples, allowing more than 150', () => designDoubleForLot(requirements(20_000, 199, 200))],
    ['seven samples', () => designMultipleForLot({ ...requirements(10_000, 99, 100), samples: 7 })],
  ])('%s: refused, and told apart from a plan that does not exist', (_name, design) => {
    expect(design).toThrow(TooManySteps)
    expect(design).toThrow('consumer and producer must differ more')
  })
})

test.each([
  [1_000_000, 1, 5],
  [1_000_000, 499_999, 500_000],
])('no plan of 10,000 cords can keep the risks for %i, %i against %i: nothing is searched', (lotSize, good, bad) => {
  const refused = () => designSequentialForLot(requirements(lotSize, good, bad))
  expect(refused).toThrow("Wald's lines keep within 10000 units")
  expect(refused).not.toThrow(TooManySteps)
})

describe('the fewest units within which any plan can keep both risks', () => {
  // Neyman & Pearson's test of n units by counting draws in whole numbers: at c it rejects with chance (all/20 − above)/at.
  const choose = (n: number, k: number): bigint => {
    if (k < 0 || k > n) return 0n
    let ways = 1n
    for (let i = 1; i <= k; i++) ways = (ways * BigInt(n - k + i)) / BigInt(i)
    return ways
  }
  const ways = (N: number, D: number, n: number, from: number, to: number) => {
    let sum = 0n
    for (let d = Math.max(0, from); d <= Math.min(n, to); d++) sum += choose(D, d) * choose(N - D, n - d)
    return sum
  }
  const possible = (N: number, good: number, bad: number, n: number) => {
    const all = choose(N, n)
    let c = 0
    while (ways(N, good, n, c + 1, n) * 20n > all) c++
    const above = ways(N, good, n, c + 1, n)
    const at = ways(N, good, n, c, c)
    const accepted = ways(N, bad, n, 0, c) * 20n * at - ways(N, bad, n, c, c) * (all - 20n * above)
    return accepted * 10n <= all * 20n * at
  }

  test.each([
    [30, 1, 6],
    [60, 3, 12],
    [100, 0, 5],
    [100, 20, 40],
  ])('lots of %i, %i against %i', (N, good, bad) => {
    const { producer, consumer } = requirements(N, good, bad)
    const law = (nonconforming: number) => lawOfLot({ lotSize: N, nonconforming })
    const fewest = fewestUnits({ producer, consumer }, N, { good: law(good), bad: law(bad) })
    const brute = Array.from({ length: N }, (_, i) => i + 1).find((n) => possible(N, good, bad, n))
    expect(fewest).toBe(brute)
    expect(brute).toBeGreaterThan(2)
    expect(fewestUnits({ producer, consumer }, (brute ?? 0) - 1, { good: law(good), bad: law(bad) })).toBeUndefined()
  })
})
