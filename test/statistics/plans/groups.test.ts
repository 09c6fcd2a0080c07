// Plans by groups: both risks by whole-number enumeration, no fewer groups that keep them, and the measures of plans of many stages.
import { describe, expect, test } from 'vitest'
import { unitsSparedInLot } from '../../../app/statistics/economics/stopping.ts'
import { rejectingWhenCertain } from '../../../app/statistics/plans/certain.ts'
import { designGroupsForLot } from '../../../app/statistics/plans/groups.ts'
import {
  acceptanceOfLot,
  acceptanceOfProcess,
  averageSampleSizeOfLot,
  averageSampleSizeOfProcess,
  curtailedSampleSizeOfLot,
  outcomesOfLot,
} from '../../../app/statistics/plans/measures.ts'
import { checkStages } from '../../../app/statistics/plans/plan.ts'
import { TooManySteps } from '../../../app/statistics/steps.ts'
import { byOrders, lotOf, processOf, type Stage } from './orders.ts'

const wanted = (lotSize: number, good: number, bad: number, groupSize: number) => ({
  lotSize,
  producer: { nonconforming: good, risk: 0.05 },
  consumer: { nonconforming: bad, risk: 0.1 },
  groupSize,
})

/** Wald's lines as the NIST/SEMATECH e-Handbook 6.2.6 writes them, worked here anew. */
function numbersOnLines({ lotSize, producer, consumer }: ReturnType<typeof wanted>, n: number) {
  const p1 = producer.nonconforming / lotSize
  const p2 = consumer.nonconforming / lotSize
  const k = Math.log((p2 * (1 - p1)) / (p1 * (1 - p2)))
  const s = Math.log((1 - p1) / (1 - p2)) / k
  const h1 = Math.log((1 - producer.risk) / consumer.risk) / k
  const h2 = Math.log((1 - consumer.risk) / producer.risk) / k
  return { accept: Math.max(-1, Math.floor(s * n - h1)), reject: Math.ceil(s * n + h2) }
}

describe('a plan by groups', () => {
  const cases = [
    [480, 5, 24, 30],
    [480, 1, 9, 30],
    [240, 2, 12, 20],
    [100, 1, 6, 30],
    [60, 3, 12, 7],
  ] as const

  test.each(cases)('%i cords, %i against %i, in groups of %i: keeps both risks by enumeration', (N, good, bad, m) => {
    const { stages } = designGroupsForLot(wanted(N, good, bad, m))
    checkStages({ stages }, N)
    expect(stages.map(({ sampleSize }) => sampleSize)).toEqual(stages.map((_, at) => Math.min(N, (at + 1) * m)))
    expect(byOrders(stages, lotOf(N, good)).rejection).toBeLessThanOrEqual(0.05)
    expect(byOrders(stages, lotOf(N, bad)).acceptance).toBeLessThanOrEqual(0.1)
  })

  test.each(cases)('%i cords, %i against %i, in groups of %i: no fewer groups do', (N, good, bad, m) => {
    const asked = wanted(N, good, bad, m)
    const plan = designGroupsForLot(asked)
    const last = plan.stages.length
    for (let groups = 1; groups <= last; groups++) {
      const sizes = Array.from({ length: groups }, (_, at) => Math.min(N, (at + 1) * m))
      const stages: Stage[] = sizes.map((sampleSize) => {
        const { accept, reject } = numbersOnLines(asked, sampleSize)
        return { sampleSize, acceptanceNumber: accept, rejectionNumber: reject }
      })
      const end = stages.pop() ?? { sampleSize: 0, acceptanceNumber: -1, rejectionNumber: 0 }
      const most = groups === last ? (plan.stages.at(-1)?.acceptanceNumber ?? 0) : end.rejectionNumber
      for (let c = Math.max(0, end.acceptanceNumber); c < most; c++) {
        const tried = [...stages, { ...end, acceptanceNumber: c, rejectionNumber: c + 1 }]
        const keeps =
          byOrders(tried, lotOf(N, good)).rejection <= 0.05 && byOrders(tried, lotOf(N, bad)).acceptance <= 0.1
        expect(keeps, `${groups} groups, ${c} allowed`).toBe(false)
      }
    }
  })

  test('of a lot that ends within a group tests its last cords too', () => {
    const { stages } = designGroupsForLot(wanted(100, 1, 2, 30))
    expect(stages.at(-1)?.sampleSize).toBe(100)
  })

  test('is 30 cords where nothing is said', () => {
    const { groupSize, ...asked } = wanted(480, 5, 24, 30)
    expect(designGroupsForLot(asked)).toEqual(designGroupsForLot({ ...asked, groupSize }))
  })

  test('is refused where there is none, and told apart from one that takes too long', () => {
    expect(() => designGroupsForLot(wanted(1_000_000, 1, 5, 30))).toThrow('groups of 30 keep within 9990 units')
    expect(() => designGroupsForLot(wanted(1_000_000, 1, 5, 30))).not.toThrow(TooManySteps)
    expect(() => designGroupsForLot(wanted(10_000, 99, 100, 30))).toThrow(TooManySteps)
    expect(() => designGroupsForLot(wanted(480, 0, 5, 30))).toThrow('producer.fraction')
    expect(() => designGroupsForLot({ ...wanted(480, 5, 24, 30), groupSize: 0 })).toThrow('groupSize')
  })
})

