// The published attributes tables: positions that were read, the table's own rule, arrows, and what the plans protect.
import { describe, expect, test } from 'vitest'
import { acceptanceOfLot, acceptanceOfProcess, averageSampleSizeOfLot } from '../../../app/statistics/plans/measures.ts'
import { acceptanceNumberOneStepTighter, standardPlan, tablePlan } from '../../../app/statistics/plans/standard.ts'
import { singleNormal } from '../../../app/statistics/plans/tables/single-normal.ts'
import { singleTightened } from '../../../app/statistics/plans/tables/single-tightened.ts'
import {
  type AcceptanceQualityLimit,
  acceptanceQualityLimits,
  type CodeLetter,
  type Table,
} from '../../../app/statistics/plans/tables/table.ts'

const single = { sampling: 'single', inspection: 'normal' } as const
const double = { sampling: 'double', inspection: 'normal' } as const

describe('single plans', () => {
  // Positions read in a United States government guide to Tables II-A and II-B, and J at 0.65 in A. Birolini, Reliability
  // Engineering, fig. 7.4 (read); K at 0.65 in Montgomery's textbook (from memory).
  test.each([
    ['normal', 'K', '1.0', 125, 3],
    ['normal', 'J', '1.0', 80, 2],
    ['normal', 'L', '0.65', 200, 3],
    ['normal', 'G', '4.0', 32, 3],
    ['normal', 'K', '0.65', 125, 2],
    ['tightened', 'K', '0.65', 125, 1],
    ['normal', 'F', '0.65', 20, 0],
    ['normal', 'H', '1.0', 50, 1],
    ['normal', 'J', '0.65', 80, 1],
    ['normal', 'N', '0.65', 500, 7],
    ['tightened', 'A', '10', 8, 1],
    ['tightened', 'S', '0.025', 3150, 1],
  ] as const)('%s, letter %s at %s', (inspection, codeLetter, acceptanceQualityLimit, sampleSize, acceptanceNumber) => {
    const found = tablePlan({ sampling: 'single', inspection, codeLetter, acceptanceQualityLimit })
    expect(found.plan.stages).toEqual([{ sampleSize, acceptanceNumber, rejectionNumber: acceptanceNumber + 1 }])
  })

  // The arrows of Table II-A: the plan found is used with its own sample size.
  test.each([
    ['G', '1.0', 'H', 50, 1],
    ['H', '0.65', 'J', 80, 1],
    ['F', '1.0', 'E', 13, 0],
    ['E', '0.65', 'F', 20, 0],
    ['J', '0.25', 'H', 50, 0],
    ['L', '0.10', 'K', 125, 0],
    ['F', '1.5', 'G', 32, 1],
    ['A', '0.010', 'Q', 1250, 0],
    ['R', '10', 'K', 125, 21],
  ] as const)(
    'letter %s at %s leads to %s',
    (asked, acceptanceQualityLimit, codeLetter, sampleSize, acceptanceNumber) => {
      const found = tablePlan({ ...single, codeLetter: asked, acceptanceQualityLimit })
      expect(found).toMatchObject({
        askedLetter: asked,
        codeLetter,
        plan: { stages: [{ sampleSize, acceptanceNumber }] },
      })
    },
  )

  test('under reduced inspection a lot between the numbers is accepted and its plan says up to where nothing changes', () => {
    // Montgomery, Introduction to Statistical Quality Control: K at 0.65 reduced is 50, 1, 3 (from memory).
    const found = tablePlan({
      sampling: 'single',
      inspection: 'reduced',
      codeLetter: 'K',
      acceptanceQualityLimit: '0.65',
    })
    expect(found.plan.stages).toEqual([{ sampleSize: 50, acceptanceNumber: 2, rejectionNumber: 3 }])
    expect(found.staysUpTo).toBe(1)
  })

  // Chance to accept at the limit itself over all cells with that acceptance number, recomputed by base R for the published cells.
  test.each([
    { table: singleNormal, ranges: { 0: [0.874, 0.887], 1: [0.904, 0.919], 2: [0.951, 0.962], 3: [0.957, 0.967] } },
    { table: singleNormal, ranges: { 5: [0.982, 0.989], 7: [0.982, 0.989], 10: [0.983, 0.991], 14: [0.981, 0.99] } },
    { table: singleTightened, ranges: { 0: [0.81, 0.829], 1: [0.795, 0.827], 2: [0.857, 0.881], 3: [0.848, 0.88] } },
    { table: singleTightened, ranges: { 5: [0.889, 0.918], 8: [0.919, 0.95], 12: [0.931, 0.959], 18: [0.931, 0.964] } },
  ])('accept at the limit as often as published: $table.title', ({ table, ranges }) => {
    for (const [acceptanceNumber, [least, most]] of Object.entries(ranges)) {
      const chances = plansWith(table, Number(acceptanceNumber)).map(({ sampleSize, limit }) =>
        acceptanceOfProcess(
          {
            stages: [
              { sampleSize, acceptanceNumber: Number(acceptanceNumber), rejectionNumber: Number(acceptanceNumber) + 1 },
            ],
          },
          Number(limit) / 100,
        ),
      )
      expect(Math.min(...chances)).toBeGreaterThanOrEqual((least ?? 1) - 0.0005)
      expect(Math.max(...chances)).toBeLessThanOrEqual((most ?? 0) + 0.0005)
    }
  })
})

