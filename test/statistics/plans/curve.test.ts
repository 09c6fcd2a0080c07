// The whole curve of a lot, against counting every order and against one number at a time.
import { describe, expect, test } from 'vitest'
import { acceptanceCurveOfLot } from '../../../app/statistics/plans/curve.ts'
import { acceptanceOfLot } from '../../../app/statistics/plans/measures.ts'
import { byOrders, lotOf } from './orders.ts'
import { fiftyHundred, sevenOfThirteen, single, stagesOf } from './published.ts'

const small = [
  stagesOf(),
  single(0, 0),
  single(1, 0),
  single(9, -1),
  single(9, 9),
  single(9, 8),
  single(9, 2),
  stagesOf([6, 0, 3], [12, 2, 3]),
  stagesOf([4, -1, 2], [8, 0, 3], [12, 2, 3]),
  stagesOf([5, 0, 6], [12, 1, 2]),
]

describe('the acceptance curve of a lot', () => {
  // Source: enumeration, test/statistics/plans/orders.ts.
  test.each(small)('agrees with counting all orders at every number nonconforming: %j', (plan) => {
    for (const lotSize of [12, 13, 20]) {
      const curve = acceptanceCurveOfLot(plan, lotSize)
      expect(curve).toHaveLength(lotSize + 1)
      curve.forEach((acceptance, nonconforming) => {
        const exact = byOrders(plan.stages, lotOf(lotSize, nonconforming)).acceptance
        expect(Math.abs(acceptance - exact)).toBeLessThanOrEqual(1e-13 * exact)
      })
    }
  })

  // Source: the same engine's single values, which are checked against enumeration and the goldens.
  test.each([
    { plan: single(800, 12), lotSize: 1_000_000 },
    { plan: single(20_000, 300), lotSize: 100_000 },
    { plan: single(99_999, 3), lotSize: 100_000 },
    { plan: fiftyHundred, lotSize: 100_000 },
    { plan: sevenOfThirteen, lotSize: 500 },
  ])('agrees with one number at a time, also where acceptance is 1e-300, in a lot of $lotSize', ({ plan, lotSize }) => {
    const curve = acceptanceCurveOfLot(plan, lotSize)
    for (let step = 0; step <= 400; step++) {
      const nonconforming = Math.round((lotSize * step) / 400)
      const one = acceptanceOfLot(plan, { lotSize, nonconforming })
      if (one > 1e-300)
        expect(Math.abs((curve[nonconforming] ?? 0) / one - 1), `D = ${nonconforming}`).toBeLessThan(1e-11)
    }
  })

  test.each([single(800, 12), fiftyHundred])('starts at 1, never rises and stays within [0, 1]: %j', (plan) => {
    const curve = acceptanceCurveOfLot(plan, 50_000)
    expect(curve[0]).toBe(1)
    let rises = 0
    for (let D = 1; D < curve.length; D++) if ((curve[D] ?? 1) > (curve[D - 1] ?? 0) * (1 + 1e-12)) rises++
    expect(rises).toBe(0)
    expect(Math.max(...curve)).toBe(1)
  })

  test('of a lot of no units is one number, and a sample above the lot is refused', () => {
    expect([...acceptanceCurveOfLot(single(0, 0), 0)]).toEqual([1])
    expect(() => acceptanceCurveOfLot(single(5, 0), 4)).toThrow('sampleSize of stage 1')
  })
})