describe('the measures of many stages equal the enumeration of all orders', () => {
  const plan = rejectingWhenCertain(designGroupsForLot(wanted(480, 5, 24, 10)))

  test.each([0, 1, 5, 12, 24, 60, 479])('of a lot of 480 with %i', (nonconforming) => {
    const exact = byOrders(plan.stages, lotOf(480, nonconforming))
    const quality = { lotSize: 480, nonconforming }
    const equal = (measured: number, value: number) =>
      expect(Math.abs(measured - value)).toBeLessThanOrEqual(1e-11 * value + Number.MIN_VALUE)
    equal(acceptanceOfLot(plan, quality), exact.acceptance)
    equal(averageSampleSizeOfLot(plan, quality), exact.averageSampleSize)
    equal(curtailedSampleSizeOfLot(plan, quality), exact.curtailed)
    expect(outcomesOfLot(plan, quality).reduce((sum, { rejected }) => sum + rejected, 0)).toBeCloseTo(
      exact.rejection,
      11,
    )
  })

  test.each([1, 3, 40])('of a process with %i in 100', (nonconforming) => {
    const exact = byOrders(plan.stages, processOf(nonconforming, 100))
    expect(acceptanceOfProcess(plan, nonconforming / 100) / exact.acceptance).toBeCloseTo(1, 11)
    expect(averageSampleSizeOfProcess(plan, nonconforming / 100) / exact.averageSampleSize).toBeCloseTo(1, 11)
  })

  test('of a lot of 3,000 in groups of 30: some 90 looks, each accepting and rejecting', () => {
    const { stages } = designGroupsForLot(wanted(3000, 50, 65, 30))
    expect(stages.length).toBeGreaterThan(50)
    for (const nonconforming of [50, 65]) {
      const exact = byOrders(stages, lotOf(3000, nonconforming))
      const quality = { lotSize: 3000, nonconforming }
      expect(acceptanceOfLot({ stages }, quality) / exact.acceptance).toBeCloseTo(1, 10)
      expect(averageSampleSizeOfLot({ stages }, quality) / exact.averageSampleSize).toBeCloseTo(1, 10)
      expect(curtailedSampleSizeOfLot({ stages }, quality) / exact.curtailed).toBeCloseTo(1, 10)
    }
  })

  test('a stop at the rejection number spares what the walk unit by unit says', () => {
    const stages = [
      { sampleSize: 3, acceptanceNumber: -1, rejectionNumber: 2 },
      { sampleSize: 6, acceptanceNumber: 0, rejectionNumber: 2 },
      { sampleSize: 8, acceptanceNumber: 1, rejectionNumber: 2 },
    ]
    // By hand over C(10, 2) = 45 places of two nonconforming of ten: with the later at place t there are t − 1 pairs. Rejected are those
    // with t up to 8; stopping at t spares 3 − t for t 2 and 3, 6 − t for t 4 to 6, 8 − t for 7 and 8.
    const spared = (1 * 1 + 0 * 2 + 2 * 3 + 1 * 4 + 0 * 5 + 1 * 6 + 0 * 7) / 45
    expect(unitsSparedInLot({ stages }, { lotSize: 10, nonconforming: 2 })).toBeCloseTo(spared, 12)
  })
})
