// Double plans: no double plan of the lot or process that keeps both risks averages fewer units.
import { describe, expect, test } from 'vitest'
import { exceeds } from '../../../app/statistics/check.ts'
import { designDoubleForLot, designDoubleForProcess, doublePlan } from '../../../app/statistics/plans/double.ts'
import { type Law, lawOfLot, lawOfProcess } from '../../../app/statistics/plans/law.ts'
import {
  acceptanceOfLot,
  acceptanceOfProcess,
  averageSampleSizeOfLot,
  averageSampleSizeOfProcess,
  outcomesUnder,
} from '../../../app/statistics/plans/measures.ts'
import { designSingleForProcess } from '../../../app/statistics/plans/single.ts'
import { numbersFrom } from './numbers-from.ts'
import { stagesOf } from './published.ts'

type Wish = { good: Law; bad: Law; most: number; mostAccepted: number; risks: { producer: number; consumer: number } }

/** The least average at the good quality over every double plan with one rejection number, both samples within `most`. */
function bruteForce({ good, bad, most, mostAccepted, risks }: Wish): number {
  let least = Number.POSITIVE_INFINITY
  for (let n1 = 1; n1 < most && n1 < least; n1++)
    for (let a1 = 0; a1 < Math.min(n1, mostAccepted) && !exceeds(bad.atMost(a1, n1), risks.consumer); a1++)
      for (let a2 = a1 + 1; a2 <= mostAccepted; a2++)
        for (let n = n1 + 1; n <= most; n++) {
          const plan = stagesOf([n1, a1, a2 + 1], [n, a2, a2 + 1])
          const [first, second] = outcomesUnder(plan, good)
          if (!first || !second) continue
          const average = n1 + (n - n1) * second.reached
          if (average >= least || exceeds(first.rejected + second.rejected, risks.producer)) continue
          const accepted = outcomesUnder(plan, bad).reduce((sum, outcome) => sum + outcome.accepted, 0)
          if (!exceeds(accepted, risks.consumer)) least = average
        }
  return least
}

// Source: brute force over every double plan.
describe('the double plan of least average sample size', () => {
  test('for lots', () => {
    const next = numbersFrom(8)
    let none = 0
    for (let i = 0; i < 120; i++) {
      const lotSize = 2 + Math.floor(next() * 18)
      const bad = 1 + Math.floor(next() * lotSize)
      const good = Math.floor(next() * bad)
      const risks = { producer: [0.05, 0.2, 0.01, 0.4][i % 4] ?? 0.05, consumer: [0.1, 0.3, 0.02][i % 3] ?? 0.1 }
      const producer = { nonconforming: good, risk: risks.producer }
      const consumer = { nonconforming: bad, risk: risks.consumer }
      const least = bruteForce({
        good: lawOfLot({ lotSize, nonconforming: good }),
        bad: lawOfLot({ lotSize, nonconforming: bad }),
        most: lotSize,
        mostAccepted: bad - 1,
        risks,
      })
      const design = () => doublePlan(designDoubleForLot({ lotSize, producer, consumer }))
      if (least === Number.POSITIVE_INFINITY) {
        none++
        expect(design).toThrow('room for a second sample')
      } else {
        const average = averageSampleSizeOfLot(design(), { lotSize, nonconforming: good })
        expect(average / least, `${good} and ${bad} of ${lotSize}`).toBeCloseTo(1, 12)
      }
    }
    expect(none).toBeGreaterThan(0)
  })

  test.each([
    { good: 0.02, bad: 0.3, producer: 0.05, consumer: 0.1 },
    { good: 0.05, bad: 0.35, producer: 0.1, consumer: 0.05 },
    { good: 0.3, bad: 0.8, producer: 0.05, consumer: 0.1 },
    { good: 0, bad: 0.4, producer: 0.05, consumer: 0.1 },
    { good: 0.1, bad: 1, producer: 0.05, consumer: 0.1 },
  ])('for a process: $good and $bad', ({ good, bad, producer, consumer }) => {
    const wish = { producer: { fraction: good, risk: producer }, consumer: { fraction: bad, risk: consumer } }
    const plan = doublePlan(designDoubleForProcess(wish))
    const most = 36 // more than twice the single plan of each row; the design itself looks further
    expect(designSingleForProcess(wish).sampleSize).toBeLessThanOrEqual(most / 2)
    const laws = { good: lawOfProcess(good), bad: lawOfProcess(bad) }
    const least = bruteForce({ ...laws, most, mostAccepted: most - 1, risks: { producer, consumer } })
    expect(averageSampleSizeOfProcess(plan, good) / least).toBeCloseTo(1, 12)
  })

  // Source: NIST/SEMATECH e-Handbook 6.2.4, after the US Army Chemical Corps tables (READ): 108 (2) and 108 more (4) for
  // 1 % at 5 % and 5 % at 10 %.
  test('averages no more than the plan that the e-Handbook prints', () => {
    const producer = { fraction: 0.01, risk: 0.05 }
    const consumer = { fraction: 0.05, risk: 0.1 }
    const printed = stagesOf([108, 2, 5], [216, 4, 5])
    expect(acceptanceOfProcess(printed, 0.01)).toBeGreaterThanOrEqual(0.95)
    expect(acceptanceOfProcess(printed, 0.05)).toBeLessThanOrEqual(0.1)
    const plan = doublePlan(designDoubleForProcess({ producer, consumer }))
    expect(acceptanceOfProcess(plan, 0.01)).toBeGreaterThanOrEqual(0.95)
    expect(acceptanceOfProcess(plan, 0.05)).toBeLessThanOrEqual(0.1)
    const average = averageSampleSizeOfProcess(plan, 0.01)
    expect(average).toBeLessThan(averageSampleSizeOfProcess(printed, 0.01))
    expect(average).toBeLessThan(designSingleForProcess({ producer, consumer }).sampleSize)
  })

  test('keeps both risks in a lot of ten million', () => {
    const lotSize = 10_000_000
    const producer = { nonconforming: 100_000, risk: 0.05 }
    const consumer = { nonconforming: 500_000, risk: 0.1 }
    const plan = doublePlan(designDoubleForLot({ lotSize, producer, consumer }))
    expect(acceptanceOfLot(plan, { lotSize, nonconforming: 100_000 })).toBeGreaterThanOrEqual(0.95)
    expect(acceptanceOfLot(plan, { lotSize, nonconforming: 500_000 })).toBeLessThanOrEqual(0.1)
  })
})

test('a double plan is a list of two stages with one rejection number', () => {
  const numbers = { firstSample: 50, bothSamples: 150, firstAcceptance: 1, acceptanceNumber: 3 }
  expect(doublePlan(numbers)).toEqual({ kind: 'double', ...stagesOf([50, 1, 4], [150, 3, 4]) })
  expect(() => doublePlan({ ...numbers, bothSamples: 40 })).toThrow('sampleSize of stage 2')
  const risk = { nonconforming: 1, risk: 0.1 }
  expect(() => designDoubleForLot({ lotSize: 1, producer: risk, consumer: risk })).toThrow('lotSize')
  expect(() => designDoubleForLot({ lotSize: 1e9, producer: risk, consumer: { nonconforming: 9, risk: 0.1 } })).toThrow(
    'lotSize',
  )
})