describe('double plans', () => {
  // UK SI 1996/2636, Schedule 2 (read), prints both as the doubles of 80, 1 and of 125, 2.
  test.each([
    [
      'J',
      [
        [50, 0, 2],
        [100, 1, 2],
      ],
    ],
    [
      'K',
      [
        [80, 0, 3],
        [160, 3, 4],
      ],
    ],
  ] as const)('letter %s at 0.65 is the one in the published schedule', (codeLetter, stages) => {
    const found = tablePlan({ ...double, codeLetter, acceptanceQualityLimit: '0.65' })
    expect(found.plan.stages.map((s) => [s.sampleSize, s.acceptanceNumber, s.rejectionNumber])).toEqual(stages)
    expect(found.standing).toBe('read')
  })

  test('where the table refers to the single plan, that one is taken', () => {
    const found = tablePlan({ ...double, codeLetter: 'E', acceptanceQualityLimit: '0.65' })
    expect(found).toMatchObject({
      askedLetter: 'E',
      codeLetter: 'F',
      plan: { stages: [{ sampleSize: 20, acceptanceNumber: 0 }] },
    })
  })

  // Poisson means in units of the single sample at which the published doubles accept 95, 50 and 10 of 100 (recomputed in base
  // R for the recalled plans, with the nominal ratio 10^-0.2 of the first sample to the single one); letter R has samples so
  // large that binomial and Poisson agree.
  test.each([
    ['0.025', 'normal', [0.327, 1.592, 3.94]],
    ['0.040', 'normal', [1.005, 2.874, 5.383]],
    ['0.065', 'normal', [1.583, 3.9, 6.96]],
    ['0.10', 'normal', [2.579, 5.522, 9.146]],
    ['0.15', 'normal', [3.841, 7.276, 11.332]],
    ['0.25', 'normal', [6.194, 10.543, 15.399]],
    ['0.40', 'normal', [9.252, 14.693, 20.13]],
    ['0.65', 'normal', [14.76, 21.34, 27.78]],
    ['0.25', 'tightened', [4.892, 8.905, 13.051]],
  ] as const)('R at %s, %s, accepts where it should', (acceptanceQualityLimit, inspection, means) => {
    const { plan } = tablePlan({ sampling: 'double', inspection, codeLetter: 'R', acceptanceQualityLimit })
    for (const [i, acceptance] of [0.95, 0.5, 0.1].entries())
      expect(acceptanceOfProcess(plan, (means[i]! * 10 ** -0.2) / 1250)).toBeCloseTo(acceptance, 2)
  })

  test('a lot of 2000 at 1.0: the worked scenario of the trade, acceptance and average sample size', () => {
    // Own scenario, computed in base R.
    const { plan } = standardPlan({ ...double, lotSize: 2000, level: 'II', acceptanceQualityLimit: '1.0' })
    expect(acceptanceOfLot(plan, { lotSize: 2000, nonconforming: 20 })).toBeCloseTo(0.982050834526, 11)
    expect(averageSampleSizeOfLot(plan, { lotSize: 2000, nonconforming: 20 })).toBeCloseTo(94.5731987644, 9)
    expect(acceptanceOfLot(plan, { lotSize: 2000, nonconforming: 80 })).toBeCloseTo(0.271672258248, 11)
    expect(averageSampleSizeOfLot(plan, { lotSize: 2000, nonconforming: 80 })).toBeCloseTo(115.298673041, 8)
  })
})

