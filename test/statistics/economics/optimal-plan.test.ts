// Expected costs and optimal plans against exact fractions over every plan of small lots, and reference values for larger ones.
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { type EconomicModel, expectedCost } from '../../../app/statistics/economics/expected-cost.ts'
import { optimalPlan } from '../../../app/statistics/economics/optimal-plan.ts'
import { publishedRows } from '../../published/rows.ts'
import { bestInFractions, costInFractions, decimal } from './fractions.ts'

const deals: EconomicModel[] = [
  { lotSize: 24, prior: { a: 0.5, b: 24.5 }, costs: { test: 1.2, escape: 60, rejection: 0 }, afterRejection: 'screen' },
  { lotSize: 24, prior: { a: 1, b: 1 }, costs: { test: 1, escape: 2, rejection: 0 }, afterRejection: 'screen' },
  { lotSize: 24, prior: { a: 0.1, b: 1.9 }, costs: { test: 2, escape: 25, rejection: 0 }, afterRejection: 'screen' },
  { lotSize: 20, prior: { a: 40, b: 2 }, costs: { test: 1, escape: 12, rejection: 0 }, afterRejection: 'screen' },
  { lotSize: 20, prior: { a: 3, b: 57 }, costs: { test: 0.5, escape: 15, rejection: 30 }, afterRejection: 'return' },
  { lotSize: 20, prior: { a: 1, b: 9 }, costs: { test: 1, escape: 20, rejection: 60 }, afterRejection: 'return' },
  { lotSize: 20, prior: { a: 0.25, b: 0.75 }, costs: { test: 1, escape: 20, rejection: 6 }, afterRejection: 'return' },
  { lotSize: 12, prior: { a: 2, b: 5 }, costs: { test: 0, escape: 3, rejection: 2 }, afterRejection: 'return' },
  { lotSize: 12, prior: { a: 2, b: 5 }, costs: { test: 0, escape: 3, rejection: 2 }, afterRejection: 'screen' },
  { lotSize: 12, prior: { a: 2, b: 5 }, costs: { test: 1, escape: 0, rejection: 2 }, afterRejection: 'screen' },
  { lotSize: 12, prior: { a: 2, b: 5 }, costs: { test: 1, escape: 9, rejection: 0 }, afterRejection: 'return' },
  { lotSize: 1, prior: { a: 1, b: 4 }, costs: { test: 1, escape: 4, rejection: 2 }, afterRejection: 'return' },
  { lotSize: 0, prior: { a: 1, b: 4 }, costs: { test: 1, escape: 4, rejection: 2 }, afterRejection: 'screen' },
]

describe('against exact fractions, every plan of the lot tried', () => {
  test.each(deals)('$afterRejection, $lotSize units, prior $prior, costs $costs', (economicModel) => {
    const best = bestInFractions(economicModel)
    const found = optimalPlan(economicModel)
    expect([found.sampleSize, found.acceptanceNumber]).toEqual([best.sampleSize, best.acceptanceNumber])
    close(found.cost, decimal(best.cost), 1e-12)
  })

  test.each(deals.slice(0, 7))(
    'the cost of single and of double plans: $afterRejection, prior $prior',
    (economicModel) => {
      const plans = [
        [{ sampleSize: 0, acceptanceNumber: 0, rejectionNumber: 1 }],
        [{ sampleSize: 7, acceptanceNumber: 0, rejectionNumber: 1 }],
        [{ sampleSize: 7, acceptanceNumber: 7, rejectionNumber: 8 }],
        [{ sampleSize: 20, acceptanceNumber: 2, rejectionNumber: 3 }],
        [
          { sampleSize: 5, acceptanceNumber: 0, rejectionNumber: 3 },
          { sampleSize: 11, acceptanceNumber: 2, rejectionNumber: 3 },
        ],
        [
          { sampleSize: 3, acceptanceNumber: -1, rejectionNumber: 2 },
          { sampleSize: 6, acceptanceNumber: 0, rejectionNumber: 3 },
          { sampleSize: 9, acceptanceNumber: 2, rejectionNumber: 3 },
        ],
      ]
      for (const stages of plans)
        close(expectedCost(economicModel, { stages }), decimal(costInFractions(economicModel, stages)), 1e-12)
    },
  )
})

describe('against the reference values of a search in exact fractions', () => {
  const cases = publishedRows(
    'optimalplan',
    z.object({
      lotSize: z.number(),
      prior: z.object({ a: z.number(), b: z.number() }),
      costs: z.object({ test: z.number(), escape: z.number(), rejection: z.number() }),
      afterRejection: z.enum(['screen', 'return']),
    }),
    z.object({ sampleSize: z.number(), acceptanceNumber: z.number(), cost: z.number() }),
  )
  test('there are twelve', () => expect(cases).toHaveLength(12))

  test.each(cases)('$id', ({ input, recomputed }) => {
    const found = optimalPlan(input)
    expect(found.sampleSize).toBe(recomputed.sampleSize)
    expect(found.acceptanceNumber).toBe(recomputed.acceptanceNumber)
    close(found.cost, recomputed.cost, 1e-12)
  })
})

