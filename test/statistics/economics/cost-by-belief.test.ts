// The cost of one plan under many beliefs: against exact fractions, against the cost worked out belief by belief, and its steps counted.
import { describe, expect, test } from 'vitest'
import { costByBelief, stepsOfCost } from '../../../app/statistics/economics/cost-by-belief.ts'
import { type EconomicModel, expectedCost } from '../../../app/statistics/economics/expected-cost.ts'
import { rejectingWhenCertain } from '../../../app/statistics/plans/certain.ts'
import { endingsOf, undecidedBefore } from '../../../app/statistics/plans/passage.ts'
import type { Stages } from '../../../app/statistics/plans/plan.ts'
import { designSequentialForLot } from '../../../app/statistics/plans/sequential.ts'
import { costInFractions, decimal } from './fractions.ts'

const costs = { test: 1.2, escape: 60, rejection: 30 }
const stage = (sampleSize: number, acceptanceNumber: number, rejectionNumber: number) => ({
  sampleSize,
  acceptanceNumber,
  rejectionNumber,
})
const plans: Record<string, Stages> = {
  none: { stages: [] },
  'none allowed': { stages: [stage(7, 0, 1)] },
  'every unit': { stages: [stage(12, 12, 13)] },
  'one unit': { stages: [stage(1, 0, 1)] },
  double: { stages: [stage(4, 0, 3), stage(9, 2, 3)] },
  'three samples, the last of one unit': { stages: [stage(3, -1, 2), stage(6, 0, 3), stage(7, 2, 3)] },
  'unit by unit': {
    stages: [
      stage(1, -1, 2),
      stage(2, -1, 2),
      stage(3, -1, 2),
      stage(4, 0, 3),
      stage(5, 0, 3),
      stage(6, 1, 3),
      stage(7, 2, 3),
    ],
  },
}
const beliefs = [
  { a: 0.5, b: 24.5 },
  { a: 1, b: 1 },
  { a: 0.25, b: 0.75 },
  { a: 40, b: 2 },
]
const deals = (['return', 'screen'] as const).flatMap((afterRejection) =>
  beliefs.map((prior) => ({ lotSize: 12, prior, costs, afterRejection })),
)

describe.each(Object.entries(plans))('%s', (_name, plan) => {
  test.each(deals)('costs what exact fractions say: $afterRejection, $prior', ({ prior, ...terms }) => {
    const exact = decimal(costInFractions({ ...terms, prior }, plan.stages))
    expect(Math.abs(costByBelief(terms, plan)(prior) / exact - 1)).toBeLessThan(1e-12)
  })
})

const terms = {
  lotSize: 10_000,
  costs: { test: 160, escape: 9500, rejection: 32_000 },
  afterRejection: 'return' as const,
}
const long = rejectingWhenCertain(
  designSequentialForLot({
    lotSize: 10_000,
    producer: { nonconforming: 50, risk: 0.05 },
    consumer: { nonconforming: 100, risk: 0.1 },
  }),
)
const wide: Stages = { stages: [stage(3000, 700, 1200), stage(6000, 1900, 1901)] }

describe.each(Object.entries({ 'a plan of thousands of stages': long, 'two samples that allow hundreds': wide }))(
  '%s',
  (_name, plan) => {
    const known = (fraction: number) => ({ a: fraction * 1e12, b: (1 - fraction) * 1e12 })
    const far: EconomicModel['prior'][] = [
      { a: 0.6, b: 28 },
      { a: 1e-7, b: 0.1 },
      { a: 300, b: 0.01 },
      { a: 1e-90, b: 5 },
      { a: 5, b: 1e-90 },
      { a: 1e-90, b: 1e12 },
      { a: 1e12, b: 1e-90 },
    ]

    test.each([...far, known(0.004), known(0.02), known(0.3), known(0.999)])(
      'belief $a, $b: as worked out for it alone',
      (prior) => {
        const alone = expectedCost({ ...terms, prior }, plan)
        expect(Math.abs(costByBelief(terms, plan)(prior) / alone - 1)).toBeLessThan(1e-10)
      },
    )
  },
)

describe('steps', () => {
  test('unit by unit: no more moves from end to end than foretold', () => {
    let moves = 0
    for (const verdict of ['accepting', 'rejecting'] as const) {
      let at = { tested: 0, found: 0 }
      for (const end of endingsOf(long).flatMap((each) => each?.[verdict] ?? [])) {
        moves += end.tested - at.tested + Math.abs(end.found - at.found)
        at = end
      }
    }
    expect(moves).toBeGreaterThan(long.stages.length)
    expect(moves).toBeLessThanOrEqual(stepsOfCost(long))
  })

  test('stages of many units: one for each count that accepts or goes on', () => {
    const going = undecidedBefore(wide)
      .slice(1)
      .reduce((sum, { share }) => sum + share.length, 0)
    expect(going).toBe(499)
    expect(stepsOfCost(wide)).toBe(going + 1901)
  })
})

test('a belief or a plan out of range is refused', () => {
  expect(() => costByBelief(terms, { stages: [stage(10_001, 0, 1)] })).toThrow('sampleSize of stage 1')
  expect(() => costByBelief(terms, long)({ a: 0, b: 1 })).toThrow('prior.a')
})