describe('a delivery', () => {
  // Scenarios of common practice, answers by the tables: 480 cords at 1.0 are H; 240 are G and lead down to H; 36 are D, down to E.
  test.each([
    { lotSize: 480, asked: 'H', letter: 'H', sampleSize: 50, acceptanceNumber: 1 },
    { lotSize: 240, asked: 'G', letter: 'H', sampleSize: 50, acceptanceNumber: 1 },
    { lotSize: 36, asked: 'D', letter: 'E', sampleSize: 13, acceptanceNumber: 0 },
  ])('of $lotSize at 1.0', ({ lotSize, asked, letter, sampleSize, acceptanceNumber }) => {
    expect(standardPlan({ ...single, lotSize, level: 'II', acceptanceQualityLimit: '1.0' })).toMatchObject({
      askedLetter: asked,
      codeLetter: letter,
      everyUnit: false,
      plan: { stages: [{ sampleSize, acceptanceNumber }] },
    })
  })

  test('is tested whole where the sample reaches the lot, and its second sample ends with it', () => {
    // "If the sample size equals or exceeds the lot size, inspect 100 %": note under the tables (from memory).
    const whole = standardPlan({ ...single, lotSize: 13, level: 'II', acceptanceQualityLimit: '1.0' })
    expect(whole).toMatchObject({ everyUnit: true, plan: { stages: [{ sampleSize: 13, acceptanceNumber: 0 }] } })
    const small = standardPlan({ ...double, lotSize: 9, level: 'II', acceptanceQualityLimit: '10' })
    expect(small.plan.stages).toMatchObject([{ sampleSize: 3 }, { sampleSize: 6 }])
    const cut = standardPlan({ ...double, lotSize: 5, level: 'II', acceptanceQualityLimit: '10' })
    expect(cut.plan.stages).toMatchObject([{ sampleSize: 3 }, { sampleSize: 5, acceptanceNumber: 1 }])
  })

  test('says how each plan became known, by the weakest position on the way', () => {
    const standing = (
      inspection: 'normal' | 'tightened' | 'reduced',
      codeLetter: CodeLetter,
      limit: AcceptanceQualityLimit,
    ) => tablePlan({ sampling: 'single', inspection, codeLetter, acceptanceQualityLimit: limit }).standing
    expect(standing('normal', 'K', '1.0')).toBe('read')
    expect(standing('normal', 'L', '0.10')).toBe('derived')
    expect(standing('normal', 'R', '0.65')).toBe('derived')
    expect(standing('tightened', 'K', '1.0')).toBe('read')
    expect(standing('tightened', 'M', '1.0')).toBe('recalled')
    expect(standing('tightened', 'K', '0.40')).toBe('recalled')
    expect(standing('reduced', 'K', '1.0')).toBe('recalled')
    expect(tablePlan({ ...double, codeLetter: 'K', acceptanceQualityLimit: '1.0' }).standing).toBe('recalled')
  })

  test('bad questions are refused by name', () => {
    expect(() => tablePlan({ ...single, codeLetter: 'S', acceptanceQualityLimit: '1.0' })).toThrow(
      'codeLetter must be one of A',
    )
    expect(() => standardPlan({ ...single, lotSize: 2.5, level: 'II', acceptanceQualityLimit: '1.0' })).toThrow(
      'lotSize',
    )
  })
})

test('one step tighter in the same row: the acceptance numbers of the switching score', () => {
  // ISO 2859-1:1999, 9.3.3.2 (from memory): 2 → 1, 3 → 2, 5 → 3, 7 → 5, 10 → 7, 14 → 10, 21 → 14.
  const limits = ['1.0', '1.5', '2.5', '4.0', '6.5', '10'] as const
  expect(limits.map((limit) => acceptanceNumberOneStepTighter('J', limit))).toEqual([1, 2, 3, 5, 7, 10])
  expect(acceptanceNumberOneStepTighter('K', '10')).toBe(14)
  expect(() => acceptanceNumberOneStepTighter('J', '0.65')).toThrow('J accepts 2 or more')
})

function plansWith(table: Table, acceptanceNumber: number) {
  return [...table.rows.values()].flatMap(({ sampleSize, cells }) =>
    cells.flatMap((cell, column) =>
      typeof cell !== 'string' && cell[0]?.acceptanceNumber === acceptanceNumber
        ? [{ sampleSize, limit: acceptanceQualityLimits[column] }]
        : [],
    ),
  )
}