// How the best sample grows with the lot, for test 1.2, escape 60, screening: another program in double precision (base R).
test.each([
  {
    a: 0.5,
    b: 24.5,
    sizes: [
      [50, 15, 0],
      [400, 65, 1],
      [800, 78, 1],
      [1600, 125, 2],
      [3200, 176, 3],
      [6400, 273, 5],
    ],
  },
  {
    a: 2,
    b: 98,
    sizes: [
      [50, 18, 0],
      [400, 78, 1],
      [800, 128, 2],
      [1600, 224, 4],
      [3200, 326, 6],
      [6400, 477, 9],
    ],
  },
])('about the square root of the lot: prior $a, $b', ({ a, b, sizes }) => {
  for (const [lotSize, sampleSize, acceptanceNumber] of sizes)
    expect(
      optimalPlan({
        lotSize: lotSize ?? 0,
        prior: { a, b },
        costs: { test: 1.2, escape: 60, rejection: 0 },
        afterRejection: 'screen',
      }),
    ).toMatchObject({ sampleSize, acceptanceNumber })
})

test('no single plan of any lot costs less, whatever the prior and the costs', () => {
  const money = fc.double({ min: 0, max: 1000, noNaN: true })
  const parameter = fc.double({ min: 0.01, max: 1000, noNaN: true })
  fc.assert(
    fc.property(
      fc.record({
        lotSize: fc.integer({ min: 1, max: 2000 }),
        prior: fc.record({ a: parameter, b: parameter }),
        costs: fc.record({ test: money, escape: money, rejection: money }),
        afterRejection: fc.constantFrom('screen' as const, 'return' as const),
      }),
      fc.nat(),
      fc.nat(),
      (economicModel, n, c) => {
        const sampleSize = 1 + (n % economicModel.lotSize)
        const acceptanceNumber = c % (sampleSize + 1)
        const other = expectedCost(economicModel, {
          stages: [{ sampleSize, acceptanceNumber, rejectionNumber: acceptanceNumber + 1 }],
        })
        expect(optimalPlan(economicModel).cost).toBeLessThanOrEqual(other * (1 + 1e-11))
      },
    ),
    { seed: 4, numRuns: 400 },
  )
})

describe('at the ends', () => {
  const costs = { test: 1.2, escape: 60, rejection: 0 }

  test('a process almost certainly on one side of the break-even fraction is tested whole or not at all', () => {
    // Deming's rule for a process that does not vary: a prior worth 1e9 units at 1 % and at 5 %, break-even 2 %.
    const economicModel = { lotSize: 500, costs, afterRejection: 'screen' } as const
    expect(optimalPlan({ ...economicModel, prior: { a: 1e7, b: 99e7 } })).toMatchObject({
      sampleSize: 0,
      acceptanceNumber: 0,
    })
    expect(optimalPlan({ ...economicModel, prior: { a: 5e7, b: 95e7 } })).toEqual({
      sampleSize: 500,
      acceptanceNumber: 0,
      cost: 600,
    })
    // A clean sample of so bad a process has no chance that a number could hold, and still every unit is tested.
    expect(optimalPlan({ ...economicModel, lotSize: 10_000, prior: { a: 1e4, b: 1e4 } }).sampleSize).toBe(10_000)
  })

  test('a lot of ten million has its optimum too, and its neighbours cost more', () => {
    const economicModel = { lotSize: 10_000_000, prior: { a: 0.5, b: 24.5 }, costs, afterRejection: 'screen' } as const
    const { sampleSize, acceptanceNumber, cost } = optimalPlan(economicModel)
    expect({ sampleSize, acceptanceNumber }).toEqual({ sampleSize: 11_175, acceptanceNumber: 223 })
    for (const [n, c] of [
      [-50, -1],
      [-1, 0],
      [1, 0],
      [0, 1],
      [0, -1],
      [50, 1],
    ] as const)
      expect(
        expectedCost(economicModel, {
          stages: [
            {
              sampleSize: sampleSize + n,
              acceptanceNumber: acceptanceNumber + c,
              rejectionNumber: acceptanceNumber + c + 1,
            },
          ],
        }),
      ).toBeGreaterThan(cost)
  })

  test('bad arguments are refused by name', () => {
    const economicModel = { lotSize: 10, prior: { a: 1, b: 9 }, costs, afterRejection: 'screen' } as const
    expect(() => optimalPlan({ ...economicModel, lotSize: 1.5 })).toThrow('lotSize')
    expect(() => optimalPlan({ ...economicModel, prior: { a: 0, b: 9 } })).toThrow('prior.a')
    expect(() => optimalPlan({ ...economicModel, costs: { ...costs, escape: Number.NaN } })).toThrow('costs.escape')
    expect(() => optimalPlan({ ...economicModel, costs: { ...costs, test: 1e308 } })).toThrow('costs.test')
    expect(() =>
      expectedCost(economicModel, { stages: [{ sampleSize: 11, acceptanceNumber: 0, rejectionNumber: 1 }] }),
    ).toThrow('stage 1')
  })
})

function close(actual: number, wanted: number, within: number): void {
  expect(Math.abs(actual - wanted), `${actual} for ${wanted}`).toBeLessThanOrEqual(within * Math.abs(wanted))
}
