// The value of a sample's information, and the parts of its cost.
import { describe, expect, test } from 'vitest'
import { costShares, type EconomicModel, expectedCost } from '../../../app/statistics/economics/expected-cost.ts'
import { bestWithoutSample, valueOfInformation } from '../../../app/statistics/economics/information.ts'
import { optimalPlan } from '../../../app/statistics/economics/optimal-plan.ts'
import { outcomesOfPrior } from '../../../app/statistics/economics/outcomes.ts'
import { acceptanceOfProcess } from '../../../app/statistics/plans/measures.ts'

test('a process of 4 %: sampling with screening costs less than nothing tested, and more than every unit', () => {
  // Own scenario, computed in base R: 1000 units, 1.30 a test, 85 an escape, 80 with acceptance number 2: 2024.09. The prior is
  // so narrow that the process is 4 % for certain.
  const economicModel: EconomicModel = {
    lotSize: 1000,
    prior: { a: 4e12, b: 96e12 },
    costs: { test: 1.3, escape: 85, rejection: 0 },
    afterRejection: 'screen',
  }
  const plan = { stages: [{ sampleSize: 80, acceptanceNumber: 2, rejectionNumber: 3 }] }
  expect(expectedCost(economicModel, plan)).toBeCloseTo(2024.09, 2)
  expect(outcomesOfPrior(plan, economicModel.prior)[0]?.accepted).toBeCloseTo(acceptanceOfProcess(plan, 0.04), 9)
  const { testing, escapes, returns, total } = costShares(economicModel, plan)
  expect(testing + escapes + returns).toBe(total)
  expect(returns).toBe(0)
})

describe('the value of information', () => {
  const economicModel: EconomicModel = {
    lotSize: 40,
    prior: { a: 0.5, b: 24.5 },
    costs: { test: 1.2, escape: 60, rejection: 90 },
    afterRejection: 'return',
  }

  test('is what the best decision without a sample costs more, plus the price of the sample', () => {
    const { sampleSize, acceptanceNumber, cost } = optimalPlan(economicModel)
    const plan = { stages: [{ sampleSize, acceptanceNumber, rejectionNumber: acceptanceNumber + 1 }] }
    const information = valueOfInformation(economicModel, plan)
    expect(information.without).toEqual({ decision: 'accept untested', cost: 48 })
    expect(information.price).toBeCloseTo(1.2 * sampleSize, 12)
    expect(information.net).toBeCloseTo(48 - cost, 10)
    expect(information.value).toBeCloseTo(information.net + information.price, 12)
    expect(information.perfect).toBeGreaterThan(information.value)
  })

  test('of knowing the lot for certain is the enumeration over its every quality', () => {
    for (const afterRejection of ['return', 'screen'] as const) {
      // Beta-binomial chances of 0 … 40 by their ratios, apart from the engine.
      const chances = [1]
      for (let d = 0; d < 40; d++) chances.push((chances[d]! * (40 - d) * (0.5 + d)) / ((d + 1) * (24.5 + 39 - d)))
      const sum = chances.reduce((total, each) => total + each)
      const otherwise = 48 // every unit tested; cheaper here than the 90 of a return
      const known = chances.reduce((total, chance, d) => total + (chance / sum) * Math.min(60 * d, otherwise), 0)
      const { perfect } = valueOfInformation({ ...economicModel, afterRejection }, { stages: [] })
      expect(perfect).toBeCloseTo(48 - known, 10)
    }
  })

  test('of no sample is nothing, and a plan that decides badly is worth less than nothing', () => {
    expect(valueOfInformation(economicModel, { stages: [] })).toMatchObject({ value: 0, price: 0, net: 0 })
    const hasty = { stages: [{ sampleSize: 1, acceptanceNumber: -1, rejectionNumber: 0 }] }
    expect(valueOfInformation(economicModel, hasty).net).toBeCloseTo(48 - 91.2, 12)
  })

  test('the best decision without a sample', () => {
    const cheap = { ...economicModel, costs: { test: 1, escape: 60, rejection: 20 } }
    expect(bestWithoutSample(cheap)).toEqual({ decision: 'return untested', cost: 20 })
    expect(bestWithoutSample({ ...cheap, afterRejection: 'screen' })).toEqual({ decision: 'test every unit', cost: 40 })
  })
})
