// What plans do to lots and processes, against counting every order of the units and against published figures.
import { describe, expect, test } from 'vitest'
import {
  acceptanceOfLot,
  acceptanceOfProcess,
  averageSampleSizeOfLot,
  averageSampleSizeOfProcess,
  curtailedSampleSizeOfLot,
  curtailedSampleSizeOfProcess,
  outcomesOfLot,
} from '../../../app/statistics/plans/measures.ts'
import { byOrders, lotOf, processOf } from './orders.ts'
import { fiftyHundred, sevenOfThirteen, single, stagesOf } from './published.ts'

const plans = [
  { name: 'no stages', plan: stagesOf() },
  { name: 'a sample of none', plan: single(0, 0) },
  { name: 'a plan that never accepts', plan: single(7, -1) },
  { name: 'a plan that always accepts', plan: single(10, 10) },
  { name: 'all but one may fail', plan: single(10, 9) },
  { name: 'zero acceptance', plan: single(13, 0) },
  { name: 'acceptance number 3', plan: single(20, 3) },
  { name: 'a double plan', plan: stagesOf([8, 0, 3], [20, 2, 3]) },
  { name: 'a first sample that cannot accept', plan: stagesOf([5, -1, 2], [15, 1, 2]) },
  { name: 'a first sample that cannot reject', plan: stagesOf([5, 0, 6], [15, 1, 2]) },
  { name: 'a second sample of none', plan: stagesOf([6, 0, 3], [6, 1, 2]) },
  { name: 'a lower rejection number later', plan: stagesOf([6, 0, 5], [12, 1, 2]) },
  { name: 'a first sample that decides all', plan: stagesOf([1, 5, 7], [3, 2, 43], [9, 3, 4]) },
  { name: 'four samples', plan: stagesOf([4, -1, 2], [8, 0, 3], [12, 1, 4], [20, 3, 4]) },
]
const lots = [20, 21, 24].flatMap((lotSize) =>
  [0, 1, 2, 5, 10, lotSize - 1, lotSize].map((nonconforming) => ({ lotSize, nonconforming })),
)
const thousandths = [0, 1, 20, 150, 500, 999, 1000]

function close(actual: number, exact: number): void {
  if (exact === 0) expect(actual).toBe(0)
  else expect(Math.abs(actual / exact - 1)).toBeLessThan(1e-13)
}

describe.each(plans)('$name', ({ plan }) => {
  // Source: enumeration, test/statistics/plans/orders.ts.
  test('does to every lot what counting all orders says', () => {
    for (const quality of lots) {
      const exact = byOrders(plan.stages, lotOf(quality.lotSize, quality.nonconforming))
      close(acceptanceOfLot(plan, quality), exact.acceptance)
      close(averageSampleSizeOfLot(plan, quality), exact.averageSampleSize)
      close(curtailedSampleSizeOfLot(plan, quality), exact.curtailed)
    }
  })

  test('does to a process what counting all orders says', () => {
    for (const thousandth of thousandths) {
      const exact = byOrders(plan.stages, processOf(thousandth, 1000))
      const fraction = thousandth / 1000
      close(acceptanceOfProcess(plan, fraction), exact.acceptance)
      close(averageSampleSizeOfProcess(plan, fraction), exact.averageSampleSize)
      close(curtailedSampleSizeOfProcess(plan, fraction), exact.curtailed)
    }
  })

  test('ends with one verdict or the other', () => {
    for (const quality of lots) {
      const outcomes = outcomesOfLot(plan, quality)
      const verdicts = outcomes.reduce((sum, { accepted, rejected }) => sum + accepted + rejected, 0)
      expect(verdicts).toBeCloseTo(plan.stages.length === 0 ? 0 : 1, 13)
      const exact = byOrders(plan.stages, lotOf(quality.lotSize, quality.nonconforming))
      close(
        outcomes.reduce((sum, { rejected }) => sum + rejected, 0),
        exact.rejection,
      )
    }
  })
})

