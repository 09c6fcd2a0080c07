// The plan looked at unit by unit, against the plan itself: the same acceptance, and the average length of curtailed testing.
import { describe, expect, test } from 'vitest'
import { curtailed } from '../../../app/statistics/bounds/curtailed.ts'
import {
  acceptanceOfLot,
  acceptanceOfProcess,
  averageSampleSizeOfLot,
  averageSampleSizeOfProcess,
  curtailedSampleSizeOfLot,
  curtailedSampleSizeOfProcess,
} from '../../../app/statistics/plans/measures.ts'

const single = { stages: [{ sampleSize: 20, acceptanceNumber: 1, rejectionNumber: 2 }] }
const double = {
  stages: [
    { sampleSize: 10, acceptanceNumber: 0, rejectionNumber: 3 },
    { sampleSize: 25, acceptanceNumber: 2, rejectionNumber: 3 },
  ],
}

describe('a curtailed plan', () => {
  test.each([single, double])('accepts exactly what the plan accepts', (plan) => {
    for (const curtailment of ['at rejection', 'at either verdict'] as const) {
      const byUnit = curtailed(plan, curtailment)
      for (const fraction of [0, 0.03, 0.2, 1])
        expect(acceptanceOfProcess(byUnit, fraction)).toBeCloseTo(acceptanceOfProcess(plan, fraction), 13)
      const lot = { lotSize: 60, nonconforming: 7 }
      expect(acceptanceOfLot(byUnit, lot)).toBeCloseTo(acceptanceOfLot(plan, lot), 13)
    }
  })

  // By hand: with nothing nonconforming 19 conforming of 20 settle it (one more may fail); with nothing but, the second.
  test('stops where the verdict is certain', () => {
    const both = curtailed(single, 'at either verdict')
    expect(averageSampleSizeOfProcess(both, 0)).toBe(19)
    expect(averageSampleSizeOfProcess(both, 1)).toBe(2)
    expect(averageSampleSizeOfProcess(curtailed(single, 'at rejection'), 0)).toBe(20)
  })

  // Source: base R 4.2, sum((2:20)*dnbinom(0:18,2,.1)) + 20*pbinom(1,20,.1).
  test('stopped at rejection it takes as long as the negative binomial law says', () => {
    expect(averageSampleSizeOfProcess(curtailed(single, 'at rejection'), 0.1)).toBeCloseTo(14.8667634728, 9)
  })

  // Source: the closed sums behind curtailedSampleSizeOf…, which never look at single units.
  test.each([single, double])('stopped at either verdict it takes as long as curtailed inspection does', (plan) => {
    const byUnit = curtailed(plan, 'at either verdict')
    for (const fraction of [0, 0.05, 0.3, 1])
      expect(averageSampleSizeOfProcess(byUnit, fraction)).toBeCloseTo(curtailedSampleSizeOfProcess(plan, fraction), 11)
    for (const nonconforming of [0, 3, 30, 60]) {
      const lot = { lotSize: 60, nonconforming }
      expect(averageSampleSizeOfLot(byUnit, lot)).toBeCloseTo(curtailedSampleSizeOfLot(plan, lot), 11)
    }
  })
})
