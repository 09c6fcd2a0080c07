// Plans that reject once it is certain, against every order of the units of small lots.
import { describe, expect, test } from 'vitest'
import { rejectingWhenCertain } from '../../../app/statistics/plans/certain.ts'
import { designDoubleForLot, doublePlan } from '../../../app/statistics/plans/double.ts'
import { designSequentialForLot } from '../../../app/statistics/plans/sequential.ts'
import { byOrders, lotOf } from './orders.ts'

const requirements = (tooMany: number) => ({
  lotSize: 60,
  producer: { nonconforming: 1, risk: 0.05 },
  consumer: { nonconforming: tooMany, risk: 0.1 },
})

describe('a plan that rejects once it is certain', () => {
  // The yardstick counts orders unit by unit in whole numbers by the definition of a plan (orders.ts).
  test.each([4, 6, 9, 14, 20])('cord by cord with %i too many: as often accepted, never more tested', (tooMany) => {
    const plan = designSequentialForLot(requirements(tooMany))
    const sooner = rejectingWhenCertain(plan)
    let saved = 0
    for (let nonconforming = 0; nonconforming <= 60; nonconforming += 3) {
      const [before, after] = [plan, sooner].map(({ stages }) => byOrders(stages, lotOf(60, nonconforming)))
      expect(after?.acceptance).toBe(before?.acceptance)
      expect(after?.averageSampleSize).toBeLessThanOrEqual(before?.averageSampleSize ?? 0)
      saved += (before?.averageSampleSize ?? 0) - (after?.averageSampleSize ?? 0)
    }
    const capped = sooner.stages.some(
      (stage, index) => stage.rejectionNumber < (plan.stages[index]?.rejectionNumber ?? 0),
    )
    expect(saved > 0).toBe(capped)
  })

  test('saves a sequential plan units, and leaves its rejection numbers in order', () => {
    const plan = designSequentialForLot(requirements(6))
    const { stages } = rejectingWhenCertain(plan)
    expect(stages).not.toEqual(plan.stages)
    for (const [index, stage] of stages.entries())
      expect(stage.rejectionNumber).toBeGreaterThanOrEqual(stages[index - 1]?.rejectionNumber ?? 0)
  })

  test('ends with the first stage that always decides', () => {
    const stages = [3, 6, 9].map((sampleSize) => ({
      sampleSize,
      acceptanceNumber: sampleSize > 3 ? 1 : 0,
      rejectionNumber: 3,
    }))
    const plan = { stages: stages.with(2, { sampleSize: 9, acceptanceNumber: 1, rejectionNumber: 2 }) }
    expect(rejectingWhenCertain(plan).stages).toEqual([
      { sampleSize: 3, acceptanceNumber: 0, rejectionNumber: 2 },
      { sampleSize: 6, acceptanceNumber: 1, rejectionNumber: 2 },
    ])
    for (let nonconforming = 0; nonconforming <= 12; nonconforming++) {
      const [before, after] = [plan, rejectingWhenCertain(plan)].map((each) =>
        byOrders(each.stages, lotOf(12, nonconforming)),
      )
      expect(after?.acceptance).toBe(before?.acceptance)
    }
  })

  test('is a double plan itself: both its samples reject from the same number', () => {
    const plan = doublePlan(designDoubleForLot(requirements(6)))
    expect(rejectingWhenCertain(plan)).toEqual(plan)
  })
})
