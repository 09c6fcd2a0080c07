// Units spared by stopping at the rejection number: against the plan walked unit by unit, and against every order of a small lot.
import { describe, expect, test } from 'vitest'
import { curtailedUnderPrior } from '../../../app/statistics/economics/curtailed-cost.ts'
import { outcomesOfPrior } from '../../../app/statistics/economics/outcomes.ts'
import { unitsSparedInLot, unitsSparedUnderPrior } from '../../../app/statistics/economics/stopping.ts'
import { averageSampleSizeOfLot } from '../../../app/statistics/plans/measures.ts'
import type { Stages } from '../../../app/statistics/plans/plan.ts'
import { averageUntilRejection } from '../../../app/statistics/plans/until-rejection.ts'

const plans: { what: string; plan: Stages }[] = [
  { what: 'none allowed', plan: { stages: [{ sampleSize: 48, acceptanceNumber: 0, rejectionNumber: 1 }] } },
  { what: 'three allowed', plan: { stages: [{ sampleSize: 217, acceptanceNumber: 3, rejectionNumber: 4 }] } },
  {
    what: 'two samples',
    plan: {
      stages: [
        { sampleSize: 122, acceptanceNumber: 0, rejectionNumber: 2 },
        { sampleSize: 219, acceptanceNumber: 1, rejectionNumber: 2 },
      ],
    },
  },
  {
    what: 'a later sample that may be begun with its rejection number',
    plan: {
      stages: [
        { sampleSize: 50, acceptanceNumber: 0, rejectionNumber: 5 },
        { sampleSize: 90, acceptanceNumber: 2, rejectionNumber: 4 },
        { sampleSize: 150, acceptanceNumber: 2, rejectionNumber: 3 },
      ],
    },
  },
]

const priors = [
  { a: 1, b: 9 },
  { a: 1.2, b: 0.8 },
  { a: 0.25, b: 0.65 },
  { a: 0.2497, b: 30 },
  { a: 0.9999, b: 5 },
  { a: 1 + 1e-7, b: 5 },
  { a: 3, b: 200 },
  { a: 1e10, b: 1e12 },
  { a: 1e-90, b: 1e12 },
  { a: 1e12, b: 1e-90 },
]

describe.each(plans)('$what', ({ plan }) => {
  // the walk over every unit is itself held by golden numbers (exact fractions)
  test.each(priors)('under Beta($a, $b) what is left is the average of the walk', (prior) => {
    const walked = curtailedUnderPrior(plan, { lotSize: 600, prior, costs: { test: 1, escape: 1, rejection: 1 } })
    let finished = 0
    let before = 0
    for (const { sampleSize, reached } of outcomesOfPrior(plan, prior)) {
      finished += (sampleSize - before) * reached
      before = sampleSize
    }
    const left = finished - unitsSparedUnderPrior(plan, prior)
    expect(Math.abs(left / walked.averageSampleSize - 1)).toBeLessThan(1e-9)
  })
})

describe('in a lot of known quality', () => {
  test.each([0, 1, 5, 12, 100])(
    'a single plan leaves the average until rejection, %i of 480 nonconforming',
    (nonconforming) => {
      const quality = { lotSize: 480, nonconforming }
      const stages = [{ sampleSize: 216, acceptanceNumber: 1, rejectionNumber: 2 }]
      const left = averageSampleSizeOfLot({ stages }, quality) - unitsSparedInLot({ stages }, quality)
      expect(left).toBeCloseTo(averageUntilRejection({ sampleSize: 216, acceptanceNumber: 1 }, quality), 9)
    },
  )

  test('two samples leave what every order of the lot gives', () => {
    // counted by hand over all C(6, 3) = 20 orders of 6 units with 3 nonconforming, 2 units first, then 2 more
    const stages = [
      { sampleSize: 2, acceptanceNumber: 0, rejectionNumber: 2 },
      { sampleSize: 4, acceptanceNumber: 1, rejectionNumber: 2 },
    ]
    let tested = 0
    let orders = 0
    for (let order = 0; order < 64; order++) {
      const units = Array.from({ length: 6 }, (_, at) => (order >> at) & 1)
      if (units.reduce((sum, unit) => sum + unit, 0) !== 3) continue
      orders += 1
      let found = 0
      for (let at = 0; at < 4; at++) {
        tested += 1
        found += units[at] ?? 0
        if (found === 2 || (at === 1 && found === 0)) break
      }
    }
    expect(orders).toBe(20)
    const quality = { lotSize: 6, nonconforming: 3 }
    const left = averageSampleSizeOfLot({ stages }, quality) - unitsSparedInLot({ stages }, quality)
    expect(left).toBeCloseTo(tested / orders, 12)
  })
})

test('a plan unit by unit spares nothing, and neither does testing every unit', () => {
  const stages = [1, 2, 3].map((sampleSize) => ({
    sampleSize,
    acceptanceNumber: sampleSize === 3 ? 0 : -1,
    rejectionNumber: 1,
  }))
  expect(unitsSparedUnderPrior({ stages }, { a: 1, b: 9 })).toBe(0)
  const whole = [{ sampleSize: 30, acceptanceNumber: 30, rejectionNumber: 31 }]
  expect(unitsSparedUnderPrior({ stages: whole }, { a: 1, b: 9 })).toBe(0)
})

test.each([
  { what: 'prior.a', prior: { a: 0, b: 1 } },
  { what: 'prior.b', prior: { a: 1, b: Number.NaN } },
])('refuses $what out of range by name', ({ what, prior }) => {
  expect(() => unitsSparedUnderPrior(plans[0]?.plan ?? { stages: [] }, prior)).toThrow(new RegExp(`^${what}`))
})