describe('published figures', () => {
  test.each([
    { p: 0.01, acceptance: 0.998 },
    { p: 0.02, acceptance: 0.98 },
    { p: 0.03, acceptance: 0.93 },
    { p: 0.04, acceptance: 0.845 },
    { p: 0.05, acceptance: 0.739 },
    { p: 0.06, acceptance: 0.62 },
    { p: 0.07, acceptance: 0.502 },
    { p: 0.08, acceptance: 0.394 },
    { p: 0.09, acceptance: 0.3 },
    { p: 0.1, acceptance: 0.223 },
    { p: 0.11, acceptance: 0.162 },
    { p: 0.12, acceptance: 0.115 },
  ])('NIST/SEMATECH e-Handbook 6.2.3.2 (from memory), 52 units, acceptance number 3, at $p', ({ p, acceptance }) => {
    expect(Math.abs(acceptanceOfProcess(single(52, 3), p) - acceptance)).toBeLessThan(0.0011)
  })

  test('NIST/SEMATECH e-Handbook 6.2.4 (from memory): 50 (2) and 100 more (6) average 105.5 units at 6 %', () => {
    expect(averageSampleSizeOfProcess(stagesOf([50, 2, 7], [150, 6, 7]), 0.06)).toBeCloseTo(105.5, 1)
  })

  test('Montgomery (from memory): 50 (1) and 100 more (3) accept 5 % with .2794 + .0097 + .0013', () => {
    expect(acceptanceOfProcess(fiftyHundred, 0.05)).toBeCloseTo(0.279432 + 0.009682 + 0.0013018, 6)
  })

  // Source: the plan is printed in 46 CFR 160.066-12; the figures are recomputed in base R, independently of this engine.
  test.each([
    { p: 0.04, acceptance: 0.9982, units: 30.6 },
    { p: 0.065, acceptance: 0.9837, units: 36.9 },
    { p: 0.1, acceptance: 0.8691, units: 47 },
    { p: 0.15, acceptance: 0.4394, units: 50.1 },
    { p: 0.2, acceptance: 0.1101, units: 39.2 },
  ])('46 CFR 160.066-12, seven samples of 13, at $p', ({ p, acceptance, units }) => {
    expect(acceptanceOfProcess(sevenOfThirteen, p)).toBeCloseTo(acceptance, 4)
    expect(averageSampleSizeOfProcess(sevenOfThirteen, p)).toBeCloseTo(units, 1)
  })

  // Source: R. Simon (1989), Controlled Clinical Trials 10, tables 1 and 2 (from memory): first stage r1/n1, then r/n,
  // with the chance to stop early and the expected size at the lower rate, the one the plan accepts.
  test.each([
    { r1: 1, n1: 10, r: 5, n: 29, low: 0.1, high: 0.3, alpha: 0.05, beta: 0.2, early: 0.74, size: 15.0 },
    { r1: 3, n1: 13, r: 12, n: 43, low: 0.2, high: 0.4, alpha: 0.05, beta: 0.2, early: 0.75, size: 20.6 },
    { r1: 0, n1: 9, r: 2, n: 24, low: 0.05, high: 0.25, alpha: 0.1, beta: 0.1, early: 0.63, size: 14.5 },
  ])('Simon two-stage design $r1/$n1, $r/$n', ({ r1, n1, r, n, low, high, alpha, beta, early, size }) => {
    const plan = stagesOf([n1, r1, n1 + 1], [n, r, r + 1])
    expect(1 - acceptanceOfProcess(plan, low)).toBeLessThanOrEqual(alpha)
    expect(acceptanceOfProcess(plan, high)).toBeLessThanOrEqual(beta)
    expect(Math.abs(averageSampleSizeOfProcess(plan, low) - size)).toBeLessThan(0.051)
    expect(Math.abs(acceptanceOfProcess(single(n1, r1), low) - early)).toBeLessThan(0.0051)
  })

  // Source: 7 CFR 42.140 prints "26 percent" and "about 99 percent" for 500 units, acceptance number 3 (Poisson).
  test('7 CFR 42.140: 500 units, acceptance number 3', () => {
    expect(acceptanceOfProcess(single(500, 3), 0.01)).toBeCloseTo(0.26, 2)
    expect(acceptanceOfProcess(single(500, 3), 0.001)).toBeGreaterThan(0.99)
  })
})

describe('what is not a plan', () => {
  test.each([
    { plan: single(8.5, 0), says: 'sampleSize of stage 1' },
    { plan: single(41, 0), says: 'sampleSize of stage 1 must be a whole number from 0 to 40, not 41' },
    {
      plan: stagesOf([20, 0, 2], [10, 1, 2]),
      says: 'sampleSize of stage 2 must be a whole number from 20 to 40, not 10',
    },
    { plan: single(10, -2), says: 'acceptanceNumber of stage 1' },
    { plan: stagesOf([10, 2, 2]), says: 'rejectionNumber of stage 1' },
    { plan: stagesOf([10, 2, 4]), says: 'rejectionNumber of stage 1 must be a whole number from 3 to 3, not 4' },
    { plan: single(Number.NaN, 0), says: 'sampleSize of stage 1' },
  ])('is refused: $says', ({ plan, says }) => {
    expect(() => acceptanceOfLot(plan, { lotSize: 40, nonconforming: 4 })).toThrow(RangeError)
    expect(() => acceptanceOfLot(plan, { lotSize: 40, nonconforming: 4 })).toThrow(says)
  })

  test('a fraction too small for its reciprocal is answered as none', () => {
    expect(curtailedSampleSizeOfProcess(single(10, 0), 1e-320)).toBe(10)
  })

  test('nor is a quality outside its domain', () => {
    expect(() => acceptanceOfLot(single(1, 0), { lotSize: 4, nonconforming: 5 })).toThrow('nonconforming must be')
    expect(() => acceptanceOfProcess(single(1, 0), 1.1)).toThrow('fraction must be from 0 to 1, not 1.1')
    expect(() => acceptanceOfProcess(single(1, 0), Number.NaN)).toThrow('fraction')
  })
})
